"""The class as lines of text, for screen readers, pipes and logs: one line an event, no redraw."""

import threading
from collections.abc import Callable, Iterable, Sequence
from typing import TextIO

from conductor.engine.model import Command, Do, Happening, Snapshot, State
from conductor.score.model import Moment, Score
from conductor.sides import Breath
from conductor.view import rehearsing
from conductor.view.actions import EVERY, Action, keys_of, named, typed
from conductor.view.clean import clean
from conductor.view.faces import face, next_index, part_of, place_of, same_shape
from conductor.view.glass import Glass, Mirror
from conductor.view.leading import Telling
from conductor.view.look import owed
from conductor.view.mirror import exchanged, exchanged_place, mark, mirrored_face
from conductor.view.rehearsing import Rehearsing
from conductor.view.spell import against, clock, left

WORDS = {Breath.IN: "Inhale", Breath.OUT: "Exhale", Breath.FREE: "Own breath"}
AGAIN_MS = 10_000
AS_IS = Mirror()
WAIT_S = 1.0  # how long one wait for news may last; news end it at once
LEADING = "Leading."  # what every moment says by itself
STOPPING = ("Stopped.", "stopped.", "Silence.")  # after these everything waits
YES = ("y", "yes")


def lines(happenings: Iterable[Happening], snapshot: Snapshot, mirror: Mirror = AS_IS) -> list[str]:
    """What happened as lines, each with its time; the snapshot names the score they belong to."""
    news = tuple(happenings)
    obeyed = {one.now for one in news if one.kind in ("command", "slept")}
    told = [
        (one, _words(one, snapshot, mirror))
        for one in news
        if one.kind != "state" or one.now not in obeyed  # the reply has said it
    ]
    return [f"[{clock(one.now - snapshot.begun)}] {words}" for one, words in told if words]


def _words(one: Happening, snapshot: Snapshot, mirror: Mirror) -> str:
    """The words for one happening, or "" for what would only be noise."""
    said = clean(one.words)
    if one.kind in ("command", "state", "slept") and said.endswith(STOPPING):
        return f'{said} Type "go on".'
    if one.kind == "moment":
        line = moment_line(snapshot.score, one.moment, snapshot.level, mirror)
        return said if line is None else line
    return {
        "state": "" if said == LEADING else said,
        "part": f"Part: {said}.",
        "cue": f"Say: {exchanged(said) if mirror.cues else said}",
        "bell": said or "Bell.",
        "refused": f"Not done: {said}",
        "command": said,
        "slept": said,
        "offer": said,
        "kept": said,
        "held": _held(one),
        "finished": said or "The class is over.",
    }.get(one.kind, "")


def _held(one: Happening) -> str:
    """One line a breath while holding, on its inhale."""
    return clean(one.words) if dict(one.data).get("breath", "in") == "in" else ""


def moment_line(
    score: Score, moment_id: str, level: str = "", mirror: Mirror = AS_IS
) -> str | None:
    """A movement with its side and what comes next; within a stay only the count of breaths.

    None where the score, refitted since, no longer has the moment.
    """
    index = next((at for at, one in enumerate(score.moments) if one.id == moment_id), None)
    if index is None:
        return None
    moment = score.moments[index]
    if index and same_shape(score.moments[index - 1], moment):
        return _within(moment)
    here, told = face(score, index, level), _told(score, index, level, mirror)
    stay = f" Stay {here.stay}." if here.stay else ""
    return f"{WORDS[moment.breath]}: {told}.{stay}{_next(score, index, level, mirror)}"


def _told(score: Score, index: int, level: str, mirror: Mirror) -> str:
    """A shape with its side, and with a mark of whose side that is where there is a mirror."""
    here, side = face(score, index, level), score.moments[index].side
    phrase = (mirrored_face(here) if mirror.screen else here).phrase
    return f"{phrase} [{mark(side, mirror)}]" if side and mirror.on else phrase


def _within(moment: Moment) -> str:
    """One line a breath, on the inhale or where the stay begins."""
    breath, of = moment.of_stay
    if of and moment.breath is Breath.IN:
        return f"Breath {breath} of {of}."
    return "" if of or moment.breath is Breath.FREE else f"{WORDS[moment.breath]}."


def _next(score: Score, index: int, level: str, mirror: Mirror) -> str:
    at = next_index(score, index)
    if at is None:
        return ""
    coming = face(score, at, level)
    return f" Next: {(mirrored_face(coming) if mirror.screen else coming).phrase}."


def status_line(snapshot: Snapshot, now: int, mirror: Mirror = AS_IS) -> str:
    """Where the class stands, when somebody asks."""
    score, index = snapshot.score, snapshot.index
    here = _told(score, index, snapshot.level, mirror)
    place = place_of(score.moments[index])
    place = exchanged_place(place) if mirror.screen else place
    where = (part_of(score, index), place, here)
    to_end = left(snapshot.ends_at - now)
    over = against(snapshot.ends_at - snapshot.planned_end)
    said = ", ".join(words for words in where if words)
    due = exchanged_place(owed(snapshot)) if mirror.screen else owed(snapshot)
    owing = f" The {due}." if snapshot.owed else ""
    last = f" Last: {clean(snapshot.reply.told)}" if snapshot.reply else ""
    return f"{snapshot.state}: {said}. {to_end} to the end, {over}.{owing}{last}"


