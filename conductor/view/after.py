"""How a class went, in its first form: time against plan, what was left out, the two sides."""

from collections import Counter
from collections.abc import Collection

from conductor.engine.model import Snapshot
from conductor.score.model import Moment, Score
from conductor.sides import Side
from conductor.values import Struct
from conductor.view.clean import clean
from conductor.view.faces import info_of, side_face
from conductor.view.spell import against, count, span


class Went(Struct, frozen=True):
    """Lines about a class that is over; `sides` holds one line for each shape led unevenly."""

    time: str
    skipped: tuple[str, ...]
    sides: tuple[str, ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it in order."""
        return (self.time, *self.skipped, *self.sides)


def went(snapshot: Snapshot, entered: Collection[str]) -> Went:
    """What the last snapshot and the moments that were led tell of the class."""
    score = snapshot.score
    led = snapshot.now - snapshot.begun
    planned = snapshot.planned_end - snapshot.begun
    time = f"Led {span(led)}; planned {span(planned)}: {against(led - planned)}."
    return Went(time, _skipped(score, entered), _sides(score, entered))


def _skipped(score: Score, entered: Collection[str]) -> tuple[str, ...]:
    """How much was left out, and in which parts."""
    led = set(entered)
    missing = [moment for moment in score.moments if moment.id not in led]
    if not missing:
        return ("Every moment was led.",)
    parts = Counter(moment.part for moment in missing)
    named = [
        f"{clean(score.parts[part].name)} {number}"
        for part, number in sorted(parts.items())
        if part < len(score.parts)
    ]
    of = count(len(score.moments), "moment")
    where = f" ({', '.join(named)})" if named else ""
    return (f"Left out {len(missing)} of {of}{where}.",)


def _sides(score: Score, entered: Collection[str]) -> tuple[str, ...]:
    """Shapes whose two sides were led for a different time."""
    times: dict[str, Counter[Side]] = {}
    by_id: dict[str, Moment] = {moment.id: moment for moment in score.moments}
    for moment in (by_id[one] for one in entered if one in by_id):
        if moment.side:
            times.setdefault(moment.shape, Counter())[moment.side] += moment.length
    uneven = {shape: sides for shape, sides in times.items() if len(set(_both(sides))) == 2}
    if not uneven:
        return ("Both sides were led alike.",) if times else ()
    return tuple(_uneven(score, shape, sides) for shape, sides in uneven.items())


def _both(sides: Counter[Side]) -> tuple[int, int]:
    return sides[Side.RIGHT], sides[Side.LEFT]


def _uneven(score: Score, shape: str, sides: Counter[Side]) -> str:
    info = info_of(score, shape)
    told = [f"{face.words} {span(sides[side])}" for side in Side if (face := side_face(side, info))]
    return f"{clean(info.name)}: {', '.join(told)}."
