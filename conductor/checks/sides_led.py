"""Sides led: each shape on both sides, for as long, and the class home again at its end."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise

from conductor.body.regions import Region, region
from conductor.checks.case import Case, Check, finding
from conductor.checks.visits import Visit, named, spoken, visits
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.score.model import Moment
from conductor.shapes.model import Shape
from conductor.sides import Breath, Side
from conductor.spans import Span
from conductor.stance import Base

FAMILY = "sides"
NEAR = 6  # movements between two shapes that were forgotten together
_STEPS = frozenset({Region.LUNGE, Region.HANDS_FEET})
_SAME = "Light on Yoga p.314: the same length of time on the other side"

ONE_SIDE = Rule(
    "one-side-only",
    Weight.WARNING,
    FAMILY,
    "A shape with two sides is led on both in the course of the class.",
    "The side left out is missed by everybody in the room. One finding names all the shapes of a"
    " passage; a step led for a breath on the way, or a piece, is only remarked on.",
    bad="- come to: mountain\n- in: tree  # here\n  side: right\n- stay: 3 breaths\n"
    "- out: mountain",
    good="- come to: mountain\n- each side: yes\n  steps:\n    - in: tree\n"
    "    - stay: 3 breaths\n    - out: mountain",
    source=_SAME,
)
UNEQUAL = Rule(
    "unequal-sides",
    Weight.WARNING,
    FAMILY,
    "Both sides of a shape last equally long over the class, in breaths and in seconds.",
    "One side worked harder than the other is felt the next day. Up to 10 % it is a remark.",
    bad="- come to: mountain\n- in: tree\n  side: right\n- stay: 5 breaths\n- out: mountain\n"
    "- in: tree\n  side: left\n- stay: 3 breaths  # here\n- out: mountain",
    good="- come to: mountain\n- in: tree\n  side: right\n- stay: 5 breaths\n- out: mountain\n"
    "- in: tree\n  side: left\n- stay: 5 breaths\n- out: mountain",
    source=_SAME,
)
HOME = Rule(
    "ends-facing-away",
    Weight.WARNING,
    FAMILY,
    "A class ends facing the end of the mat at which it began.",
    "A passage that travels to the far end and is led once leaves everybody turned away from the"
    " teacher. A piece need not come home.",
    bad="- come to: mountain\n- in: arms overhead\n- out: mountain  # here\n  turn: other end",
    good="- come to: mountain\n- in: arms overhead\n  turn: other end\n- out: mountain\n"
    "- in: arms overhead\n  turn: other end\n- out: mountain",
)


@dataclass(slots=True)
class Tally:
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


def _passing(case: Case, visit: Visit, ms: int) -> bool:
    """Whether it is no more than a step on the way."""
    return region(visit.stance) in _STEPS and ms <= case.limits["passing"] * 1000


@dataclass(frozen=True, slots=True)
class Fault:
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


def one_side(case: Case) -> Iterator[Finding]:
    """Find shapes whose other side never comes."""
    faults = []
    for tally in tallies(case):
        side = tally.only
        if side:
            first, ms = tally.led[side][0], tally.ms(side)
            light = _passing(case, first, ms) or not case.is_class
            faults.append(
                Fault(first.first, first.last, tally.shape, side, first.origin, light, ms)
            )
    for group in together(case, faults):
        yield _one_side(group)


def _one_side(group: tuple[Fault, ...]) -> Finding:
    side = group[0].side
    light = all(fault.light for fault in group)
    names = named([fault.shape.name for fault in group])
    verb = "is" if len(group) == 1 else "are"
    ms = sum(fault.ms for fault in group)
    words = (
        f"{names} {verb} led on the {side} only ({spoken(ms / 1000)}), never on the {side.other}"
    )
    hint = "each side: yes, with the passage under steps"
    if len(group) == 1:
        hint = f"lead it again with `side: {side.other}`, or write `each side: yes` around it"
    also = tuple((fault.span, f"{fault.shape.name}, {side} only") for fault in group[1:])
    return finding(
        ONE_SIDE, words, group[0].span, hint, also, weight=Weight.REMARK if light else None
    )


def unequal(case: Case) -> Iterator[Finding]:
    """Find shapes that last longer on one side than on the other."""
    faults = [
        fault
        for tally in tallies(case)
        if tally.led[Side.RIGHT] and tally.led[Side.LEFT]
        for fault in (_uneven(case, tally),)
        if fault
    ]
    for group in together(case, faults):
        yield _unequal(group)


def _uneven(case: Case, tally: Tally) -> Fault | None:
    side = max(Side, key=tally.ms)
    more, less = tally.ms(side), tally.ms(side.other)
    breaths = {each: sum(_breaths(case, visit) for visit in tally.led[each]) for each in Side}
    share = _apart(more, less)
    if not any(visit.stays and _timed(case, visit) for each in Side for visit in tally.led[each]):
        share = max(share, _apart(breaths[Side.RIGHT], breaths[Side.LEFT]))
    if more - less < 500 and share < 0.01:
        return None
    here, there = _differing(case, tally)
    light = share * 100 <= case.limits["uneven sides"] or not case.is_class
    light = light or _passing(case, here, more - less)
    words = (
        f"{tally.shape.name} lasts {spoken(more / 1000)} on the {side} and"
        f" {spoken(less / 1000)} on the {side.other}"
    )
    if spoken(more / 1000) == spoken(less / 1000) and breaths[side] != breaths[side.other]:
        words = (
            f"{tally.shape.name} lasts {breaths[side]:g} breaths on the {side} and"
            f" {breaths[side.other]:g} on the {side.other}"
        )
    also: tuple[tuple[Span, str], ...] = ()
    span = _longest(case, here)
    if there is not None and there.side:
        span = _excess(case, here, there) or span
        other = _longest(case, there)
        if other != span:
            also = ((other, f"the {there.side} side lasted {_long(case, there)} here"),)
    return Fault(here.first, here.last, tally.shape, side, span, light, more - less, also, words)


def _apart(one: float, other: float) -> float:
    return abs(one - other) / max(one, other) if max(one, other) else 0.0


def _breaths(case: Case, visit: Visit) -> float:
    moments = case.score.moments[visit.first : visit.last]
    return sum(moment.breath is not Breath.FREE for moment in moments) / 2


def _timed(case: Case, visit: Visit) -> bool:
    moments = case.score.moments[visit.first : visit.last]
    return any(moment.breath is Breath.FREE for moment in moments)


def _long(case: Case, visit: Visit) -> str:
    breaths = "" if _timed(case, visit) else f", {_breaths(case, visit):g} breaths"
    return spoken(visit.seconds) + breaths


def _lengths(case: Case, visit: Visit) -> dict[Span, int]:
    """Milliseconds of a visit by the lines that make them."""
    lengths: dict[Span, int] = {}
    for moment in case.score.moments[visit.first : visit.last]:
        lengths[moment.origin] = lengths.get(moment.origin, 0) + moment.length
    return lengths


def _excess(case: Case, one: Visit, other: Visit) -> Span | None:
    """The line that makes the difference, where both sides come from the same lines."""
    here, there = _lengths(case, one), _lengths(case, other)
    if not here.keys() & there.keys():
        return None
    return max({**here, **there}, key=lambda span: abs(here.get(span, 0) - there.get(span, 0)))


def _longest(case: Case, visit: Visit) -> Span:
    """The line that takes most of a visit: its stay, if it has one."""
    lengths = _lengths(case, visit)
    return max(lengths, key=lambda span: (lengths[span], span == visit.origin))


def _differing(case: Case, tally: Tally) -> tuple[Visit, Visit | None]:
    """The later of two visits that should be alike with the other, or one with no other side.

    Visits alike on both sides are put aside first, those from the same lines before others.
    """
    left = [list(tally.led[side]) for side in Side]
    for alike in (_same_lines, _same_length):
        left = list(_unmatched(case, left[0], left[1], alike))
        if all(left):
            pairs = [
                (one, other) for one in left[0] for other in left[1] if one.origin == other.origin
            ]
            if pairs:
                return _later(*pairs[0])
    if all(left):
        return _later(left[0][0], left[1][0])
    rest = left[0] or left[1]
    return (rest[0] if rest else tally.led[Side.RIGHT][-1]), None


def _later(one: Visit, other: Visit) -> tuple[Visit, Visit]:
    return (one, other) if one.first > other.first else (other, one)


def _same_length(case: Case, one: Visit, other: Visit) -> bool:
    even = _breaths(case, one) == _breaths(case, other)
    return even and abs(one.seconds - other.seconds) < 0.5


def _same_lines(case: Case, one: Visit, other: Visit) -> bool:
    return one.origin == other.origin and _same_length(case, one, other)


def _unmatched(
    case: Case,
    some: list[Visit],
    others: list[Visit],
    alike: Callable[[Case, Visit, Visit], bool],
) -> tuple[list[Visit], list[Visit]]:
    """Put aside each visit that has one like it on the other side."""
    rest = list(others)
    kept = []
    for visit in some:
        mate = next((other for other in rest if alike(case, visit, other)), None)
        if mate is None:
            kept.append(visit)
        else:
            rest.remove(mate)
    return kept, rest


def _unequal(group: tuple[Fault, ...]) -> Finding:
    main = max(group, key=lambda fault: (not fault.light, fault.ms, -fault.at))
    others = [fault for fault in group if fault is not main]
    words = main.words
    if others:
        words += f"; so do {named([fault.shape.name for fault in others])}"
    also = main.also + tuple((fault.span, fault.words) for fault in others[:3])
    hint = "give both sides the same stay, or write the passage once under `each side: yes`"
    return finding(UNEQUAL, words, main.span, hint, also, weight=_weight(group))


def _weight(group: tuple[Fault, ...]) -> Weight | None:
    return Weight.REMARK if all(fault.light for fault in group) else None


def home(case: Case) -> Iterator[Finding]:
    """Find a class that ends facing the other end of the mat than it began."""
    moments = case.score.moments
    if not moments or not case.is_class:
        return
    start, end = moments[0].stance.heading, moments[-1].stance.heading
    if start is end:
        return
    turns = [
        moment
        for before, moment in pairwise(moments)
        if before.stance.heading is not moment.stance.heading
    ]
    words = f"the class ends facing the {end} of the mat; it began facing the {start}"
    hint = "lead the passage on its other side too, or turn once more: `turn: other end`"
    also = ((moments[-1].origin, "the end"),) if moments[-1] is not turns[-1] else ()
    yield finding(HOME, words, turns[-1].origin, hint, also)


LED: tuple[Check, ...] = (
    Check(ONE_SIDE, one_side),
    Check(UNEQUAL, unequal),
    Check(HOME, home),
)
