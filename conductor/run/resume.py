"""A class that broke off: found by its journal, and led on from where it was."""

import os
import signal
import time
from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path
from typing import TypedDict

from conductor.engine.engine import Engine
from conductor.engine.led import Naming, Refitting
from conductor.engine.model import Command, Do, Position, Snapshot
from conductor.run.journal import FileJournal, being_led, lines
from conductor.score.form import from_json
from conductor.score.model import Lengths, Score
from conductor.settings import Settings
from conductor.timing.refit import refit
from conductor.values import Struct, field, replace

LETS_GO_MS = 3000  # a program that is told to end has ended by then
LOOK_MS = 50


class NothingToResumeError(Exception):
    """No class broke off, or its journal cannot be gone on from; the words say which."""


class BeingLedError(NothingToResumeError):
    """The last class is led at this moment by another program: `pid`, with its `title`."""

    def __init__(self, path: Path, opened: dict[str, object], pid: int) -> None:
        super().__init__("the last class is being led at this moment")
        self.path = path
        self.title = str(opened.get("title", ""))
        self.pid = pid


class Broken(Struct, frozen=True):
    """What a journal tells of a class that did not come to its end.

    `wall` is the clock on the wall when it was opened, and `speed` how fast its time ran.
    """

    path: Path
    score: Score
    version: str
    must_end: int | None
    wall: datetime
    speed: float
    told: tuple[dict[str, object], ...]
    opened: dict[str, object] = field(default_factory=dict)  # the journal's first line

    @property
    def ended_at(self) -> datetime:
        """The clock on the wall at its last line."""
        return self.wall + timedelta(milliseconds=self.last / self.speed)

    @property
    def last(self) -> int:
        """`now` of the last line, ms."""
        return max((_number(line, "now") for line in self.told), default=0)

    @property
    def begun(self) -> int:
        """`now` at which the class began, ms."""
        return _number(next((line for line in self.told if line.get("do") == "begin"), {}), "now")

    @property
    def last_moment(self) -> dict[str, object]:
        """The line of the moment that was led last."""
        return [line for line in self.told if line.get("kind") == "moment"][-1]

    @property
    def here(self) -> object:
        """The moment in which it stood, or was arriving, when it broke off."""
        placed = [line for line in self.told if line.get("kind") in {"moment", "state"}]
        return placed[-1].get("moment")

    def now(self, wall: datetime) -> int:
        """The class's `now` at a time of the wall: it went on while nobody led, as in a sleep."""
        passed = (wall - self.wall).total_seconds() * 1000 * self.speed
        return max(self.last, round(passed))


def latest(folder: Path) -> Broken:
    """Find the class that broke off last; raises NothingToResumeError.

    Rehearsals, classes that never began and one that is being led at this moment are passed over.
    """
    journals = sorted(folder.glob("*.jsonl"), key=lambda path: path.stat().st_mtime, reverse=True)
    rehearsed = ended = False
    led: BeingLedError | None = None
    for path in journals:
        opened, *told = lines(path) or [{}]
        begun = any(line.get("kind") == "moment" for line in told)
        over = any(line.get("kind") in {"finished", "left"} for line in told)
        if not over and being_led(path):  # one that is over may still be read about
            if begun and not opened.get("rehearsal"):
                led = led or BeingLedError(path, opened, _leader([opened, *told]))
            continue
        if opened.get("rehearsal") or not begun:
            rehearsed |= begun
            continue
        if over:
            ended = True
            break
        return _broken(path, opened, told)
    if led:
        raise led
    if rehearsed:
        raise NothingToResumeError("only a rehearsal broke off, and those are begun anew")
    raise NothingToResumeError("the last class came to its end" if ended else "no class broke off")


def _leader(told: Sequence[dict[str, object]]) -> int:
    """The process that opened or took up a class last, 0 when no line tells."""
    pids = [pid for line in told if isinstance(pid := line.get("pid"), int)]
    return pids[-1] if pids else 0


def leave(broken: Broken) -> None:
    """Write down that a class that broke off is not to be gone on with."""
    journal = FileJournal(broken.path)
    journal.write({"now": broken.last, "kind": "left"})
    journal.close()


