import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.checks.breath import BREATH
from conductor.findings import Weight
from tests.checks.examples import case_of, found, lines, marked, of, plan_around

LINK = """flows:
  link:
    - in: plank  # here
    - out: low plank
    - in: upward dog
    - out: downward dog
steps:
  - come to: downward dog
"""


# -- in and out ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("steps", "count"),
    [
        ("- in: arms overhead\n- stay: 2 breaths\n- out: standing fold\n", 0),
        ("- in: arms overhead\n- stay: half a breath\n- out: standing fold\n", 1),
        ("- in: arms overhead\n- stay: half a breath\n- in: same\n- out: standing fold\n", 0),
        ("- in: arms overhead\n- stay: 20 s\n- in: same\n", 0),
        ("- in: arms overhead\n  over: 1 breath\n- in: same\n", 0),
        ("- in: arms overhead\n  over: 1 breath\n- out: standing fold\n", 1),
        ("- in: arms overhead\n- free: 10 s\n  to: mountain\n- in: arms overhead\n", 0),
        ("- in: arms overhead\n- in: same\n", 1),
    ],
)
def test_stays_and_time_of_ones_own_count_as_breath(steps: str, count: int) -> None:
    assert len(found(plan_around(f"- come to: mountain\n{steps}"), "breath-twice")) == count


def test_the_hint_can_be_typed_and_mends_it() -> None:
    bad = next(one.rule.bad for one in BREATH if one.rule.name == "breath-twice")
    (one,) = found(plan_around(bad), "breath-twice")
    typed = one.hint.partition("  ")[0]
    head, _, last = bad.rpartition("\n")
    assert found(plan_around(f"{head}\n{typed}\n{last}"), "breath-twice") == ()


def test_half_a_breath_to_settle_is_one_fault_and_a_whole_one_none() -> None:
    steps = "- come to: mountain\n- settle: {}\n  steps:\n    - in: arms overhead\n"
    steps += "    - out: standing fold\n    - in: half lift\n    - out: standing fold\n"
    assert len(found(plan_around(steps.format("half a breath")), "breath-twice")) == 1
    assert found(plan_around(steps.format("1 breath")), "breath-twice") == ()


def test_two_exhales_in_a_flow_are_one_finding_with_both_lines() -> None:
    text = plan_around(
        "- come to: mountain\n- rounds: 5\n  steps:\n    - in: arms overhead\n"
        "    - out: standing fold\n    - out: low plank  # here\n      through: plank\n"
        "    - in: upward dog\n    - out: downward dog\n    - in: half lift\n"
        "    - out: standing fold\n"
    )
    (one,) = found(text, "breath-twice")
    assert (one.times, lines((one,))) == (5, marked(text))
    assert one.also[0][0].line == marked(text)[0] - 1


AGAINST = [
    ("mountain", "in: standing fold", Weight.WARNING),
    ("staff", "in: seated fold", Weight.WARNING),
    ("all fours", "in: cat", Weight.WARNING),
    ("all fours", "out: cow", Weight.WARNING),
    ("mountain", "out: arms overhead", Weight.WARNING),
    ("standing fold", "out: half lift", Weight.WARNING),
    ("chair", "in: chair twist", Weight.WARNING),
    ("plank", "in: low plank", Weight.WARNING),
    ("plank", "in: downward dog", Weight.WARNING),
    ("crocodile", "out: cobra", Weight.WARNING),
    ("easy seat", "in: seated twist", Weight.WARNING),
    ("mountain", "out: standing backbend", Weight.WARNING),
    ("crocodile", "out: locust", Weight.REMARK),  # Light on Yoga lifts on the exhale
    ("constructive rest", "out: bridge", Weight.REMARK),
    ("high kneel", "out: camel", Weight.REMARK),
    ("mountain", "in: standing side bend", Weight.REMARK),
    ("crescent lunge", "in: open lunge twist", Weight.REMARK),
    ("constructive rest", "in: windshield wipers", Weight.REMARK),
    ("mountain", "out: mountain", None),
    ("standing fold", "in: mountain", None),
    ("upward dog", "out: downward dog", None),
    ("crescent lunge", "in: warrior two", None),
    ("side angle", "in: triangle", None),
    ("low lunge", "out: crescent lunge", None),
    ("plank", "out: side plank", None),
    ("standing fold", "out: plank", None),
    ("standing fold", "in: plank", None),
    ("all fours", "in: child's pose", Weight.WARNING),
    ("final rest", "in: constructive rest", None),
    ("mountain", "out: warrior one", None),
    ("arms overhead", "out: chair", None),
]


