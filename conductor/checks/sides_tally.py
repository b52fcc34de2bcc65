"""Tally: the time each shape with two sides is led on either, and faults that belong together."""

from collections.abc import Iterator

from conductor.body.regions import Region, region
from conductor.checks.case import Case
from conductor.checks.visits import Visit, visits
from conductor.score.model import Moment
from conductor.shapes.model import Shape
from conductor.sides import Breath, Side
from conductor.spans import Span
from conductor.stance import Base
from conductor.values import Struct, field

FAMILY = "sides"
SAME = "Light on Yoga p.314: the same length of time on the other side"
NEAR = 6  # movements between two shapes that were forgotten together
_STEPS = frozenset({Region.LUNGE, Region.HANDS_FEET})


class Tally(Struct):
    """All visits of one shape by side, in the order led; sides only passed through are `met`."""

    shape: Shape
    led: dict[Side, list[Visit]] = field(default_factory=lambda: {side: [] for side in Side})
    met: set[Side] = field(default_factory=set)

    def ms(self, side: Side) -> int:
        """Milliseconds on a side."""
        return sum(visit.end - visit.start for visit in self.led[side])

    @property
    def only(self) -> Side | None:
        """The only side it was led on, if the other was not even passed through."""
        for side in Side:
            if self.led[side] and not self.led[side.other] and side.other not in self.met:
                return side
        return None


def tallies(case: Case) -> tuple[Tally, ...]:
    """Count every shape with two sides; lying on one side and cycles at will are nobody's debt."""
    found: dict[str, Tally] = {}
    for visit in visits(case):
        moment = case.score.moments[visit.first]
        for shape in visit.passed:
            if shape.sided:
                found.setdefault(shape.id, Tally(shape)).met |= _met(visit, moment)
        if visit.side and not visit.moves and visit.shape.place.base is not Base.LYING_SIDE:
            found.setdefault(visit.shape.id, Tally(visit.shape)).led[visit.side].append(visit)
    return tuple(found.values())


def _met(visit: Visit, moment: Moment) -> set[Side]:
    """The sides on which a shape on the way can have been passed."""
    side = moment.pass_side or moment.side or moment.stance.front
    return {side} if side and not visit.moves else set(Side)


def passing(case: Case, visit: Visit, ms: int) -> bool:
    """Whether it is no more than a step on the way."""
    return region(visit.stance) in _STEPS and ms <= case.limits["passing"] * 1000


class Fault(Struct, frozen=True):
    """One shape that is wrong: where it shows, what belongs to it, on which side there is more."""

    at: int
    until: int
    shape: Shape
    side: Side
    span: Span
    light: bool
    ms: int
    also: tuple[tuple[Span, str], ...] = ()
    words: str = ""


def together(case: Case, faults: list[Fault]) -> Iterator[tuple[Fault, ...]]:
    """Put those together that were forgotten together: near each other, on the same side."""
    group: list[Fault] = []
    for fault in sorted(faults, key=lambda one: one.at):
        if group and not _near(case, group[-1], fault):
            yield tuple(group)
            group = []
        group.append(fault)
    if group:
        yield tuple(group)


def _near(case: Case, one: Fault, other: Fault) -> bool:
    moments = case.score.moments
    if one.side is not other.side or moments[one.at].part != moments[other.at].part:
        return False
    between = moments[one.until : other.at]
    return sum(moment.arriving or moment.breath is Breath.FREE for moment in between) <= NEAR
