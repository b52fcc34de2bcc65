import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.checks.ways import WAYS
from conductor.findings import Weight
from conductor.shapes.catalogue import load
from tests.checks.examples import case_of, found, lines, marked, of, plan_around

# -- what can be done at once ----------------------------------------------------------------------

CANNOT = [
    ("- come to: three-legged dog\n  side: right\n", "out: low lunge\n  side: left", "side: right"),
    ("- come to: five-pointed star\n", "out: warrior two\n  side: left", "turn: other end"),
    ("- come to: mountain\n", "out: final rest", "lead what lies between: "),
    ("- come to: headstand\n", "in: mountain", "lead what lies between: "),
    ("- come to: boat\n", "out: plank", "through: all fours"),
]


@pytest.mark.parametrize(("before", "move", "hint"), CANNOT)
def test_what_the_hint_says_can_be_typed_and_mends_it(before: str, move: str, hint: str) -> None:
    breath = move.partition(":")[0]
    text = plan_around(f"{before}- {move}\n", kind="piece")
    (one,) = [one for one in of(text, WAYS) if one.weight is not Weight.REMARK]
    assert one.span is not None
    assert text.splitlines()[one.span.line - 1].strip() == f"- {move.splitlines()[0]}"
    assert one.hint.startswith(hint)
    if hint.startswith("lead"):
        steps = one.hint.removeprefix(hint).replace(" - ", "\n- ")
        mended = f"{before}{steps}\n- {move}\n"
    elif hint.startswith("side"):
        mended = f"{before}- {move.splitlines()[0]}\n  {one.hint.partition(' (')[0]}\n"
    else:
        mended = f"{before}- {move}\n  {one.hint}\n"
    left = of(plan_around(mended, kind="piece"), WAYS)
    assert [each for each in left if each.weight is not Weight.REMARK] == [], mended
    assert breath in {"in", "out"}


def test_an_impossible_movement_is_an_error_and_a_full_one_a_warning() -> None:
    never = plan_around("- come to: mountain\n- in: arms overhead\n- out: final rest\n")
    full = plan_around("- come to: mountain\n- in: arms overhead\n- out: plank\n")
    assert [one.weight for one in of(never, WAYS)] == [Weight.ERROR]
    assert [one.weight for one in of(full, WAYS)] == [Weight.WARNING]


@pytest.mark.parametrize(
    "mended",
    [
        "- out: plank\n  through: standing fold\n",
        "- out: plank\n  over: 1 breath\n",
        "- come to: plank\n",
        "- free: 10 s\n  to: plank\n",
    ],
)
def test_time_or_a_shape_on_the_way_makes_it_sound(mended: str) -> None:
    assert of(plan_around(f"- come to: mountain\n- in: arms overhead\n{mended}"), WAYS) == ()


def test_too_many_shapes_on_the_way_are_too_much() -> None:
    text = plan_around(
        "- come to: mountain\n- in: arms overhead\n- out: upward dog  # here\n"
        "  through: [standing fold, plank, low plank]\n"
    )
    assert lines(found(text, "too-much-at-once")) == marked(text)
    more = plan_around(
        "- come to: mountain\n- in: arms overhead\n- out: upward dog\n"
        "  through: [standing fold, plank, low plank]\n",
        head="check: {movements in half a breath: 4}\n",
    )
    assert found(more, "too-much-at-once") == ()


def test_a_fault_of_a_flow_is_found_once_however_often_it_is_led() -> None:
    text = plan_around(
        "- come to: mountain\n- rounds: 4\n  steps:\n    - in: arms overhead\n"
        "    - out: low plank  # here\n    - in: upward dog\n    - out: downward dog\n"
        "    - in: half lift\n    - out: standing fold\n"
    )
    (one,) = found(text, "too-much-at-once")
    assert (one.times, lines((one,))) == (4, marked(text))


def test_a_way_that_has_too_little_time_is_found_and_one_with_time_is_not() -> None:
    steps = (
        "- come to: mountain\n- free: {} s\n  to: final rest\n  say: Lie down, take your time.\n"
    )
    assert len(found(plan_around(steps.format(3)), "too-much-at-once")) == 1
    assert of(plan_around(steps.format(20)), WAYS) == ()