def taken_over(led: BeingLedError) -> bool:
    """End the program that leads the last class, whose window may be gone; tell whether it let go.

    Its class then stands as one that broke off at this moment.
    """
    if led.pid <= 0 or not being_led(led.path):
        return led.pid > 0
    try:
        os.kill(led.pid, signal.SIGTERM)
    except OSError:
        return False
    for _ in range(LETS_GO_MS // LOOK_MS):
        if not being_led(led.path):
            return True
        time.sleep(LOOK_MS / 1000)
    return False


def _broken(path: Path, opened: dict[str, object], told: Sequence[dict[str, object]]) -> Broken:
    must_end, speed = opened.get("must_end"), opened.get("speed")
    try:
        score = from_json(path.with_suffix(".score.json").read_text("utf-8"))
        wall = datetime.fromisoformat(str(opened.get("wall")))
    except (OSError, ValueError) as error:
        words = f"the score of the last class cannot be read: {error}"
        raise NothingToResumeError(words) from error
    return Broken(
        path,
        score,
        str(opened.get("version", "")),
        must_end if isinstance(must_end, int) else None,
        wall,
        float(speed) if isinstance(speed, int | float) else 1.0,
        tuple(told),
        opened,
    )


def resumed(
    broken: Broken,
    lengths: Lengths,
    settings: Settings,
    version: str,
    now: int,
    *,
    refitting: Refitting = refit,
    naming: Naming | None = None,
) -> Engine:
    """Lead the commands of the journal again, and stop there; `go on` takes the class up.

    The last position is trusted instead where another version of the program wrote it, or where
    leading it again ends in another moment (other speech is longer or shorter).
    """
    led: _Ends = {"must_end": broken.must_end, "refitting": refitting, "naming": naming}
    engine = Engine(broken.score, lengths, settings, **led)
    if broken.version != version or not _again(broken, engine):
        asked = engine.snapshot(broken.last)  # stands elsewhere, yet all of it was asked for
        settings = replace(
            settings,
            voice_db=asked.voice_db,
            bells_db=asked.bells_db,
            keep_to_the_clock=asked.keeps,
        )
        there = any(moment.id == broken.last_moment["moment"] for moment in asked.score.moments)
        score = asked.score if there else broken.score
        position = _position(broken, score, asked)
        engine = Engine.resume(score, lengths, settings, position, **led)
    gap = max(0, now - broken.last)
    engine.command(Command(Do.SLEPT, ms=gap, word="broke off"), now)
    return engine


class _Ends(TypedDict):
    """How the end of a class is met."""

    must_end: int | None
    refitting: Refitting
    naming: Naming | None


def _again(broken: Broken, engine: Engine) -> bool:
    """Give an engine the commands of the journal; tell whether it then stands where that does."""
    for line in broken.told:
        if line.get("kind") in {"command", "slept"}:
            now, ms = _number(line, "now"), _number(line, "ms")
            do = Do(str(line["do"]))
            engine.advance(now - ms if do is Do.SLEPT else now)  # what was slept was not led
            engine.command(Command(do, ms, str(line.get("word", ""))), now)
    engine.advance(broken.last)
    snapshot = engine.snapshot(broken.last)
    here = snapshot.score.moments[snapshot.index].id
    return here == broken.here


def _position(broken: Broken, score: Score, asked: Snapshot) -> Position:
    first = next(line for line in broken.told if line.get("kind") == "moment")
    last = broken.last_moment
    starts = _number(first, "now") - _number(first, "start")
    index = _index(score, last)
    return Position(
        index=index,
        now=broken.last,
        begun=broken.begun,
        planned_end=broken.must_end or starts + broken.score.length,
        pos=score.moments[index].start + _into(broken, last),
        pace=_number(last, "pace") or 1000,
        pass_no=_number(last, "pass"),
        level=asked.level,
        quiet=asked.quiet,
        swapped=asked.swapped and score is asked.score,
    )


def _into(broken: Broken, last: dict[str, object]) -> int:
    """How much of its last moment had been led (score ms); a stop in it and holds do not count."""
    placed = [line for line in broken.told if line.get("kind") in {"moment", "state"}][-1]
    known = placed.get("kind") == "state" and placed.get("moment") == last.get("moment")
    line = placed if known else last
    led = max(_number(line, "pos") - _number(last, "start"), 0) if known else 0
    if known and line.get("state") != "leading":
        return led
    pace = _number(line, "pace") or 1000
    return led + max(broken.last - _number(line, "now"), 0) * 1000 // pace


def _index(score: Score, line: dict[str, object]) -> int:
    """The moment of that name, or the one at that time where a refit had made it."""
    name, start = line.get("moment"), _number(line, "start")
    for index, moment in enumerate(score.moments):
        if moment.id == name:
            return index
    ended = [index for index, moment in enumerate(score.moments) if moment.start <= start]
    return ended[-1] if ended else 0


def _number(line: dict[str, object], key: str) -> int:
    value = line.get(key, 0)
    return value if isinstance(value, int) else 0