def help_lines(actions: Sequence[Action] = EVERY) -> list[str]:
    """What can be typed, a line each."""
    given = [(one, keys_of(one)) for one in (*(one for one in actions if one.do), *_own(actions))]
    typing = [f"{one.id}{f' ({keys})' if keys else ''}: {one.help}" for one, keys in given]
    return ["Type a word or its first letters, then Enter.", *typing, "where: where the class is."]


def _own(actions: Sequence[Action]) -> tuple[Action, ...]:
    """What lines of text can do by themselves."""
    return tuple(one for one in actions if one.id == "mirror")


class Listener:
    """Takes typed lines and posts what they mean; ending the class needs a second word."""

    def __init__(
        self,
        leading: Telling,
        tell: Callable[[str], None],
        actions: Sequence[Action] = EVERY,
        glass: Glass | None = None,
    ) -> None:
        self._leading = leading
        self._tell = tell
        self._actions = actions
        self.glass = glass or Glass()
        self._asked: Command | None = None

    def hear(self, line: str) -> None:
        """One line as typed."""
        words = " ".join(line.lower().split())
        snapshot = self._leading.snapshot()
        asked, self._asked = self._asked, None
        if asked:
            self._answer(asked, words)
        elif words in ("help", "?"):
            more = rehearsing.help_lines() if isinstance(self._leading, Rehearsing) else []
            for row in (*help_lines(self._actions), *more):
                self._tell(row)
        elif words in ("where", "w"):
            self._tell(status_line(snapshot, self._leading.now(), self.glass.now))
        elif isinstance(self._leading, Rehearsing) and (
            told := rehearsing.typed(self._leading, line)
        ):
            self._tell(told)
        elif words:
            if named(line, tuple(self._actions)) in _own(self._actions):
                self._turn()
            else:
                self._command(words, typed(line, snapshot, self._actions))

    def _turn(self) -> None:
        """The teacher turns to the class, or away from it."""
        mirror = self.glass.turn()
        told = mark(None, mirror) or "The class's side is told."
        self._tell(f"{told[0].upper()}{told[1:].rstrip('.')}.")

    def _answer(self, asked: Command, words: str) -> None:
        if words in YES:
            self._leading.post(asked)
        else:
            self._tell("The class goes on.")

    def _command(self, words: str, command: Command | None) -> None:
        if command is None:
            self._tell(f'No command is called "{clean(words)}"; type help for all of them.')
        elif command.do is Do.END:
            self._asked = command
            self._tell("End the class here? Type yes, or anything else to go on.")
        else:
            self._leading.post(command)


class Teller:
    """Writes lines until nobody reads them any more; the class goes on all the same."""

    def __init__(self, out: TextIO) -> None:
        self._out = out
        self._lock = threading.Lock()
        self.broken = False

    def __call__(self, line: str) -> None:
        """One line, at once."""
        with self._lock:
            if self.broken:
                return
            try:
                self._out.write(f"{line}\n")
                self._out.flush()
            except (OSError, ValueError):
                self.broken = True


def _listen(inp: TextIO, listener: Listener) -> None:
    """Read lines until there are no more; a closed input ends the listening, not the class."""
    try:
        for line in inp:
            listener.hear(line)
    except (OSError, ValueError):
        return


def lead_plain(
    leading: Telling,
    out: TextIO,
    inp: TextIO | None = None,
    actions: Sequence[Action] = EVERY,
    glass: Glass | None = None,
) -> bool:
    """Tell the class until it is over; whether somebody still read it at the end.

    `inp` takes commands as typed lines. Ctrl+C asks; a second one ends the class.
    """
    tell = Teller(out)
    listener = Listener(leading, tell, actions, glass)
    if inp is not None:
        threading.Thread(target=_listen, args=(inp, listener), daemon=True).start()
    trouble = ""
    warned: int | None = None
    while True:
        try:
            news = leading.news(WAIT_S)
        except KeyboardInterrupt:
            news, warned = (), _interrupted(leading, tell, warned)
        snapshot = leading.snapshot()
        for line in lines(news, snapshot, listener.glass.now):
            tell(line)
        trouble = _trouble(leading.trouble(), trouble, tell)
        if snapshot.state is State.FINISHED:
            break
    _remains(leading, tell, listener.glass.now)
    return not tell.broken


def _interrupted(leading: Telling, tell: Teller, warned: int | None) -> int:
    """The first Ctrl+C asks, a second one soon after ends the class; the `now` of this one."""
    now = leading.now()
    if warned is not None and now - warned <= AGAIN_MS:
        leading.post(Command(Do.END))
    else:
        tell("Ctrl+C again within ten seconds ends the class; otherwise it goes on.")
    return now


def _trouble(now: str, before: str, tell: Teller) -> str:
    """Tell of trouble when it comes and when it is over."""
    if now != before:
        tell(clean(now) if now else "All is well again.")
    return now


def _remains(leading: Telling, tell: Teller, mirror: Mirror) -> None:
    """What is left to tell once the class is over, and how it went."""
    snapshot = leading.snapshot()
    rest: Sequence[Happening] = leading.news(0)
    for line in (*lines(rest, snapshot, mirror), *_went(leading)):
        tell(line)


def _went(leading: Telling) -> tuple[str, ...]:
    """Three things about the class; that they cannot be told spoils nothing."""
    try:
        return leading.after().told
    except Exception as error:  # noqa: BLE001 -- the class is over, and was led
        return (f"How it went cannot be told: {type(error).__name__}: {error}",)
