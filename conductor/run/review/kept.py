"""The classes that were kept: journals with their scores, found, listed and read back."""

import json
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from conductor.run.journal import being_led, lines
from conductor.run.review.model import Ending, Review
from conductor.run.review.story import story, text
from conductor.run.review.tally import review
from conductor.run.review.wishes import CLASSES, Reviewed
from conductor.score.form import from_json
from conductor.score.model import Meta, Score
from conductor.values import Struct

JOURNAL = ".jsonl"
LOOKED_AT = 200  # journals; a class further back tells nothing of a habit


class BadJournalError(Exception):
    """A journal that no class can be made of; the words say which and why."""


class Head(Struct, frozen=True):
    """A journal by its first line."""

    path: Path
    plan: str
    title: str
    wall: str
    rehearsal: bool
    speed: float

    @property
    def when(self) -> datetime | None:
        """When it was opened, by the clock on the wall."""
        try:
            return datetime.fromisoformat(self.wall)
        except ValueError:
            return None

    def of(self, plan: str, title: str) -> bool:
        """Whether it tells of that plan; older journals know only its title."""
        return self.plan == plan if self.plan and plan else self.title == title


def heads(folder: Path) -> Iterator[Head]:
    """Every journal that begins as one, the newest first; their names are their times."""
    for path in sorted(folder.glob(f"*{JOURNAL}"), reverse=True):
        opened = _first(path)
        if opened is not None:
            yield _head(path, opened)


def _first(path: Path) -> dict[str, object] | None:
    try:
        with path.open("rb") as file:
            opened = json.loads(file.readline(65_536))
    except (OSError, ValueError):
        return None
    known = isinstance(opened, dict) and opened.get("kind") == "opened"
    return opened if known else None


def _head(path: Path, opened: dict[str, object]) -> Head:
    speed = opened.get("speed")
    return Head(
        path=path,
        plan=text(opened, "plan"),
        title=text(opened, "title"),
        wall=text(opened, "wall"),
        rehearsal=opened.get("rehearsal") is True,
        speed=float(speed) if isinstance(speed, int | float) else 1.0,
    )


def load(path: Path) -> Reviewed:
    """Read a class back; raises BadJournalError for one that cannot be told of."""
    opened = _first(path)
    if opened is None:
        raise BadJournalError(f"{path} is no journal of a class: its first line tells of none")
    beside = path.with_suffix(".score.json")
    try:
        _, *told = lines(path)
        score = from_json(beside.read_text("utf-8"))
    except FileNotFoundError as error:
        raise BadJournalError(f"{path}: its score, {beside.name}, is gone") from error
    except (OSError, ValueError, LookupError, AttributeError) as error:
        raise BadJournalError(f"{path}: its score cannot be read: {error}") from error
    return Reviewed(review(opened, told, score, being_led(path)), score)


def glance(head: Head) -> tuple[int, Ending] | None:
    """How long a class was and how it ended, without its score; None when it never began.

    Raises BadJournalError as `load` does, as far as that shows without reading the score.
    """
    beside = head.path.with_suffix(".score.json")
    if not beside.is_file():
        raise BadJournalError(f"{head.path}: its score, {beside.name}, is gone")
    _, *told = lines(head.path)
    tale = story(told, Score(Meta(head.title), (), (), {}, {}))
    if not tale.stretches:
        return None
    going_on = tale.ending is Ending.BROKE_OFF and being_led(head.path)
    ending = Ending.GOING_ON if going_on else tale.ending
    return sum(one.length for one in tale.stretches), ending


def earlier(folder: Path, now: Review, most: int = CLASSES - 1) -> tuple[Reviewed, ...]:
    """The classes of the same plan led before, the newest first; bad journals are passed over."""
    found = (head for head in heads(folder) if head.wall < now.wall)
    return classes(found, now.plan, now.title, most)


def classes(found: Iterator[Head], plan: str, title: str, most: int) -> tuple[Reviewed, ...]:
    """The first `most` of those that tell of a plan and really led something; no rehearsal."""
    kept: list[Reviewed] = []
    for looked, head in enumerate(found):
        if len(kept) >= most or looked >= LOOKED_AT:
            break
        if head.rehearsal or not head.of(plan, title):
            continue
        try:
            one = load(head.path)
        except BadJournalError:
            continue
        if one.review.line:
            kept.append(one)
    return tuple(kept)
