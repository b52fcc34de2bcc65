from pathlib import Path

import pytest

from conductor.checks import load
from conductor.checks.examples import ARRIVE, REST, WORK
from conductor.checks.limits.whole import WHOLE
from conductor.checks.load import LOAD
from conductor.findings import Weight
from tests.checks.examples import found, of, plan_around

CHECKS = Path(load.__file__).parent


def _of(text: str, rule: str) -> list[tuple[int, Weight]]:
    return [(one.span.line, one.weight) for one in found(text, rule) if one.span]


def _line(text: str, part: str) -> int:
    return next(at for at, line in enumerate(text.splitlines(), 1) if part in line)


LEAD_IN = "- come to: downward dog\n- in: plank\n- out: garland\n- in: same\n"
CAMEL = (
    "- come to: high kneel\n- in: half camel\n- out: high kneel\n- in: camel\n- stay: 3 breaths\n"
)
WHEEL = "- come to: constructive rest\n- in: bridge\n- out: constructive rest\n- in: wheel\n"
BREATH = "- in: same\n- out: same\n"


def test_a_strong_shape_in_a_piece_is_one_remark_since_the_class_around_it_may_prepare_it() -> None:
    steps = "- come to: thunderbolt\n- in: camel\n- out: thunderbolt\n- free: 20 s\n  to: wheel"
    text = plan_around(steps, kind="piece")
    assert _of(text, "cold-shape") == [(_line(text, "camel"), Weight.REMARK)]


def test_middling_shapes_are_one_remark_and_anything_easy_prepares_them() -> None:
    twist = "- come to: staff\n- in: same\n- out: marichi's twist\n  side: right\n- in: staff\n"
    text = plan_around(twist + "- free: 20 s\n  to: wide-angle seated fold\n")
    assert _of(text, "cold-shape") == [(_line(text, "marichi"), Weight.REMARK)]
    before = "- come to: easy seat\n- in: same\n- out: seated twist\n  side: right\n- free: 9 s\n"
    assert _of(plan_around(before + "  to: staff\n" + twist.split("\n", 1)[1]), "cold-shape") == []


def test_shapes_passed_on_the_way_prepare_too() -> None:
    steps = "- come to: downward dog\n- out: garland\n  through: plank\n- in: crow"
    assert _of(plan_around(steps), "cold-shape") == []


def test_an_early_inversion_is_not_told_twice() -> None:
    text = plan_around(
        "- come to: easy seat\n- stay: 2 breaths\n- free: 20 s\n  to: headstand\n" + REST
    )
    assert [one.rule for one in of(text, LOAD) if one.weight is Weight.WARNING] == [
        "early-inversion"
    ]


@pytest.mark.parametrize("shape", ["legs up the wall", "downward dog", "dolphin"])
def test_what_is_no_inversion_of_the_whole_body_may_come_first(shape: str) -> None:
    text = plan_around(f"- come to: {shape}\n- stay: 5 breaths\n" + WORK + REST)
    assert found(text, "early-inversion") == ()


def test_an_inversion_later_still_wants_a_fold_or_a_dog_before_it() -> None:
    way = "- free: 20 s\n  to: constructive rest\n- in: bridge\n- out: constructive rest\n"
    text = plan_around(ARRIVE + WORK * 3 + way + "- in: shoulderstand\n- stay: 5 breaths\n" + REST)
    assert [one.words for one in found(text, "early-inversion")] == [
        "shoulderstand comes before any fold or downward dog"
    ]


@pytest.mark.parametrize(
    "after",
    [
        "- out: child's pose\n",
        "- out: high kneel\n- in: same\n- out: child's pose\n",
        "- free: 10 s\n  to: easy seat\n- in: same\n- out: seated twist\n  side: right\n",
        "- out: high kneel\n- free: 10 s\n  to: final rest\n",
    ],
)
def test_rest_or_small_rounding_or_turning_undoes_a_backbend(after: str) -> None:
    assert found(plan_around(CAMEL + after + BREATH * 5), "backbend-not-undone") == ()


def test_backbends_in_a_row_are_undone_after_the_last() -> None:
    again = "- out: supine stretch\n- in: wheel\n- stay: 2 breaths\n"
    sound = WHEEL + again * 2 + "- out: constructive rest\n- in: same\n- out: knees to chest\n"
    assert found(plan_around(sound), "backbend-not-undone") == ()
    bad = plan_around(WHEEL + again * 2 + "- out: supine stretch\n" + BREATH * 4)
    assert [one.times for one in found(bad, "backbend-not-undone")] == [1]


def test_a_class_must_not_end_on_a_backbend_but_a_piece_may_be_cut_off_there() -> None:
    assert _of(plan_around(WHEEL), "backbend-not-undone") == [
        (_line(plan_around(WHEEL), "wheel"), Weight.WARNING)
    ]
    assert found(plan_around(WHEEL, kind="piece"), "backbend-not-undone") == ()


def test_in_a_flow_the_dog_undoes_wild_thing() -> None:
    steps = (
        "- come to: downward dog\n- in: plank\n- out: side plank\n  side: right\n- in: wild thing\n"
        "- out: downward dog\n" + BREATH * 4
    )
    assert found(plan_around(steps), "backbend-not-undone") == ()


def test_a_breath_of_neutral_is_enough_before_a_fold() -> None:
    fold = "- free: 4 s\n  to: seated fold\n"
    between = "- out: constructive rest\n- stay: 1 breath\n"
    assert found(plan_around(WHEEL + between + fold), "fold-after-backbend") == ()
    near = found(plan_around(WHEEL + "- out: constructive rest\n" + fold), "fold-after-backbend")
    assert [place.line for one in near for place, _ in one.also] == [
        _line(plan_around(WHEEL), "wheel")
    ]


