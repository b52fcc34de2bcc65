"""Breath: it alternates, suits the movement, and can be breathed."""

from collections.abc import Iterator
from itertools import pairwise

from conductor.body.moves import Do
from conductor.checks.breath_pace import PACE
from conductor.checks.breath_taught import TAUGHT
from conductor.checks.case import SHOWN, Case, Check, finding
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.score.model import Moment
from conductor.shapes.model import Shape
from conductor.sides import Breath
from conductor.stance import Hands, Stance, Trunk

FAMILY = "breath"
APART, ROW = 2, 4  # a row: so many, none further apart than so many half breaths
SETTLED = "/settled"  # how the stays of `settle` are named
_HALF = {Breath.IN: "inhale", Breath.OUT: "exhale"}

TWICE = Rule(
    "breath-twice",
    Weight.WARNING,
    FAMILY,
    "Inhales and exhales alternate, stays included.",
    "Two of a kind in a row: everybody breathes the half in between at a time of their own.",
    bad="- come to: mountain\n- in: arms overhead\n- out: standing fold\n- out: plank  # here",
    good="- come to: mountain\n- in: arms overhead\n- out: standing fold\n- in: half lift\n"
    "- out: plank",
    source="odd counts inhale, even counts exhale (the counted salutations)",
)
AGAINST = Rule(
    "breath-against",
    Weight.WARNING,
    FAMILY,
    "Folding, twisting and lowering ride on an exhale, opening and bending back on an inhale.",
    "Against it the ribs work against the movement. Where traditions differ it is a remark.",
    bad="- come to: mountain\n- out: arms overhead  # here\n- in: standing fold  # here",
    good="- come to: mountain\n- in: arms overhead\n- out: standing fold",
    source="flexion exhales, extension inhales (Kaminoff and Matthews, Yoga Anatomy 2012, p.38)",
)


def twice(case: Case) -> Iterator[Finding]:
    """Find two inhales or two exhales in a row; a row of settled movements counts as one."""
    moments = case.score.moments
    settled: Finding | None = None
    for before, moment in pairwise(moments):
        if moment.breath is Breath.FREE or before.breath is not moment.breath:
            continue
        half = _HALF[moment.breath]
        if SETTLED in before.hold:
            settled = settled or _settled(before, half)
            continue
        words = f"two {half}s in a row: {_what(case, before)}, then {_what(case, moment)}"
        typed = f"- {moment.breath.other}: same  (between them)"
        also = () if before.origin == moment.origin else ((before.origin, f"{half} here"),)
        yield finding(TWICE, words, moment.origin, typed, also)
    if settled:
        yield settled


def _settled(before: Moment, half: str) -> Finding:
    words = f"half a breath to settle after each movement makes two {half}s in a row"
    return finding(TWICE, words, before.origin, "settle: 1 breath")


def _what(case: Case, moment: Moment) -> str:
    name = case.shape(moment).name
    return f"a stay in {name}" if moment.hold else name


def against(case: Case) -> Iterator[Finding]:
    """Find movements on the half of the breath that works against them; a long row is one fault."""
    row: list[Finding] = []
    last = -1
    for index, one in _each_against(case):
        if index - last > APART:
            yield from _in_row(row)
            row = []
        row.append(one)
        last = index
    yield from _in_row(row)


def _in_row(row: list[Finding]) -> tuple[Finding, ...]:
    if len(row) < ROW:
        return tuple(row)
    weight = next((one.weight for one in row if one.weight is AGAINST.weight), Weight.REMARK)
    words = f"{row[0].words}; with it, {len(row)} movements in a row ride on the other half breath"
    typed = "in for out from here on, or a movement too few or too many just before"
    also = tuple((one.span, one.words) for one in row[1:SHOWN] if one.span)
    return (finding(AGAINST, words, row[0].span, typed, also, weight=weight),)


def _each_against(case: Case) -> Iterator[tuple[int, Finding]]:
    moments = case.score.moments
    for index, moment, before in case.entries():
        if before is None or moment.hold or moment.breath is Breath.FREE:
            continue
        after = moments[index + 1] if index + 1 < len(moments) else None
        if after and not after.arriving and not after.hold:
            continue  # it takes more than half a breath
        shape = case.shape(moment)
        if shape.breath in {"either", moment.breath} or before.shape == moment.shape:
            continue
        doing = _doing(case, index, moment, before)
        if doing:
            yield index, _against(moment, shape, doing)


def _against(moment: Moment, shape: Shape, doing: str) -> Finding:
    usual = _HALF[moment.breath.other]
    words = f"{doing} on an {_HALF[moment.breath]}; {shape.name} usually comes on an {usual}"
    disputed = _disputed(shape)
    if disputed and shape.breath_note:
        words += f" ({shape.breath_note.rstrip('.')})"
    typed = f"- {moment.breath.other}: {shape.name}  (with the breath of its neighbours)"
    weight = Weight.REMARK if disputed else None
    return finding(AGAINST, words, moment.origin, typed, weight=weight)


def _disputed(shape: Shape) -> bool:
    """Whether traditions or classes differ: a note says so, or the body opens as it turns."""
    opens = shape.spine == "rotation" and shape.place.hands in {Hands.UP, Hands.WIDE}
    sways = "sway" in shape.enter
    return bool(shape.breath_note) or opens or sways or shape.spine == "lateral"


def _doing(case: Case, index: int, moment: Moment, before: Moment) -> str:
    """What a movement does to breathing, or "" when it does not close, lower or open the body."""
    shape, was = case.shape(moment), case.shape(before)
    if moment.breath is Breath.OUT:
        return _opening(case, moment, before)
    if was.spine == shape.spine and was.spine in _CLOSING:
        return ""
    if shape.spine in _CLOSING:
        return _CLOSING[shape.spine]
    if _folds(before.stance, moment.stance):
        return "folding"
    return "lowering" if _lowers(case, index, shape) else ""


def _opening(case: Case, moment: Moment, before: Moment) -> str:
    """How a movement opens the body; steps and sinking knees may ride on any half breath."""
    stance, was = moment.stance, before.stance
    if stance.trunk is Trunk.ARCHED:
        return "" if was.trunk is Trunk.ARCHED else "bending back"
    still = (stance.right, stance.left, stance.knees) == (was.right, was.left, was.knees)
    if not still or case.shape(moment).loads or stance.base is not was.base:
        return ""
    if was.trunk is Trunk.FOLDED and stance.trunk in {Trunk.FLAT, Trunk.UPRIGHT}:
        return "rising"
    up = stance.hands is Hands.UP and was.hands is not Hands.UP
    return "reaching up" if up and stance.trunk is Trunk.UPRIGHT else ""


_CLOSING = {"flexion": "folding", "rotation": "twisting", "lateral": "bending sideways"}
_LOWERING = frozenset(
    {Do.LOWER_HIPS, Do.LOWER_BACK, Do.SIT_BACK, Do.SIT_DOWN, Do.LIE_BACK, Do.LIE_ON_BELLY}
)


def _folds(before: Stance, after: Stance) -> bool:
    """Whether the hips fold with the spine long: into a dog from a plank or a backbend."""
    return after.trunk is Trunk.INVERTED and before.trunk in {Trunk.ARCHED, Trunk.FLAT}


def _lowers(case: Case, index: int, shape: Shape) -> bool:
    done = {action.kind for way in case.ways[index] for action in way.actions}
    return bool(done & _LOWERING) or shape.enter.startswith(("lower", "sink"))


BREATH: tuple[Check, ...] = (Check(TWICE, twice), Check(AGAINST, against), *PACE, *TAUGHT)
