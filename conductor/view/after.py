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

LEAD_IN_MS = 5_000  # the run-in takes 3 s, or as long as the first words


class Went(Struct, frozen=True):
    """Lines about a class that is over; `sides` holds one line for each shape led unevenly."""

    time: str
    skipped: tuple[str, ...]
    sides: tuple[str, ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it in order."""
        return (self.time, *self.skipped, *self.sides)


def went(snapshot: Snapshot, entered: Collection[str], written: Score) -> Went:
    """What the last snapshot and the moments that were led tell of the class as `written`."""
    score = snapshot.score
    led = snapshot.now - snapshot.begun
    planned = snapshot.planned_end - snapshot.begun
    lead_in = planned - written.length
    if 0 < lead_in <= LEAD_IN_MS:  # what is heard before the first moment belongs to no plan
        led, planned = max(0, led - lead_in), written.length
    time = f"Led {span(led)}; planned {span(planned)}: {against(led - planned)}."
    return Went(time, _skipped(score, entered, written), _sides(score, entered))


def _skipped(score: Score, entered: Collection[str], written: Score) -> tuple[str, ...]:
    """How much was left out, on purpose or in which parts."""
    led = set(entered)
    landed = _landed(score, led, written)
    told = (f"{landed} left out to land on time.",) if landed else ()
    missing = [moment for moment in score.moments if moment.id not in led]
    if not missing:
        return (*told, f"Every {'other ' if told else ''}moment was led.")
    parts = Counter(moment.part for moment in missing)
    named = [
        f"{clean(score.parts[part].name)} {number}"
        for part, number in sorted(parts.items())
        if part < len(score.parts)
    ]
    of = count(len(score.moments), "moment")
    where = f" ({', '.join(named)})" if named else ""
    return (*told, f"Left out {len(missing)} of {of}{where}.")


def _landed(score: Score, led: Collection[str], written: Score) -> str:
    """How many moments a fit took out of the class; stays made shorter leave none out."""
    kept = {moment.id for moment in score.moments}
    gone = [
        one
        for one in written.moments
        if one.drop and one.id not in kept and one.id not in led and one.hold not in score.holds
    ]
    were = "was" if len(gone) == 1 else "were"
    return f"{count(len(gone), 'moment')} {were}" if gone else ""


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
