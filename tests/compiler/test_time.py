import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.sides import Breath
from tests.support import plan_of, rules_of, score_of


# breath arithmetic of Mason et al. 2013, Evid Based Complement Alternat Med 743504:
# 15 a minute = 2 s in + 2 s out; 6 a minute = 5 + 5, or 3 + 7
@pytest.mark.parametrize(
    ("breath", "inhale", "exhale", "a_minute"),
    [
        ("2 s in, 2 s out", 2000, 2000, 15),
        ("5 s in, 5 s out", 5000, 5000, 6),
        ("3 s in, 7 s out", 3000, 7000, 6),
        ("6 a minute", 5000, 5000, 6),
        ("15 a minute", 2000, 2000, 15),
    ],
)
def test_breath_arithmetic(breath: str, inhale: int, exhale: int, a_minute: int) -> None:
    text = plan_of("- come to: mountain\n- stay: 1 breath\n").replace("4 s in, 4 s out", breath)
    _, first, second = score_of(text).moments
    assert (first.length, second.length) == (inhale, exhale)
    assert a_minute * (first.length + second.length) == 60_000


def test_a_stay_begins_with_the_half_after_the_last_movement() -> None:
    steps = "- come to: mountain\n- in: arms overhead\n- stay: 2 breaths\n- out: mountain\n"
    breaths = [moment.breath for moment in score_of(plan_of(steps)).moments[1:]]
    assert breaths == [Breath.IN, Breath.OUT, Breath.IN, Breath.OUT, Breath.IN, Breath.OUT]


def test_half_a_breath_and_a_movement_over_several() -> None:
    steps = (
        "- come to: mountain\n- in: arms overhead\n- stay: half a breath\n"
        "- in: same\n- out: standing fold\n  over: 2 breaths\n"
    )
    moments = score_of(plan_of(steps)).moments
    assert [m.breath.value for m in moments[1:]] == ["in", "out", "in", "out", "in", "out", "in"]
    assert [m.arriving for m in moments[4:]] == [True, False, False, False]


def test_moments_follow_without_a_gap_and_sum_to_the_length() -> None:
    steps = "- come to: mountain\n- in: arms overhead\n- out: mountain\n- stay: 90 s\n"
    score = score_of(plan_of(steps))
    assert [m.start for m in score.moments] == [0, 8000, 12000, 16000]
    assert score.length == sum(m.length for m in score.moments) == 106_000


STRETCH = """
- come to: mountain
- each side: yes
  steps:
    - in: tree
    - stay: 5 breaths
      may stretch: 3 to 8 breaths
    - out: mountain
- in: arms overhead
- free: 40 s
  to: final rest
- stay: 5 min
  may stretch: 5 to 15 min
"""


@given(st.integers(7 * 60, 16 * 60))
def test_the_length_asked_for_is_met_to_the_millisecond(seconds: int) -> None:
    text = plan_of(STRETCH, head=f"length: {seconds} s\n")
    score = score_of(text)
    assert score.length == seconds * 1000
    stays = [h.amount for h in score.holds.values() if not h.timed]
    assert stays[0] == stays[1]
    assert 3 <= stays[0] <= 8


def test_a_length_that_cannot_be_met_says_by_how_much() -> None:
    text = plan_of("- come to: mountain\n- stay: 2 breaths\n", head="length: 1 min\n")
    assert rules_of(text) == ["length-missed"]


@pytest.mark.parametrize("bounds", ["6 to 8 breaths", "1 to 3 breaths", "1 to 2 min"])
def test_a_stay_outside_its_own_bounds_is_an_error(bounds: str) -> None:
    text = plan_of(f"- come to: mountain\n- stay: 5 breaths\n  may stretch: {bounds}\n")
    assert rules_of(text) == ["bounds"]


def test_bounds_given_for_a_block_hold_for_its_stays_in_the_same_measure() -> None:
    steps = """
    - come to: mountain
    - may stretch: 3 to 8 breaths
      steps:
        - stay: 5 breaths
        - stay: 30 s
    """
    holds = list(score_of(plan_of(steps)).holds.values())
    assert [(hold.least, hold.most) for hold in holds] == [(3, 8), (30_000, 30_000)]


def test_a_stay_outside_the_bounds_given_for_its_block_is_an_error() -> None:
    steps = "- come to: mountain\n- may stretch: 1 to 3 breaths\n  steps:\n    - stay: 5 breaths\n"
    assert rules_of(plan_of(steps)) == ["stretch-bounds"]


def test_the_last_long_stay_in_a_shape_of_rest_is_the_final_rest() -> None:
    score = score_of(plan_of(STRETCH))
    assert [hold.rest for hold in score.holds.values()] == [False, False, False, True]


def test_a_bell_is_struck_before_the_words_where_the_class_waits_long_enough() -> None:
    steps = "- come to: mountain\n- stay: 1 breath\n- stay: 40 s\n- bell: 1\n- in: arms overhead\n"
    assert [(m.bells, m.struck) for m in score_of(plan_of(steps)).moments][-1] == (1, 3_000)
    moving = "- come to: mountain\n- in: arms overhead\n- bell: 1\n- out: mountain\n"
    assert [(m.bells, m.struck) for m in score_of(plan_of(moving)).moments][-1] == (1, 0)


def test_bells_have_names_by_where_they_ring() -> None:
    steps = """
    - come to: mountain
    - bell: 1
    - stay: 1 breath
    - free: 20 s
      to: final rest
    - bell: 1
    - stay: 2 min
    - bell: 1
    """
    named = [m.bell for m in score_of(plan_of(steps)).moments if m.bells]
    assert named == ["bell", "rest", "end"]
