"""The leader: give it commands and the time, and it says what happened and what should sound."""

from conductor.engine.changes import made
from conductor.engine.commands import DEEDS
from conductor.engine.costs import costs
from conductor.engine.landing import waiting
from conductor.engine.led import Cueing, Led, Naming, Refitting, Tools
from conductor.engine.look import snapshot
from conductor.engine.model import Command, Do, Happening, Position, Reply, Snapshot, State
from conductor.engine.moves import RefusedError
from conductor.engine.owing import owing, passes_in
from conductor.engine.sounds import drop, wanted
from conductor.engine.steps import due, settled
from conductor.engine.table import TABLE, Refuses
from conductor.engine.undo import remembering
from conductor.engine.words import here, told_state
from conductor.score.model import Lengths, Score
from conductor.score.sounds import Sound
from conductor.settings import Settings
from conductor.timing.cues import cues
from conductor.timing.refit import refit
from conductor.values import Struct, replace


class Press(Struct, frozen=True):
    """The last key that commanded: when (now ms), and what was answered the first time."""

    name: str = ""
    at: int = 0
    reply: Reply = Reply(False, "")


WAITING_MS = 10_000  # how long what is said before class may be true


class Engine:
    """Leads one class. All times are integer ms of a `now` that only ever goes on.

    It has no clock: whatever has become due by the `now` of any call has happened. Happenings
    are kept until `advance` gives them out, each once and in order.
    """

    def __init__(
        self,
        score: Score,
        lengths: Lengths,
        settings: Settings,
        *,
        must_end: int | None = None,
        cueing: Cueing = cues,
        refitting: Refitting = refit,
        naming: Naming | None = None,
    ) -> None:
        if not score.moments:
            raise ValueError("a score with no moments cannot be led")
        self._tools = Tools(lengths, settings, cueing, refitting, must_end, naming)
        self._told: list[Happening] = []
        self._led = Led(
            state=State.READY,
            now=0,
            course=made(score, self._tools, settings.level),
            level=settings.level,
            quiet=not settings.speak,
            voice_db=settings.voice_db,
            bells_db=settings.bells_db,
            keeps=settings.keep_to_the_clock,
        )
        self._press = Press()
        self._waiting = (-1, "")

    @classmethod
    def resume(
        cls,
        score: Score,
        lengths: Lengths,
        settings: Settings,
        broke: Position,
        *,
        must_end: int | None = None,
        cueing: Cueing = cues,
        refitting: Refitting = refit,
        naming: Naming | None = None,
    ) -> "Engine":
        """A class that broke off: stopped, to be taken up by `go on` as after a long stop."""
        engine = cls(
            score,
            lengths,
            settings,
            must_end=must_end,
            cueing=cueing,
            refitting=refitting,
            naming=naming,
        )
        if not 0 <= broke.index < len(score.moments):
            raise ValueError(f"there is no moment {broke.index} among {len(score.moments)}")
        new = made(score, engine._tools, broke.level)
        moment = score.moments[broke.index]
        stood = min(max(broke.pos, moment.start), max(moment.end - 1, moment.start))
        engine._led = replace(
            engine._led,
            state=State.STOPPED,
            now=broke.now,
            course=new,
            index=broke.index,
            pos=stood if new.timed(broke.index) else moment.start,
            pace=broke.pace,
            pass_no=broke.pass_no,
            since=broke.now,
            slept=True,
            quiet=broke.quiet,
            swapped=broke.swapped,
            sides=passes_in(new.moments[: broke.index]),
            level=broke.level,
            begun=broke.begun,
            planned_end=broke.planned_end,
        )
        return engine

    def command(self, command: Command, now: int) -> Reply:
        """Obey, or say why not; a refused command leaves everything as it was."""
        then = now - command.ms if command.do is Do.SLEPT else now
        self._settle(max(then, self._led.now))
        now = max(now, self._led.now)
        before = len(self._told)
        twice = self._twice(command, now)
        reply = twice or self._obey(command, now)
        self._press = Press(command.press, now, self._press.reply if twice else reply)
        self._told.insert(before, _told(command, reply, now))
        self._led = replace(self._led, reply=reply)
        return reply

    def _twice(self, command: Command, now: int) -> Reply | None:
        """What is said to a key pressed a second time within a moment: it counts once."""
        press, within = self._press, self._tools.settings.twice_ms
        if not command.press or command.press != press.name or now - press.at >= within:
            return None
        words = f"{press.reply.words} Pressed twice, counted once."
        return Reply(False, words, press.reply.costs)

    def _obey(self, command: Command, now: int) -> Reply:
        cell = TABLE[self._led.state][command.do]
        if isinstance(cell, Refuses):
            return Reply(False, cell.why)
        before = self._led
        try:
            after, words, dropped = DEEDS[cell.act](before, command, now, self._tools)
        except RefusedError as refusal:
            return Reply(False, str(refusal))
        asked = after.asked if command.do is Do.LAND else None
        after = replace(after, now=now, asked=asked)
        after = replace(after, owed=owing(after))
        self._led = remembering(before, after, command)
        if command.do is Do.SLEPT:
            dropped = _missed(before, now)
        if after.state is not before.state or here(after) != here(before):
            self._told.append(told_state(self._led, now))
        self._told += dropped
        return Reply(True, words, costs(before, after, command, self._tools))

    def advance(self, now: int) -> tuple[Happening, ...]:
        """Let time pass; what happened since last asked."""
        self._settle(now)
        told, self._told = tuple(self._told), []
        return told

    def _settle(self, now: int) -> None:
        self._led, told = settled(self._led, now, self._tools)
        self._told += told

    def upcoming(self, now: int, horizon: int) -> tuple[Sound, ...]:
        """The sounds wanted from now to the horizon (ms ahead), those still sounding included."""
        led, _ = settled(self._led, now, self._tools)
        return wanted(led, max(now, led.now), horizon, self._tools)

    def next_deadline(self) -> int | None:
        """The next now at which `advance` would give something; None when nothing is to come."""
        return self._told[0].now if self._told else due(self._led)

    def snapshot(self, now: int) -> Snapshot:
        """One immutable picture of the class at `now`."""
        led, _ = settled(self._led, now, self._tools)
        seen = snapshot(led, max(now, led.now), self._tools)
        return replace(seen, begin_now=self._begin_now(seen))

    def _begin_now(self, seen: Snapshot) -> str:
        """What beginning now would change; found out again every few seconds."""
        when = seen.now // WAITING_MS
        if when != self._waiting[0] or seen.state is not State.READY:
            self._waiting = (when, waiting(self._led, seen.now, self._tools))
        return self._waiting[1]


def _told(command: Command, reply: Reply, now: int) -> Happening:
    """A command in the journal: what is needed to give it again."""
    data: list[tuple[str, str | int]] = [("do", str(command.do))]
    if command.ms:
        data.append(("ms", command.ms))
    if command.word:
        data.append(("word", command.word))
    kind = "command" if reply.done else "refused"
    kind = "slept" if reply.done and command.do is Do.SLEPT else kind
    return Happening(now, kind, words=reply.told, data=tuple(data))


def _missed(led: Led, now: int) -> list[Happening]:
    """What should have sounded while the machine slept."""
    if led.state not in (State.ARRIVING, State.LEADING):
        return []
    coming = led.sounds.all[led.sounds.done :]
    return [
        drop(now, one.key[0], one.sound.what, now - one.sound.start)
        for one in coming
        if one.sound.start <= now
    ]
