import pytest

from tests.checks.examples import found, plan_around
from tests.support import rules_of

PARTS = """plan: 1
title: Example
kind: {kind}
breath: 4 s in, 4 s out
parts:
  - part: Arrive
    steps:
      - come to: easy seat
      - stay: {arrive}
  - part: Warm up
    steps:
      - come to: all fours
      - rounds: {warm}
        steps:
          - in: cow
          - out: cat
  - part: Stand
    steps:
      - free: 20 s
        to: mountain
      - rounds: 30
        steps:
          - in: arms overhead
          - out: mountain
      - stay: {stand}
  - part: Rest
    steps:
      - free: 30 s
        to: final rest
      - stay: {rest}
      - bell: 1
"""
SOUND = {"kind": "class", "arrive": "2 min", "warm": "20", "stand": "40 s", "rest": "5 min"}


def proportions(**changed: str) -> list[tuple[int, str]]:
    text = PARTS.format(**{**SOUND, **changed})
    return [(one.span.line, one.words) for one in found(text, "out-of-proportion") if one.span]


def test_a_class_in_proportion_is_left_alone() -> None:
    assert proportions() == []


def test_a_part_called_warm_up_that_is_none_is_found_at_its_first_step() -> None:
    assert proportions(warm="1", stand="2 min") == [(12, "“Warm up” takes 1.9 % of the class")]


def test_a_part_that_takes_nearly_all_is_found_at_the_line_that_takes_it() -> None:
    assert proportions(stand="40 min") == [(25, "“Stand” takes 81 % of the class")]


def test_a_rest_that_takes_half_the_class_is_found_at_its_stay() -> None:
    assert proportions(rest="14 min") == [
        (30, "the final rest takes 14 min 34 s, 59 % of the class")
    ]


def test_pieces_and_short_classes_have_no_proportions() -> None:
    assert proportions(warm="1", kind="piece") == []
    assert proportions(warm="1", arrive="10 s", rest="60 s") == []


def test_three_parts_are_beginning_middle_and_end_whatever_their_shares() -> None:
    text = PARTS.format(**{**SOUND, "stand": "40 min"})
    before, after = text.split("  - part: Warm up\n    steps:\n")
    assert found(before + after, "out-of-proportion") == ()


def test_a_length_that_is_missed_is_said_once_by_the_compiler() -> None:
    steps = "- come to: easy seat\n- stay: 4 min\n"
    text = plan_around(steps, head="length: 10 min\n")
    assert found(text, "nothing-may-stretch") == ()
    assert "length-missed" in rules_of(text)


@pytest.mark.parametrize("way", ["may stretch: yes", "may drop: yes"])
def test_a_plan_with_something_to_give_is_left_alone(way: str) -> None:
    head = "length: 4 min 16 s\n"
    steps = f"- come to: easy seat\n- stay: 4 min\n- stay: 1 breath\n  {way}\n"
    assert found(plan_around(steps, head=head), "nothing-may-stretch") == ()
    stiff = plan_around(steps.replace(f"  {way}\n", ""), head=head)
    assert len(found(stiff, "nothing-may-stretch")) == 1


def test_without_a_length_nothing_need_stretch() -> None:
    assert found(plan_around("- come to: easy seat\n- stay: 4 min"), "nothing-may-stretch") == ()


def test_resting_shapes_before_the_final_rest_are_no_part_of_it() -> None:
    slow = "      - free: 30 s\n        to: supported child's pose\n      - stay: 5 min\n"
    text = PARTS.format(**{**SOUND, "rest": "6 min"}).replace(
        "      - free: 30 s\n", slow + "      - free: 30 s\n"
    )
    assert found(text, "out-of-proportion") == ()


def test_a_class_that_misses_its_length_is_not_called_out_of_proportion_too() -> None:
    text = PARTS.format(**{**SOUND, "rest": "14 min"})
    assert len(found(text, "out-of-proportion")) == 1
    missed = text.replace("kind:", "length: 55 min\nkind:")
    assert found(missed, "out-of-proportion") == ()
