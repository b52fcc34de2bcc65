import pytest

from tests.support import findings_of, plan_of, score_of

STEPS = {
    "a block": "- may drop: {}\n  steps:\n    - in: arms overhead\n    - out: mountain\n",
    "a flow": "- flow: rise\n  may drop: {}\n",
    "a stay": "- stay: 3 breaths\n  may drop: {}\n",
}
FLOW = "rise:\n  - in: arms overhead\n  - out: mountain\n"


@pytest.mark.parametrize("step", STEPS.values(), ids=list(STEPS))
def test_what_is_left_out_by_hand_is_not_led_and_told(step: str) -> None:
    head = "- come to: mountain\n- stay: 1 breath\n"
    text = plan_of(head + step.format("left out"), flows=FLOW)
    assert score_of(text).length == score_of(plan_of(head)).length
    told = [one for one in findings_of(text) if one.rule == "left-out"]
    assert len(told) == 1
    assert told[0].span
    assert text.splitlines()[told[0].span.line - 1].strip().endswith("may drop: left out")
    assert score_of(plan_of(head + step.format("yes"), flows=FLOW)).length > score_of(text).length


def test_a_flow_or_a_part_may_be_left_out_whole() -> None:
    flows = "rise:\n  may drop: left out\n  steps:\n    - in: arms overhead\n    - out: mountain\n"
    assert score_of(plan_of("- come to: mountain\n- flow: rise", flows=flows)).length == 8000
    text = plan_of("- come to: mountain\n") + "  - part: Two\n    may drop: left out\n"
    text += "    steps:\n      - stay: 5 breaths\n"
    assert [part.name for part in score_of(text).parts] == ["One"]


def test_rounds_that_may_repeat_are_rounds_even_if_there_is_one() -> None:
    text = plan_of(
        "- come to: mountain\n- rounds: 1\n  may repeat: 1 to 3\n  steps:\n    - in: same\n"
        "    - out: same\n      only: last round\n    - out: same\n      only: round 3\n"
    )
    assert [one.rule for one in findings_of(text)] == []
    assert len(score_of(text).moments) == 3
