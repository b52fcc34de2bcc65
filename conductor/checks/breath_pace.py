"""Pace: half breaths that can be breathed, halves of like length, time to settle."""

from collections.abc import Iterator
from itertools import pairwise

from conductor.checks.case import Case, Check, finding
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.score.model import Moment
from conductor.sides import Breath

FAMILY = "breath"
_HALF = {Breath.IN: "inhale", Breath.OUT: "exhale"}

LENGTH = Rule(
    "half-breath-length",
    Weight.WARNING,
    FAMILY,
    "A half breath lasts between 2 and 8 seconds.",
    "Shorter ones make people pant, longer ones cannot be kept while moving.",
    bad="- come to: mountain\n- in: arms overhead  # here\n  breath: 9 s in, 9 s out\n"
    "- out: mountain",
    good="- come to: mountain\n- in: arms overhead\n  breath: 6 s in, 6 s out\n- out: mountain",
    source="10 to 20 breaths a minute are usual, 4 to 10 slow (Russo et al., Breathe 2017)",
)
RATIO = Rule(
    "breath-ratio",
    Weight.REMARK,
    FAMILY,
    "Inhale and exhale are not more than twice as long as each other.",
    "More than that is breathing practice, not a class that moves.",
    bad="- come to: mountain\n- steps:\n    - in: arms overhead  # here\n    - out: mountain\n"
    "  breath: 3 s in, 7 s out",
    good="- come to: mountain\n- steps:\n    - in: arms overhead\n    - out: mountain\n"
    "  breath: 3 s in, 6 s out",
    source="1:1 and 3:7 were tested (Mason et al. 2013, eCAM 743504)",
)
UNSETTLED = Rule(
    "never-settles",
    Weight.REMARK,
    FAMILY,
    "After some dozens of movements there is a breath or more to stay in one shape.",
    "Without it the breath grows shallow and the movements hasty.",
    bad="- come to: mountain\n- rounds: 20\n  steps:\n    - in: arms overhead  # here\n"
    "    - out: standing fold",
    good="- come to: mountain\n- rounds: 20\n  steps:\n    - in: arms overhead\n"
    "    - out: standing fold\n    - stay: 1 breath",
)


def length(case: Case) -> Iterator[Finding]:
    """Find half breaths that nobody breathes; one finding for each such tempo of a part."""
    told: set[tuple[int, frozenset[tuple[Breath, int]]]] = set()
    for row in _odd_rows(case):
        odd = frozenset((moment.breath, moment.length) for moment in row)
        if (row[0].part, odd) in told:
            continue
        told.add((row[0].part, odd))
        short = row[0].length < case.limits["shortest half breath"] * 1000
        bound = "shortest" if short else "longest"
        halves = " and ".join(
            f"an {_HALF[breath]} of {ms / 1000:g} s" for breath, ms in sorted(odd)
        )
        words = f"{halves}; {case.limits[f'{bound} half breath']:g} s is the {bound}"
        words += " that a moving class keeps up"
        typed = "breath: 3 s in, 3 s out" if short else "breath: 6 s in, 6 s out"
        yield finding(LENGTH, words, row[0].origin, typed)


def _odd_rows(case: Case) -> Iterator[list[Moment]]:
    """Give the half breaths out of bounds, those of one tempo together."""
    least, most = case.limits["shortest half breath"], case.limits["longest half breath"]
    row: list[Moment] = []
    last = -1
    for index, moment in enumerate(case.score.moments):
        if moment.breath is Breath.FREE or least <= moment.length / 1000 <= most:
            continue
        tempo = next((one.length for one in row if one.breath is moment.breath), moment.length)
        other = row and (row[0].length < most * 1000) != (moment.length < most * 1000)
        if row and (
            moment.part != row[0].part or index - last > 2 or other or tempo != moment.length
        ):
            yield row
            row = []
        row.append(moment)
        last = index
    if row:
        yield row


def ratio(case: Case) -> Iterator[Finding]:
    """Find an inhale and exhale that are far from each other in length, once for each part."""
    out, in_ = case.limits["longest exhale"], case.limits["longest inhale"]
    told: set[tuple[int, int, int]] = set()
    for index, (moment, after) in enumerate(pairwise(case.score.moments)):
        if moment.breath is not Breath.IN or after.breath is not Breath.OUT:
            continue
        if moment.part != after.part or _tempo_changes(case.score.moments, index):
            continue
        inhale, exhale = moment.length, after.length
        key = (moment.part, inhale, exhale)
        if key in told or (exhale <= out * inhale and inhale <= in_ * exhale):
            continue
        told.add(key)
        words = f"the inhale lasts {inhale / 1000:g} s and the exhale {exhale / 1000:g} s"
        yield finding(RATIO, words, moment.origin, "breath: 4 s in, 6 s out")


def _tempo_changes(moments: tuple[Moment, ...], index: int) -> bool:
    """Whether another tempo begins between an inhale and the exhale after it."""
    around = moments[max(0, index - 2) : index + 4]
    near = dict(enumerate(around, max(0, index - 2) - index))

    def alike(one: int, other: int) -> bool:
        pair = near.get(one), near.get(other)
        return bool(pair[0] and pair[1] and pair[0].length == pair[1].length)

    return alike(0, -2) and alike(1, 3) and not alike(1, -1) and not alike(0, 2)


def settles(case: Case) -> Iterator[Finding]:
    """Find long rows of movements without a breath in which nothing moves."""
    most = case.limits["movements without a settled breath"]
    row: list[Moment] = []
    still = 0
    before: Moment | None = None
    for moment in (*case.score.moments, None):
        if moment is not None and not _still(moment, before):
            row.append(moment)
            still = 0
        else:
            still += 1
        if moment is None or still > 1 or (moment.hold or moment.breath is Breath.FREE):
            if len(row) > most:
                words = f"{len(row)} movements in a row without a breath to settle"
                yield finding(UNSETTLED, words, row[0].origin, "stay: 3 breaths  (on the way)")
            row = []
        before = moment


def _still(moment: Moment, before: Moment | None) -> bool:
    """Whether nothing moves: a stay, time of one's own, or half a breath in place."""
    in_place = before is not None and before.shape == moment.shape
    same = in_place and before is not None and before.stance == moment.stance
    same = same and before is not None and before.with_ == moment.with_
    return bool(moment.hold) or moment.breath is Breath.FREE or not moment.arriving or same


PACE: tuple[Check, ...] = (
    Check(LENGTH, length),
    Check(RATIO, ratio),
    Check(UNSETTLED, settles),
)
