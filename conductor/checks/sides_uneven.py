"""Uneven sides: both sides of a shape last equally long over the class."""

from collections.abc import Callable, Iterator

from conductor.checks.case import Case, Check, finding
from conductor.checks.sides_tally import FAMILY, SAME, Fault, Tally, passing, tallies, together
from conductor.checks.visits import Visit, named, spoken
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.sides import Breath, Side
from conductor.spans import Span

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
    source=SAME,
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
    light = light or passing(case, here, more - less)
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


UNEVEN: tuple[Check, ...] = (Check(UNEQUAL, unequal),)
