from itertools import product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from conductor.compiler.compile import passes
from conductor.compiler.courses import Course, choices, led, paces
from conductor.compiler.nearest import Nearest, Price
from conductor.plan.model import Plan
from conductor.plan.reader import read
from conductor.score.model import Hold, Score
from conductor.shapes.catalogue import load
from tests.compiler.varying import varying_plans
from tests.support import findings_of, score_of

SLOW = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))


def plan_in(text: str) -> Plan:
    plan, findings = read(text, "plan.yaml")
    assert plan is not None, findings
    return plan


def made(plan: Plan, course: Course = Course()) -> Score:  # noqa: B008 -- frozen
    score = passes(led(plan, course), load(), frozenset()).score
    assert score is not None
    return score


def ends(score: Score, part: int) -> tuple[int, int]:
    """The shortest and the longest of a part, hold by hold, as the compiler made them."""
    here = score.parts[part]
    moments = score.moments[here.first : here.last]
    names = {one.hold for one in moments if one.hold}
    length = sum(one.length for one in moments)
    holds = [score.holds[name] for name in names]
    least = sum(of(hold, hold.amount - hold.least) for hold in holds)
    most = sum(of(hold, hold.most - hold.amount) for hold in holds)
    return length - least, length + most


def of(hold: Hold, amount: int) -> int:
    return amount if hold.timed else amount * hold.unit


def outside(target: int, least: int, most: int) -> int:
    return max(least - target, target - most, 0)


def price(plan: Plan, course: Course, level: int, target: int) -> Price:
    """What a course costs, told from the class that it makes."""
    score = made(plan, course)
    parts = [ends(score, number) for number in range(len(plan.parts))]
    least, most = (sum(pair[k] for pair in parts) for k in (0, 1))
    written = {one.span: one.written for group in choices(plan).groups for one in group}
    return Price(
        outside(target, least, most),
        len(course.gone),
        sum(
            outside(target * part.share.of // 10_000, *parts[number])
            for number, part in enumerate(plan.parts)
            if part.share
        ),
        sum((count - written[span]) ** 2 for span, count in course.rounds.items()),
        level,
        abs(target - score.length),
    )


def every_course(plan: Plan) -> list[tuple[int, Course]]:
    some = choices(plan)
    all_ = [one for group in some.groups for one in group]
    found = []
    for level, breaths in paces(some.breaths):
        for counts in product(*(one.counts for one in all_)):
            pairs = list(zip(all_, counts, strict=True))
            rounds = {o.span: n for o, n in pairs if not o.passage and n != o.written}
            gone = frozenset(o.span for o, n in pairs if o.passage and not n)
            found.append((level, Course(rounds, breaths, gone)))
    return found


@given(varying_plans(), st.data())
@SLOW
@pytest.mark.slow
def test_a_plan_is_measured_as_it_is_compiled(text: str, data: st.DataObject) -> None:
    plan = plan_in(text)
    _, course = data.draw(st.sampled_from(every_course(plan)))
    measures = Nearest(plan, load()).measured(course)
    score = made(plan, course)
    for number, measure in enumerate(measures):
        least, most = ends(score, number)
        here = score.parts[number]
        length = sum(one.length for one in score.moments[here.first : here.last])
        # the course's breaths stand in the plan that was measured
        assert (measure.length({}), measure.length({}, "least"), measure.length({}, "most")) == (
            length,
            least,
            most,
        )


@given(varying_plans(shares=True), st.data())
@SLOW
@pytest.mark.slow
def test_no_course_is_nearer_than_the_one_found(text: str, data: st.DataObject) -> None:
    plan = plan_in(text)
    courses = every_course(plan)
    if len(courses) > 120:
        courses = [*courses[:60], *data.draw(st.permutations(courses[60:]))[:60]]
    now = made(plan).length
    target = data.draw(st.integers(now // 3, now * 2))
    best = Nearest(plan, load()).best(target)
    prices = [price(plan, course, level, target) for level, course in courses]
    assert best.price <= min(prices)
    level = min(level for level, one in every_course(plan) if one == best.course)
    assert price(plan, best.course, level, target) == best.price


# -- what comes of it ------------------------------------------------------------------------

VARIED = """\
plan: 1
title: T
kind: piece
length: {length}
breath: 4 s in, 4 s out
breath may stretch: 7 to 10 s
parts:
  - part: One
    steps:
      - come to: mountain
      - rounds: 3
        may repeat: 2 to 6
        steps:
          - in: arms overhead
          - out: mountain
          - stay: 2 breaths
            may stretch: 1 to 3 breaths
      - may drop: yes
        steps:
          - in: arms overhead
          - out: mountain
"""


@pytest.mark.parametrize(
    ("length", "rounds", "breath", "told"),
    [
        ("88 s", 3, (4000, 4000), []),
        ("112 s", 3, (4000, 4000), []),
        ("120 s", 3, (4300, 4300), ["led-otherwise"]),
        ("140 s", 3, (5000, 5000), ["led-otherwise"]),
        ("160 s", 4, (4500, 4500), ["led-otherwise"]),
        ("250 s", 6, (4900, 4900), ["led-otherwise"]),
        ("60 s", 3, (3700, 3700), ["led-otherwise"]),
        ("50 s", 2, (4000, 4000), ["led-otherwise"]),
        ("28 s", 2, (3500, 3500), ["led-otherwise", "left-out"]),
    ],
)
def test_a_length_is_met_by_stays_then_breath_then_rounds_then_passages(
    length: str, rounds: int, breath: tuple[int, int], told: list[str]
) -> None:
    text = VARIED.format(length=length)
    score = score_of(text)
    findings = {one.rule for one in findings_of(text)} - {"length-missed"}
    assert (max(one.round[1] for one in score.moments), findings) == (rounds, set(told))
    assert {one.length for one in score.moments if one.breath == "in"} == {breath[0]}