# -- between standing and the floor ----------------------------------------------------------------


def test_a_way_down_from_the_feet_is_said_and_from_the_dog_it_is_custom() -> None:
    stand = plan_around("- come to: mountain\n- come to: easy seat\n")
    dog = plan_around("- come to: downward dog\n- come to: easy seat\n")
    assert [one.weight for one in found(stand, "level-unsaid")] == [Weight.WARNING]
    assert [one.weight for one in found(dog, "level-unsaid")] == [Weight.REMARK]


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("all fours", "child's pose"),
        ("staff", "final rest"),
        ("mountain", "downward dog"),
        ("cobra", "crocodile"),
    ],
)
def test_short_ways_need_no_words(before: str, after: str) -> None:
    assert of(plan_around(f"- come to: {before}\n- come to: {after}\n"), WAYS) == ()


def _up_and_down(times: int) -> str:
    return (
        f"- come to: mountain\n- rounds: {times}\n  steps:\n    - free: 20 s\n      to: staff\n"
        "      say: Come down to sit.\n    - free: 20 s\n      to: mountain\n"
        "      say: Come up to stand.\n"
    )


def test_trips_are_counted_by_the_length_of_the_class() -> None:
    assert found(plan_around(_up_and_down(4)), "floor-trips") == ()
    assert len(found(plan_around(_up_and_down(5)), "floor-trips")) == 1
    hour = plan_around(_up_and_down(7) + "- stay: 60 min\n")
    assert found(hour, "floor-trips") == ()
    assert found(plan_around(_up_and_down(9), kind="piece"), "floor-trips") == ()


PROPS = [
    ("- in: arms overhead\n- out: standing fold\n  with: hands on blocks\n", 1),
    ("- in: arms overhead\n- out: standing fold\n  with: hands to the shins\n", 0),
    ("- stay: 2 breaths\n- in: arms overhead\n  with: a strap between the hands\n", 0),
    ("- in: arms overhead\n  say: Keep a strap near.\n- out: same\n  with: strap\n", 0),
    ("- in: arms overhead\n- out: half moon\n  with: block\n  side: right\n", 1),
]


@pytest.mark.parametrize(("steps", "count"), PROPS)
def test_props_need_time_or_a_word_before(steps: str, count: int) -> None:
    text = plan_around(f"- come to: mountain\n- in: arms overhead\n- out: mountain\n{steps}")
    assert len(found(text, "prop-unfetched")) == count


def test_a_prop_is_fetched_once() -> None:
    text = plan_around(
        "- come to: mountain\n- rounds: 6\n  steps:\n    - in: arms overhead\n"
        "    - out: standing fold\n      with: blocks\n"
    )
    (one,) = found(text, "prop-unfetched")
    assert one.times == 1


# -- against the compiler's own way ----------------------------------------------------------------

SHAPES = st.sampled_from(sorted(shape.name for shape in load().shapes.values()))


@settings(max_examples=120, deadline=None)
@given(SHAPES, SHAPES)
def test_a_movement_is_judged_the_same_on_both_sides(one: str, two: str) -> None:
    steps = (
        "- come to: mountain\n- each side: yes\n  steps:\n"
        f"    - come to: {one}\n      over: 8 breaths\n      say: Take your time.\n"
        f"    - out: {two}\n    - come to: mountain\n      over: 8 breaths\n      say: Back.\n"
    )
    here, there = (
        {(each.rule, each.weight, each.span, each.times) for each in of(text, WAYS)}
        for text in (
            plan_around(steps, kind="piece", head=f"first side: {side}\n")
            for side in ("right", "left")
        )
    )
    assert here == there


@settings(max_examples=80, deadline=None)
@given(SHAPES, SHAPES)
def test_shapes_passed_never_make_a_way_harder_than_its_hardest_step(one: str, two: str) -> None:
    text = plan_around(
        f"- come to: {one}\n- free: 5 min\n  of: [{two}]\n  to: {one}\n  say: To and fro.\n",
        kind="piece",
    )
    case = case_of(text)
    there, *back = case.ways[1] or ((), ())
    assert len(back) <= 1
    assert of(text, WAYS) == () or there
