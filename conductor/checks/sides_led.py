"""Sides led: each shape on both sides, and the class home again at its end."""

from collections.abc import Iterator
from itertools import pairwise

from conductor.checks.case import Case, Check, finding
from conductor.checks.sides_tally import FAMILY, SAME, Fault, passing, tallies, together
from conductor.checks.visits import named, spoken
from conductor.findings import Finding, Weight
from conductor.rules import Rule

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
    source=SAME,
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


def one_side(case: Case) -> Iterator[Finding]:
    """Find shapes whose other side never comes."""
    faults = []
    for tally in tallies(case):
        side = tally.only
        if side:
            first, ms = tally.led[side][0], tally.ms(side)
            light = passing(case, first, ms) or not case.is_class
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


LED: tuple[Check, ...] = (Check(ONE_SIDE, one_side), Check(HOME, home))