def test_strong_shapes_just_before_the_end_are_remarked_but_not_a_shoulderstand() -> None:
    crow = LEAD_IN + "- out: crow\n- free: 20 s\n  to: final rest\n- stay: 90 s\n- bell: 1\n"
    late = plan_around(ARRIVE + WORK * 4 + crow)
    assert _of(late, "peak-place") == [(_line(late, "crow"), Weight.REMARK)]
    stand = "- free: 20 s\n  to: shoulderstand\n- free: 20 s\n  to: final rest\n- stay: 90 s\n"
    assert found(plan_around(ARRIVE + WORK * 4 + stand), "peak-place") == ()


def test_a_whole_breath_off_the_hands_begins_the_count_anew_and_half_a_breath_does_not() -> None:
    plank = "- in: plank\n- stay: 9 breaths\n"
    rest = "- come to: all fours\n" + plank + "- out: child's pose\n- stay: 1 breath\n" + plank
    assert found(plan_around(rest), "wrists-unbroken") == ()
    half = rest.replace("- stay: 1 breath\n", "")
    assert len(found(plan_around(half), "wrists-unbroken")) == 1


def test_low_planks_passed_through_count_and_long_classes_may_have_more() -> None:
    link = (
        "- come to: downward dog\n- rounds: 24\n  steps:\n    - in: half lift\n"
        "    - out: downward dog\n      through: [plank, low plank]\n"
    )
    text = plan_around(link)
    assert [one.words for one in found(text, "low-planks")] == [
        "low plank comes 24 times in 3 min 20 s"
    ]
    longer = link.replace("- rounds", "- stay: 40 min\n- rounds")
    assert found(plan_around(longer), "low-planks") == ()


def test_a_foot_that_touches_down_ends_the_time_on_one_leg() -> None:
    tree = "- in: tree\n  side: right\n- stay: 6 breaths\n- out: mountain\n"
    assert found(plan_around("- come to: mountain\n" + tree * 3), "long-on-one-leg") == ()
    chain = "- come to: mountain\n" + tree.replace("- out: mountain\n", "")
    chain += "- in: eagle\n  side: left\n- stay: 6 breaths\n"
    words = [one.words for one in found(plan_around(chain), "long-on-one-leg")]
    assert words == ["1 min 44 s on the left leg without touching down (tree and eagle)"]


def test_a_hold_three_times_too_long_is_a_warning_and_others_are_one_remark() -> None:
    boat = "- come to: staff\n- in: boat\n- stay: {boat} s\n- out: staff\n- in: same\n"
    fold = "- out: seated fold\n- stay: 5 min\n"
    text = plan_around(boat.format(boat=80) + fold)
    assert _of(text, "unusual-hold") == [(_line(text, "boat"), Weight.REMARK)]
    assert "2 such stays" in found(text, "unusual-hold")[0].words
    text = plan_around(boat.format(boat=190))
    assert _of(text, "unusual-hold") == [(_line(text, "boat"), Weight.WARNING)]


@pytest.mark.parametrize(
    "steps",
    [
        "- come to: mountain\n- stay: 4 min",
        "- come to: child's pose\n- stay: 9 min",
        "- come to: all fours\n- free: 3 min\n  of: [cow, cat]",
        "- come to: final rest\n- stay: 20 min",
    ],
)
def test_what_one_may_wait_or_move_in_has_no_usual_hold(steps: str) -> None:
    assert found(plan_around(steps), "unusual-hold") == ()


def test_a_piece_needs_no_arrival_and_no_rest_and_neither_do_a_few_minutes() -> None:
    frame = {"no-arrival", "no-final-rest", "short-final-rest"}
    piece = of(plan_around(WORK * 3, kind="piece"), LOAD)
    short = of(plan_around(WORK.replace("30", "20")), LOAD)
    assert not frame & {one.rule for one in (*piece, *short)}
    assert frame & {one.rule for one in of(plan_around(WORK * 3), LOAD)}


def test_sitting_still_for_minutes_ends_a_class_as_well_as_lying_down() -> None:
    sitting = "- free: 30 s\n  to: easy seat\n- stay: {minutes} min\n"
    text = plan_around(ARRIVE + WORK * 2 + sitting.format(minutes=5))
    assert found(text, "no-final-rest") == ()
    text = plan_around(ARRIVE + WORK * 2 + sitting.format(minutes=1))
    assert len(found(text, "no-final-rest")) == 1


def test_the_range_of_the_sources_is_shown_for_the_length_at_hand() -> None:
    hour = "- come to: mountain\n- stay: 51 min\n- free: 60 s\n  to: final rest\n- stay: 3 min\n"
    (one,) = found(plan_around(ARRIVE + hour), "short-final-rest")
    assert one.words == "the final rest is 4 min, 7 % of the class"
    assert one.hint == (
        "rest for 5 min or longer; published for this length: 4 min 40 s (5 min an hour), "
        "5 min 36 s (1 min in 10), 9 min 19 s (5 min in 30), 10 to 15 min (Light on Yoga)"
    )


def test_a_plan_may_set_the_threshold_itself() -> None:
    text = plan_around(ARRIVE + WORK * 6 + REST.replace("5 min", "3 min"))
    assert len(found(text, "short-final-rest")) == 1
    own = "check: {rest seconds: 180, rest share: 5}\n"
    text = plan_around(ARRIVE + WORK * 6 + REST.replace("5 min", "3 min"), head=own)
    assert found(text, "short-final-rest") == ()


def test_every_threshold_is_looked_at_by_some_rule() -> None:
    source = "".join(path.read_text("utf-8") for path in CHECKS.glob("*.py"))
    for limit in WHOLE:
        assert limit.source
        assert f'"{limit.name}"' in source or f'"{limit.name.partition(" by ")[0]}"' in source
