import pytest

from conductor.checks.case import Case
from conductor.checks.examples import ARRIVE, WORK
from conductor.checks.words import WORDS
from conductor.findings import Weight
from conductor.settings import Settings
from conductor.timing.cues import cues
from tests.checks.examples import case_of, found, lines, marked, of, plan_around


def _at(text: str, rule: str) -> list[tuple[int, Weight]]:
    return [(one.span.line, one.weight) for one in found(text, rule) if one.span]


LONG = "Reach both arms up to the ceiling, long through every finger, and lift the breastbone."
DOWN = ARRIVE + WORK + "- free: 20 s\n  to: final rest\n"


def test_a_long_line_in_a_flow_is_one_fault_however_often_the_flow_is_led() -> None:
    flow = (
        f"flows:\n  up:\n    - in: arms overhead  # here\n      say: {LONG}\n    - out: mountain\n"
    )
    steps = "- come to: mountain\n- rounds: 5\n  speak: full\n  steps:\n    - flow: up"
    text = plan_around(steps, head=flow)
    (one,) = found(text, "cue-too-long")
    assert (lines((one,)), one.times) == (marked(text), 5)


def test_generated_words_are_never_too_long_since_they_grow_shorter() -> None:
    steps = (
        "- come to: mountain\n- rounds: 3\n  speak: full\n  steps:\n    - in: arms overhead\n"
        "    - out: standing fold\n    - in: half lift\n    - out: low plank\n"
        "      through: plank\n    - in: upward dog\n    - out: downward dog\n    - in: half lift\n"
        "    - out: standing fold"
    )
    text = plan_around(steps, head="breath: 2 s in, 2 s out\n")
    assert found(text, "cue-too-long") == ()


def test_a_written_short_form_is_taken_where_the_full_one_has_no_room() -> None:
    steps = f"- come to: mountain\n- in: arms overhead\n  say: {LONG}\n  short: Reach up.\n"
    assert found(plan_around(steps + "- out: mountain"), "cue-too-long") == ()


def test_measured_speech_decides_over_the_estimate() -> None:
    steps = "- come to: mountain\n- in: arms overhead\n  say: Reach both arms up.\n- out: mountain"
    case = case_of(plan_around(steps))
    slow = {cue.saying: 9000 for cue in case.cues}
    said, _ = cues(case.score, slow, Settings())
    slower = Case(case.score, said, case.shapes, case.limits)
    words = [one.words for check in WORDS for one in check(slower) if one.rule == "cue-too-long"]
    assert any("takes 9.0 s" in one for one in words)


def test_lines_of_a_stay_that_run_into_each_other_are_found() -> None:
    long = "Let the whole weight of the body sink into the floor, bone by bone, and stay with that."
    steps = (
        f"- come to: child's pose\n- stay: 2 breaths\n  say:\n    - {long}\n    - {long} {long}\n"
    )
    text = plan_around(steps + "- in: all fours\n- out: same")
    assert _at(text, "cue-too-long") == [(9, Weight.WARNING)]


def test_a_breath_word_for_the_next_half_is_not_a_late_one() -> None:
    steps = (
        "- come to: mountain\n- in: arms overhead\n  say: Reach up, to fold as you exhale.\n"
        "- out: standing fold\n- stay: 2 breaths"
    )
    assert found(plan_around(steps), "late-breath-word") == ()


def test_two_seconds_are_late_in_a_slow_breath_too() -> None:
    steps = (
        "- come to: mountain\n- in: arms overhead\n  say: Reach both of your long arms up to the "
        "sky as you inhale.\n- stay: 2 breaths"
    )
    slow = plan_around(steps, head="breath: 7 s in, 7 s out\n")
    assert _at(slow, "late-breath-word") == [(9, Weight.WARNING)]


SIDE = (
    "- come to: downward dog\n- in: three-legged dog\n  side: right\n- out: {shape}\n  say: {say}\n"
)


def test_where_the_feet_leave_no_choice_a_late_side_is_a_remark() -> None:
    steps = SIDE.format(shape="low lunge", say="Now step all the way through, with the right one.")
    assert _at(plan_around(steps), "late-side-word") == [(11, Weight.REMARK)]


