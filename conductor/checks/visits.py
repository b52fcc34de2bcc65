"""Visits: the class as a row of shapes with the time spent in each, which is how load is judged."""

from collections.abc import Iterator, Mapping
from typing import cast

from conductor.checks.case import Case
from conductor.score.model import Moment
from conductor.shapes.catalogue import load
from conductor.shapes.model import Shape
from conductor.sides import Side
from conductor.spans import Span
from conductor.stance import Stance, Trunk
from conductor.values import Struct

_KEPT = "visits of conductor.checks"


class Visit(Struct, frozen=True):
    """All moments in a row in one shape on one side: the first, up to not including `last`.

    `start` and `end` are ms of score time; `held` are the ms of it that are a stay, `moves` that it
    is a cycle of several shapes, in which nothing is held.
    """

    shape: Shape
    side: Side | None
    stance: Stance
    first: int
    last: int
    start: int
    end: int
    origin: Span
    held: int
    moves: bool
    passed: tuple[Shape, ...]  # shapes gone through on the way in, or cycled through

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return (self.end - self.start) / 1000

    @property
    def stays(self) -> bool:
        """Whether something of it is a stay."""
        return self.held > 0

    @property
    def rests(self) -> bool:
        """Whether the body does nothing in it."""
        return self.shape.place.trunk is Trunk.RESTING


def visits(case: Case) -> tuple[Visit, ...]:
    """The class as visits, in order; kept with the case, since most rules of load ask for them."""
    kept: dict[str, object] = vars(case)
    if _KEPT not in kept:
        kept[_KEPT] = tuple(_visits(case))
    return cast("tuple[Visit, ...]", kept[_KEPT])


def _visits(case: Case) -> Iterator[Visit]:
    moments = case.score.moments
    first = 0
    for index in range(1, len(moments) + 1):
        if index == len(moments) or _left(moments[first], moments[index]):
            yield _visit(case.shapes, moments, first, index)
            first = index


def _left(here: Moment, after: Moment) -> bool:
    return here.shape != after.shape or here.side is not after.side


def _visit(
    shapes: Mapping[str, Shape], moments: tuple[Moment, ...], first: int, last: int
) -> Visit:
    begin = moments[first]
    part = moments[first:last]
    names = dict.fromkeys(name for moment in part for name in (*moment.through, *moment.cycle))
    return Visit(
        shape=shapes[begin.shape],
        side=begin.side,
        stance=begin.stance,
        first=first,
        last=last,
        start=begin.start,
        end=part[-1].end,
        origin=begin.origin,
        held=sum(one.length for one in part if one.hold and not one.arriving and not one.cycle),
        moves=any(moment.cycle for moment in part),
        passed=tuple(shapes[name] for name in names if name in shapes),
    )


def at_rest(case: Case) -> tuple[Visit, ...]:
    """The final rest: the longest row of visits at rest in the last half of the class."""
    runs: list[list[Visit]] = [[]]
    for visit in visits(case):
        if visit.rests and visit.end > case.score.length / 2:
            runs[-1].append(visit)
        elif runs[-1]:
            runs.append([])
    return tuple(max(runs, key=lambda run: sum(visit.seconds for visit in run)))


def name_of(case: Case, shape_id: str) -> str:
    """The name of a shape, also of one that the plan does not lead."""
    known = case.shapes.get(shape_id) or load().shapes.get(shape_id)
    return known.name if known else shape_id


def named(names: list[str], most: int = 4) -> str:
    """Names in a row as one says them: "crow, wheel and 2 more"."""
    distinct = list(dict.fromkeys(names))
    if len(distinct) > most:
        return f"{', '.join(distinct[:most])} and {len(distinct) - most} more"
    if len(distinct) < 2:
        return "".join(distinct)
    return f"{', '.join(distinct[:-1])} and {distinct[-1]}"


def spoken(seconds: float) -> str:
    """A time as one says it: "45 s", "3 min", "3 min 20 s"."""
    minutes, rest = divmod(round(seconds), 60)
    if not minutes:
        return f"{rest} s"
    return f"{minutes} min {rest} s" if rest else f"{minutes} min"