@pytest.mark.parametrize(("before", "move", "weight"), AGAINST)
def test_what_rides_on_which_half(before: str, move: str, weight: Weight | None) -> None:
    text = plan_around(f"- come to: {before}\n- {move}\n", kind="piece")
    assert [one.weight for one in found(text, "breath-against")] == ([weight] if weight else [])


def test_a_passage_turned_round_is_one_finding() -> None:
    text = plan_around(
        "- come to: mountain\n- out: arms overhead  # here\n- in: standing fold\n"
        "- out: half lift\n- in: standing fold\n- out: plank\n- in: low plank\n"
        "- out: upward dog\n- in: downward dog\n"
    )
    (one,) = found(text, "breath-against")
    assert lines((one,)) == marked(text)
    assert "7 movements" in one.words


# -- pace ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("tempo", "count"),
    [
        ("4 s in, 4 s out", 0),
        ("2 s in, 2 s out", 0),
        ("8 s in, 8 s out", 0),
        ("1.9 s in, 1.9 s out", 1),
        ("8.5 s in, 8.5 s out", 1),
        ("4 s in, 9 s out", 1),
    ],
)
def test_a_half_breath_lasts_between_two_and_eight_seconds(tempo: str, count: int) -> None:
    steps = (
        "- come to: mountain\n- rounds: 4\n  steps:\n    - in: arms overhead\n    - out: mountain\n"
    )
    text = plan_around(steps, head=f"breath: {tempo}\n")
    assert len(found(text, "half-breath-length")) == count


def test_each_odd_tempo_of_a_part_is_told_once_and_bounds_can_be_set() -> None:
    steps = (
        "- come to: mountain\n- breath: 9 s in, 9 s out\n  steps:\n"
        "    - in: arms overhead  # here\n    - out: mountain\n    - stay: 5 breaths\n"
        "- breath: 1.5 s in, 1.5 s out\n  steps:\n    - in: arms overhead  # here\n"
        "    - out: mountain\n    - in: arms overhead\n    - out: mountain\n"
    )
    text = plan_around(steps)
    assert lines(found(text, "half-breath-length")) == marked(text)
    wide = plan_around(steps, head="check: {longest half breath: 10, shortest half breath: 1}\n")
    assert found(wide, "half-breath-length") == ()


@pytest.mark.parametrize(
    ("tempo", "count"),
    [
        ("4 s in, 8 s out", 0),
        ("8 s in, 4 s out", 0),
        ("3 s in, 7 s out", 1),
        ("7 s in, 3 s out", 1),
    ],
)
def test_the_ratio_of_the_halves(tempo: str, count: int) -> None:
    steps = (
        "- come to: mountain\n- rounds: 4\n  steps:\n    - in: arms overhead\n    - out: mountain\n"
    )
    text = plan_around(steps, head=f"breath: {tempo}\n")
    assert len(found(text, "breath-ratio")) == count


@pytest.mark.parametrize(("rounds", "rest", "count"), [(18, "", 0), (19, "", 1), (19, "stay", 0)])
def test_a_long_row_of_movements_wants_a_breath_to_settle(
    rounds: int, rest: str, count: int
) -> None:
    settle = "    - stay: 1 breath\n" if rest else ""
    text = plan_around(
        f"- come to: mountain\n- rounds: {rounds}\n  steps:\n    - in: arms overhead\n"
        f"    - out: standing fold\n{settle}"
    )
    assert len(found(text, "never-settles")) == count


