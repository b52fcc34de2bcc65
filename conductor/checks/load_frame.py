"""The frame of a class: it arrives before it works, and rests before it ends."""

from collections import Counter
from collections.abc import Iterator

from conductor.checks.case import Case, Check, finding
from conductor.checks.examples import ARRIVE, LONG_WORK, REST, WORK
from conductor.checks.visits import at_rest, spoken, visits
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.spans import Span

REST_LEAST_S = 60  # less is a pause, not the final rest
ROUNDING_S = 15  # what is left over when a class is fitted to its length

ARRIVAL = Rule(
    "no-arrival",
    Weight.REMARK,
    "load",
    "A class begins with some quiet breaths.",
    "People come from somewhere; the breath has to be found before it can lead.",
    bad=(WORK.replace("mountain\n", "mountain  # here\n", 1) + REST),
    good=(ARRIVE + WORK + REST),
    source="Ward et al. 2013, J Yoga Phys Ther 3:3 (10 of 50 min at rest first); the 45 minute "
    "Common Yoga Protocol begins with 2 min; the seconds are common practice",
)
REST_SOURCES = (
    "Light on Yoga p.59, item 16 (at least 10 to 15 min); published elsewhere: 5 min in 30, 1 min "
    "in 10, 5 min an hour; 5 min as a studio norm"
)
NO_REST = Rule(
    "no-final-rest",
    Weight.WARNING,
    "load",
    "A class ends in a final rest.",
    "What was practised settles there. A piece needs none.",
    bad=(ARRIVE + WORK + "- in: same  # here\n"),
    good=(ARRIVE + WORK + REST),
    source=REST_SOURCES,
)
SHORT_REST = Rule(
    "short-final-rest",
    Weight.WARNING,
    "load",
    "The final rest takes at least 8 % of the class, and 5 min where the class is long enough.",
    "It is the first thing to be cut when time runs out. The sources disagree about how long it "
    "should be; the hint shows them all. Sitting still for minutes near the end counts with it.",
    bad=ARRIVE + LONG_WORK + REST.replace("5 min", "2 min  # here"),
    good=(ARRIVE + LONG_WORK + REST),
    source=REST_SOURCES,
)


def _framed(case: Case) -> bool:
    """Whether it is a class, and long enough to have a beginning and an end."""
    return case.is_class and case.score.length >= 1000 * case.limits["frame from seconds"]


def _arrivals(case: Case) -> Iterator[Finding]:
    if not _framed(case):
        return
    quiet = 0.0
    within = min(case.limits["arrival within seconds"], case.score.length / 5000)
    for visit in visits(case):
        if visit.start / 1000 >= within or visit.shape.loads or visit.shape.level > 1:
            break
        if visit.stays or visit.rests:
            quiet += visit.seconds
        else:
            quiet += _free(case, visit.first)
    if quiet < case.limits["arrival seconds"]:
        span = case.score.moments[0].origin
        words = "the class begins to move at once"
        yield finding(ARRIVAL, words, span, "- stay: 4 breaths, in the first shape")


def _free(case: Case, index: int) -> float:
    """Seconds of free time that is no movement: a long `come to`, words before the class moves."""
    moment = case.score.moments[index]
    return moment.length / 1000 if moment.breath.value == "free" and not moment.cycle else 0.0


def _wanted(case: Case) -> float:
    """Seconds of rest that a class of this length should have."""
    length = case.score.length / 1000
    least = min(case.limits["rest seconds"], length / case.limits["rest part"])
    return max(least, length * case.limits["rest share"] / 100)


def _range(case: Case) -> str:
    """What the sources ask for in a class of this length."""
    seconds = case.score.length / 1000
    rates = ((12, "5 min an hour"), (10, "1 min in 10"), (6, "5 min in 30"))
    said = ", ".join(f"{spoken(seconds / part)} ({rate})" for part, rate in rates)
    return f"published for this length: {said}, 10 to 15 min (Light on Yoga)"


def _rests(case: Case) -> tuple[float, Span | None]:
    run = at_rest(case)
    spent: Counter[Span] = Counter()
    for visit in run:
        for moment in case.score.moments[visit.first : visit.last]:
            spent[moment.origin] += moment.length
    longest = spent.most_common(1)
    return sum(visit.seconds for visit in run), longest[0][0] if longest else None


def _sits(case: Case) -> float:
    """Seconds of sitting still in the last half: a class may end in meditation instead."""
    least = 1000 * case.limits["stillness seconds"]
    late = (visit for visit in visits(case) if visit.start > case.score.length / 2)
    return sum(
        visit.held / 1000
        for visit in late
        if visit.shape.landing and visit.shape.family == "seated" and visit.held >= least
    )


def _no_rest(case: Case) -> Iterator[Finding]:
    if not _framed(case):
        return
    seconds, _ = _rests(case)
    wanted = _wanted(case)
    if seconds < min(REST_LEAST_S, wanted) and _sits(case) < wanted - ROUNDING_S:
        hint = f"end with `free: 40 s`, `to: final rest` and a `stay`; {_range(case)}"
        words = "the class ends without a final rest"
        yield finding(NO_REST, words, case.score.moments[-1].origin, hint)


def _short_rest(case: Case) -> Iterator[Finding]:
    if not _framed(case):
        return
    seconds, span = _rests(case)
    wanted = _wanted(case)
    if seconds < min(REST_LEAST_S, wanted) or seconds + _sits(case) >= wanted - ROUNDING_S:
        return
    share = round(100_000 * seconds / case.score.length)
    words = f"the final rest is {spoken(seconds)}, {share} % of the class"
    hint = f"rest for {spoken(wanted)} or longer; {_range(case)}"
    yield finding(SHORT_REST, words, span, hint)


FRAME: tuple[Check, ...] = (
    Check(ARRIVAL, _arrivals),
    Check(NO_REST, _no_rest),
    Check(SHORT_REST, _short_rest),
)