@pytest.mark.parametrize(
    "say",
    [
        "Right foot through, and look at what is on the left.",
        "Step it all the way through between both hands, right now.",
        "Step it all the way through, and that is all right.",
    ],
)
def test_the_first_side_counts_and_idioms_do_not(say: str) -> None:
    assert found(plan_around(SIDE.format(shape="low lunge", say=say)), "late-side-word") == ()


def test_a_detail_after_the_movement_may_name_a_side_late() -> None:
    steps = SIDE.format(shape="low lunge", say="Right foot through.")
    steps += (
        "- in: crescent lunge\n- out: warrior two\n  say: Open to the long side, your right knee "
    )
    assert found(plan_around(steps + "bends.\n- stay: 1 breath"), "late-side-word") == ()


def test_a_side_said_ahead_of_the_breath_is_in_time() -> None:
    steps = (
        "- come to: mountain\n- stay: 2 breaths\n- in: tree\n  side: left\n"
        "  say: Stand tall, find one still point, left foot up.\n- stay: 2 breaths"
    )
    assert found(plan_around(steps), "late-side-word") == ()


def test_a_short_plan_led_in_full_words_is_not_called_talkative() -> None:
    steps = "- come to: mountain\n- rounds: 6\n  speak: full\n  steps:\n    - in: arms overhead\n"
    text = plan_around(steps + "    - out: mountain", head="breath: 3 s in, 3 s out\n")
    assert {one.rule for one in of(text, WORDS)} == set()


@pytest.mark.parametrize(
    "end",
    [
        "- stay: 5 min\n  speak: nothing\n- bell: 1\n",
        "- stay: 5 min\n  say:\n    - last: Slowly come back.\n",
        "- stay: 5 min\n  speak: nothing\n- stay: 20 s\n  say: Wake up fingers and toes.\n",
        "- stay: 5 min\n  speak: nothing\n- free: 30 s\n  to: supine stretch\n  say: Stretch.\n",
        "- stay: 5 min\n  speak: nothing\n- free: 30 s\n  to: easy seat\n  say: Come to sit.\n",
    ],
)
def test_a_bell_a_word_or_time_to_come_up_ends_the_rest(end: str) -> None:
    assert found(plan_around(DOWN + end), "abrupt-rest-end") == ()


@pytest.mark.parametrize(
    "end",
    [
        "- stay: 5 min\n  say:\n    - first: Let go.\n",
        "- stay: 5 min\n  speak: nothing\n- free: 4 s\n  to: easy seat\n",
    ],
)
def test_words_at_its_beginning_do_not_end_a_rest(end: str) -> None:
    assert len(found(plan_around(DOWN + end), "abrupt-rest-end")) == 1


def test_a_few_words_in_the_rest_leave_it_silent() -> None:
    end = (
        "- stay: 5 min\n  say:\n    - first: Let go.\n    - And breathe.\n    - last: Come back.\n"
    )
    assert found(plan_around(DOWN + end), "talk-in-rest") == ()


def test_generated_words_never_wear_out() -> None:
    steps = "- come to: mountain\n- rounds: 20\n  speak: full\n  steps:\n    - in: arms overhead\n"
    assert found(plan_around(steps + "    - out: mountain"), "repeated-cue") == ()


def test_all_worn_words_are_one_remark() -> None:
    steps = (
        "- come to: mountain\n- rounds: 20\n  speak: full\n  steps:\n    - in: arms overhead\n"
        "      say: Grow tall.\n    - out: mountain\n      say: And stand."
    )
    (one,) = found(plan_around(steps), "repeated-cue")
    assert one.words.startswith("“Inhale, grow tall.” is said 20 times, and 1 more")


def test_late_sides_that_leave_no_choice_are_one_remark() -> None:
    steps = SIDE.format(shape="low lunge", say="Now step all the way through, with the right one.")
    steps += "- in: plank\n- out: downward dog\n"
    (one,) = found(plan_around(steps + steps.replace("- come to", "- out")), "late-side-word")
    assert "(2 such cues)" in one.words
    assert len(one.also) == 1