def test_a_breath_in_place_settles_and_half_a_one_does_not() -> None:
    steps = "- come to: mountain\n- rounds: 20\n  steps:\n    - in: arms overhead\n"
    steps += "    - out: standing fold\n    - in: half lift\n    - out: standing fold\n"
    whole = steps + "    - in: same\n    - out: same\n"
    assert found(plan_around(whole), "never-settles") == ()
    half = steps.replace("- out: standing fold\n    - in: half", "- out: same\n    - in: half")
    assert len(found(plan_around(half), "never-settles")) == 1


@pytest.mark.parametrize(
    ("calls", "count"),
    [
        ("  - flow: link\n    speak: breath\n", 1),
        ("  - flow: link\n    speak: nothing\n", 1),
        ("  - flow: link\n    speak: short\n", 1),
        ("  - flow: link\n    speak: full\n", 0),
        ("  - flow: link\n", 0),
        ("  - flow: link\n    speak: breath\n    settle: 1 breath\n", 0),
        ("  - flow: link\n  - flow: link\n    speak: breath\n", 0),
        ("  - flow: link\n    rounds: 3\n    speak: full, then short, then breath\n", 0),
        ("  - flow: link\n    rounds: 3\n    speak: breath\n", 1),
        (("  - in: plank\n  - out: low plank\n  - in: upward dog\n  - out: downward dog\n"
         "  - flow: link\n    speak: breath\n"), 0),
    ],
)  # fmt: skip
def test_a_flow_is_told_the_first_time(calls: str, count: int) -> None:
    text = plan_around(LINK + calls)
    one = found(text, "flow-untaught")
    assert lines(one) == marked(text) * count
    if one:
        assert "link" in one[0].words


def test_those_who_lead_a_piece_know_it() -> None:
    text = plan_around(LINK + "  - flow: link\n    speak: breath\n", kind="piece")
    assert [one.weight for one in found(text, "flow-untaught")] == [Weight.REMARK]


# -- found wherever it is planted ------------------------------------------------------------------

ROUND = [
    *("in: arms overhead", "out: standing fold", "in: half lift", "out: plank"),
    *("in: same", "out: low plank", "in: upward dog", "out: downward dog"),
    *("in: half lift", "out: standing fold", "in: arms overhead", "out: mountain"),
]


@settings(max_examples=60, deadline=None)
@given(st.integers(0, len(ROUND) - 2), st.integers(1, 4))
def test_a_movement_left_out_is_found_at_the_next_line(at: int, rounds: int) -> None:
    steps = [*ROUND[:at], *ROUND[at + 1 :]]
    body = "".join(f"    - {step}\n" for step in steps)
    text = plan_around(f"- come to: mountain\n- rounds: {rounds}\n  steps:\n{body}- stay: 4 s\n")
    first = [
        line for line, one in enumerate(text.splitlines(), 1) if one == f"    {' ' * 6}- {steps[0]}"
    ]
    expected = first[0] + at
    twice = found(text, "breath-twice")
    if at == 0:  # the last exhale of a round, then the exhale that now begins the next one
        assert lines(twice) == ([expected] if rounds > 1 else [])
    else:
        assert lines(twice) == [expected]
        assert twice[0].times == rounds


@settings(max_examples=20, deadline=None)
@given(st.integers(1, 5))
def test_the_round_itself_is_sound(rounds: int) -> None:
    body = "".join(f"    - {step}\n" for step in ROUND)
    text = plan_around(
        f"- come to: mountain\n- rounds: {rounds}\n  steps:\n{body}    - stay: 1 breath\n"
    )
    assert of(text, BREATH) == ()
    assert case_of(text).score.moments
