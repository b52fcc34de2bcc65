"""A class that broke off: found by its journal, and led on from where it was."""

from pathlib import Path

from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, Position
from conductor.run.journal import being_led, lines
from conductor.score.form import from_json
from conductor.score.model import Lengths, Score
from conductor.settings import Settings
from conductor.values import Struct


class NothingToResumeError(Exception):
    """No class broke off, or its journal cannot be gone on from; the words say which."""


class Broken(Struct, frozen=True):
    """What a journal tells of a class that did not come to its end."""

    path: Path
    score: Score
    version: str
    must_end: int | None
    told: tuple[dict[str, object], ...]

    @property
    def last(self) -> int:
        """`now` of the last line, ms."""
        return max((_number(line, "now") for line in self.told), default=0)


def latest(folder: Path) -> Broken:
    """Find the newest class, which must have broken off; raises NothingToResumeError."""
    journals = sorted(folder.glob("*.jsonl"), key=lambda path: path.stat().st_mtime)
    if not journals:
        raise NothingToResumeError("no class has been led yet")
    path = journals[-1]
    if being_led(path):
        raise NothingToResumeError("the last class is being led at this moment")
    opened, *told = lines(path) or [{}]
    if any(line.get("kind") == "finished" for line in told):
        raise NothingToResumeError("the last class came to its end")
    if not any(line.get("kind") == "moment" for line in told):
        raise NothingToResumeError("the last class had not begun")
    try:
        score = from_json(path.with_suffix(".score.json").read_text("utf-8"))
    except (OSError, ValueError) as error:
        raise NothingToResumeError(
            f"the score of the last class cannot be read: {error}"
        ) from error
    must_end = opened.get("must_end")
    return Broken(
        path,
        score,
        str(opened.get("version", "")),
        must_end if isinstance(must_end, int) else None,
        tuple(told),
    )


def resumed(broken: Broken, lengths: Lengths, settings: Settings, version: str) -> Engine:
    """Lead the commands of the journal again, and stop there; `go on` takes the class up.

    With another version of the program only the last position is trusted.
    """
    if broken.version != version:
        return Engine.resume(
            broken.score, lengths, settings, _position(broken), must_end=broken.must_end
        )
    engine = Engine(broken.score, lengths, settings, must_end=broken.must_end)
    for line in broken.told:
        if line.get("kind") in {"command", "slept"}:
            do = Do(str(line["do"]))
            again = Command(do, _number(line, "ms"), str(line.get("word", "")))
            engine.advance(_number(line, "now"))
            engine.command(again, _number(line, "now"))
    engine.advance(broken.last)
    engine.command(Command(Do.SLEPT), broken.last)
    engine.advance(broken.last)
    return engine


def _position(broken: Broken) -> Position:
    moments = [line for line in broken.told if line.get("kind") == "moment"]
    last = moments[-1]
    begun = _number(moments[0], "now") - _number(moments[0], "start")
    return Position(
        index=_number(last, "index"),
        now=broken.last,
        begun=begun,
        planned_end=broken.must_end or begun + broken.score.length,
        pos=_number(last, "start") + max(0, broken.last - _number(last, "now")),
        pace=_number(last, "pace") or 1000,
        pass_no=_number(last, "pass"),
    )


def _number(line: dict[str, object], key: str) -> int:
    value = line.get(key, 0)
    return value if isinstance(value, int) else 0
