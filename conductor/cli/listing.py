"""The plans there are to choose from: those of a folder and those that come along."""

import json
from collections.abc import Mapping, Sequence
from datetime import datetime
from pathlib import Path

from conductor import places, store
from conductor.cli.opening import opened
from conductor.findings import Weight
from conductor.screens.wiring import Entry
from conductor.settings import Settings
from conductor.values import replace
from conductor.view.spell import ago


def entries(folder: Path, shipped: Sequence[Path]) -> tuple[Entry, ...]:
    """All plans, unread: those led last come first, then the folder's by name, then the rest."""
    led = last_led(store.journals())
    paths = [*places.plans_in(folder), *shipped]
    now = datetime.now().astimezone()
    found = [(led.get(str(path.resolve())), path) for path in paths]
    found.sort(key=lambda one: -one[0].timestamp() if one[0] else 0)  # keeps the order of the rest
    return tuple(
        Entry(
            str(path),
            places.title(path),
            kind="",
            led=f"led {ago((now.date() - at.astimezone().date()).days)}" if at else "",
            file=path.name,
            read=False,
        )
        for at, path in found
    )


def last_led(journals: Path) -> Mapping[str, datetime]:
    """When each plan was led last, by its path, from the first lines of the journals."""
    found: dict[str, datetime] = {}
    for path in journals.glob("*.jsonl"):
        plan, at = _opened(path)
        if plan and at and (plan not in found or at > found[plan]):
            found[plan] = at
    return found


def _opened(journal: Path) -> tuple[str, datetime | None]:
    """The plan that a journal is of and when it was opened; nothing for a rehearsal."""
    try:
        with journal.open("rb") as file:
            line = json.loads(file.readline())
        if line.get("rehearsal"):
            return "", None
        return str(line.get("plan", "")), datetime.fromisoformat(str(line.get("wall")))
    except (OSError, ValueError, AttributeError):
        return "", None  # a bad journal hides no plan


def read(unread: Entry, settings: Settings) -> Entry:
    """Read one plan for its length and its problems; one that fails spoils no other."""
    try:
        found = opened(Path(unread.key), settings=settings)
    except OSError as error:
        return replace(unread, read=True, problem=str(error.strerror or error))
    except Exception as error:  # noqa: BLE001 -- whatever one file does, the others are shown
        return replace(unread, read=True, problem=f"{type(error).__name__}: {error}")
    weights = [finding.weight for finding in found.findings]
    known = replace(
        unread,
        read=True,
        errors=weights.count(Weight.ERROR),
        warnings=weights.count(Weight.WARNING),
    )
    if found.score is None:
        return known
    meta, length = found.score.meta, found.score.length
    return replace(known, title=meta.title, kind=meta.kind, for_=meta.for_, length_ms=length)
