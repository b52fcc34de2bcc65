"""A class being rehearsed, and the piece of it that was asked for."""

import contextlib
from collections.abc import Callable, Iterable, Mapping, Sequence

import click

from conductor.breathing.session import Session
from conductor.breathing.words import CARE
from conductor.breathing.words import as_data as breath_data
from conductor.breathing.words import lines as breath_lines
from conductor.cli.how import Wish
from conductor.cli.led import Led, Line
from conductor.cli.opening import Opened
from conductor.clock import SystemClock
from conductor.engine.model import Happening, Snapshot
from conductor.run.journal import FileJournal
from conductor.run.runner import VOICE_SPEED, Runner, Speed
from conductor.score.model import Score
from conductor.shapes.catalogue import load
from conductor.shapes.names import key
from conductor.sides import Breath, Side
from conductor.timing.piece import Named, NothingLeftError, Wanted, piece
from conductor.values import replace
from conductor.view.after import After
from conductor.view.faces import part_of
from conductor.view.marks import Mark, as_data, lines, mark_of
from conductor.view.spell import count
from conductor.view.whereto import found

APART = "apart"  # from any part: measured on a page of its own


class Rehearsed(Led):
    """A class being rehearsed: its speed can be changed, and marks and breaths are kept."""

    def __init__(
        self,
        runner: Runner,
        journal: "FileJournal | None",
        clean: contextlib.ExitStack,
        score: Score,
        before: Sequence[Line],
        sources: Mapping[str, str],
    ) -> None:
        self._marks: list[Mark] = []
        self._sources = sources
        self._asked = runner.line.speed
        self._clock = SystemClock()  # breath is breathed in real time, however fast the class runs
        self._breaths: dict[str, Session] = {}
        super().__init__(runner, journal, clean, score, before)

    def _heard(self, happened: tuple[Happening, ...], snapshot: Snapshot) -> None:
        super()._heard(happened, snapshot)
        self._marks += [mark for one in happened if (mark := mark_of(one, snapshot))]

    def speed(self) -> float:
        """How many times as fast its time runs, or was last asked to run."""
        return self._asked

    def at_speed(self, times: float) -> None:
        """Let time run so many times as fast from here on."""
        self._asked = times
        self._runner.post(Speed(times))

    def standing(self) -> str:
        """That it is a rehearsal, how fast it runs, and what was marked."""
        fast = f"{self._asked:g} times as fast" if self._asked != 1 else ""
        text = "voice as text" if self._asked > VOICE_SPEED else ""
        marks = count(len(self._marks), "mark") if self._marks else ""
        number = sum(len(session.taps()) for session in self._breaths.values())
        taps = count(number, "tap") if number else ""
        return ", ".join(word for word in ("Rehearsal", fast, text, marks, taps) if word)

    def tap(self, breath: Breath) -> None:
        """An inhale or an exhale of the person begins now; it belongs to the part that is led."""
        snapshot = self.snapshot()
        part = part_of(snapshot.score, snapshot.index)
        self._breaths.setdefault(part, Session()).press(self._clock.now(), breath)

    def sitting(self) -> tuple[Session, Callable[[], int]]:
        """Their breath measured apart from the class, and its clock."""
        return self._breaths.setdefault(APART, Session()), self._clock.now

    def after(self) -> After:
        """How it went, with what was marked."""
        page = super().after()
        return replace(page, blocks=(("Rehearsed", self.remains()), *page.blocks))

    def remains(self) -> tuple[str, ...]:
        """What is to be told once it is over: the marks by line of the plan, breath by part."""
        told = lines(self._marks, self._sources)
        sat = [(name, one.reading()) for name, one in self._breaths.items() if one.taps()]
        for name, reading in sat:
            told += (f"Your breath in {name}:" if name != APART else "Your breath, apart:",)
            told += tuple(f"  {line}" for line in breath_lines(reading))
        return (*told, CARE) if sat else told

    def as_data(self) -> dict[str, object]:
        """The same for programs."""
        marks = as_data(self._marks, self._sources)
        breaths = [
            {"part": name, **breath_data(one.reading())}
            for name, one in self._breaths.items()
            if one.taps()
        ]
        return {"title": self._score.meta.title, "marks": marks, "breath": breaths}


def cut(opened: Opened, wish: Wish) -> Opened:
    """The plan with only what is to be rehearsed in its score; a wish for what is not is told."""
    score = opened.score
    if score is None or wish == Wish():
        return opened
    parts = frozenset(number for name in wish.parts for number in _parts(score, name))
    side = Side(wish.side) if wish.side else None
    first, last = (_named(score, text) if text else None for text in (wish.first, wish.last))
    try:
        return replace(opened, score=piece(score, Wanted(parts, side, first, last)), cues=())
    except NothingLeftError as error:
        raise click.UsageError(f"Nothing is left to rehearse: {error}.") from error


def _parts(score: Score, name: str) -> Sequence[int]:
    """The parts of that name, or that begin so."""
    wanted = key(name)
    names = [key(part.name) for part in score.parts]
    exact = [number for number, one in enumerate(names) if one == wanted]
    begun = [number for number, one in enumerate(names) if one.startswith(wanted)]
    if not (exact or begun):
        known = ", ".join(part.name for part in score.parts)
        raise click.UsageError(f"there is no part {name!r}; there are: {known}.")
    return exact or begun


def _named(score: Score, text: str) -> Named:
    """The shape of that name in the class, by any name the catalogue has for it."""
    used = {moment.shape for moment in score.moments}
    own = [name for name in used if name in score.shapes and _is(score, name, text)]
    known = load().find(text)
    if own:
        return Named(own[0])
    if known and known.shape.id in used:
        return Named(known.shape.id, known.side)
    place = found(score, text, -1)
    if place is not None and not place.heads:
        moment = score.moments[place.index]
        return Named(moment.shape)
    what = (
        f"{known.shape.name} is not led in this class" if known else f"no shape is called {text!r}"
    )
    raise click.UsageError(f"{what}{_near(score, used, text)}.")


def _is(score: Score, shape: str, text: str) -> bool:
    return key(score.shapes[shape].name) == key(text)


def _near(score: Score, used: Iterable[str], text: str) -> str:
    from rapidfuzz import process  # noqa: PLC0415 -- only on a slip

    names = sorted(score.shapes[one].name for one in used if one in score.shapes)
    near = process.extractOne(text, names, score_cutoff=60)
    return f"; did you mean {near[0]}" if near else ""
