from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.checks.sides import SIDES
from conductor.checks.sides_clauses import legs, shaped
from conductor.findings import Finding, Weight
from conductor.shapes.catalogue import load
from tests.checks.examples import case_of, found, lines, marked, of, plan_around

FLOW = """flows:
  link:
    - in: plank
    - out: low plank
    - in: upward dog
    - out: downward dog
steps:
"""


# -- led on both sides ---------------------------------------------------------------------------


def test_a_passage_led_once_is_one_finding_that_names_its_shapes() -> None:
    text = plan_around(
        FLOW
        + """  - come to: downward dog
  - in: three-legged dog  # here
    side: right
  - out: low lunge
  - in: crescent lunge
  - out: warrior two
  - stay: 3 breaths
  - flow: link
"""
    )
    (one,) = found(text, "one-side-only")
    assert lines((one,)) == marked(text)
    assert one.weight is Weight.WARNING
    assert "three-legged dog, low lunge, crescent lunge and warrior two" in one.words
    assert len(one.also) == 3


def test_a_step_on_the_way_is_remarked_on_and_so_is_a_piece() -> None:
    step = "- come to: downward dog\n- in: low lunge\n  side: right\n- out: downward dog\n"
    assert [one.weight for one in found(plan_around(step), "one-side-only")] == [Weight.REMARK]
    tree = "- come to: mountain\n- in: tree\n  side: left\n- stay: 4 breaths\n- out: mountain\n"
    assert [one.weight for one in found(plan_around(tree), "one-side-only")] == [Weight.WARNING]
    piece = found(plan_around(tree, kind="piece"), "one-side-only")
    assert [one.weight for one in piece] == [Weight.REMARK]


def test_rolling_to_one_side_after_rest_owes_no_other_side() -> None:
    text = plan_around(
        "- come to: final rest\n- stay: 2 min\n- free: 20 s\n  to: side-lying rest\n  side: right\n"
    )
    assert of(text, SIDES) == ()


def test_a_shape_passed_through_on_the_other_side_is_led_there() -> None:
    once = """- come to: mountain
- in: arms overhead
- out: standing fold
- in: crescent lunge
  side: right
- out: plank
- in: downward dog
- out: mountain
"""
    assert len(found(plan_around(once), "one-side-only")) == 1
    again = """- in: arms overhead
- out: standing fold
- in: warrior one
  through: crescent lunge
  side: left
- out: plank
- in: warrior one
  side: right
"""
    assert found(plan_around(once + again), "one-side-only") == ()


def test_sides_are_counted_over_the_class_whichever_leg_steps() -> None:
    text = plan_around(
        """- come to: mountain
- in: warrior two
  side: right
  through: low lunge
- stay: 2 breaths
- out: five-pointed star
- in: warrior two
  side: left
  turn: other end
- stay: 2 breaths
- out: wide-legged fold
"""
    )
    assert found(text, "unequal-sides") == ()
    assert [one for one in found(text, "one-side-only") if "warrior two" in one.words] == []


def _two_trees(right: str, left: str) -> str:
    return f"""- come to: mountain
- in: tree
  side: right
- stay: {right}
- out: mountain
- in: tree
  side: left
- stay: {left}  # here
- out: mountain
"""


@pytest.mark.parametrize(
    ("right", "left", "weight"),
    [
        ("5 breaths", "4 breaths", Weight.WARNING),
        ("4 breaths", "5 breaths", Weight.WARNING),
        ("60 s", "40 s", Weight.WARNING),
        ("12 breaths", "11 breaths", Weight.REMARK),
        ("60 s", "57 s", Weight.REMARK),
    ],
)
def test_sides_of_another_length_are_named_with_both_places(
    right: str, left: str, weight: Weight
) -> None:
    text = plan_around(_two_trees(right, left))
    (one,) = found(text, "unequal-sides")
    assert lines((one,)) == marked(text)
    assert one.weight is weight
    assert one.also[0][0].line == marked(text)[0] - 4
    assert "right side" in one.also[0][1]


def test_equal_sides_are_left_alone() -> None:
    assert of(plan_around(_two_trees("5 breaths", "5 breaths")), SIDES) == ()
    assert of(plan_around(_two_trees("30 s", "30 s")), SIDES) == ()


def test_the_line_that_is_led_on_one_side_alone_is_named() -> None:
    text = plan_around(
        """- come to: mountain
- each side: yes
  steps:
    - in: tree
    - stay: 3 breaths
    - stay: 2 breaths  # here
      only: second side
    - out: mountain
"""
    )
    assert lines(found(text, "unequal-sides")) == marked(text)


def test_an_odd_number_of_rounds_that_alternate_is_uneven() -> None:
    steps = "- come to: mountain\n- rounds: {}\n  alternate: yes\n  steps:\n"
    steps += "    - in: tree\n    - out: mountain\n"
    assert len(found(plan_around(steps.format(3)), "unequal-sides")) == 1
    assert found(plan_around(steps.format(4)), "unequal-sides") == ()


def test_a_threshold_of_the_plan_holds() -> None:
    text = plan_around(_two_trees("12 breaths", "11 breaths"), head="check: {uneven sides: 5}\n")
    assert [one.weight for one in found(text, "unequal-sides")] == [Weight.WARNING]


def test_a_piece_need_not_come_home() -> None:
    bad = next(one.rule.bad for one in SIDES if one.rule.name == "ends-facing-away")
    assert found(plan_around(bad, kind="piece"), "ends-facing-away") == ()


# -- named right -----------------------------------------------------------------------------------


def _said(shape: str, words: str, before: str = "mountain", rest: str = "") -> str:
    return plan_around(
        f"""- come to: {before}
- each side: yes
  steps:
    - out: {shape}  # here
{rest}      say: {words}
    - out: {before}
"""
    )


WRONG = [
    ("mountain", "tree", "Lift your left foot to the inner thigh."),
    ("mountain", "tree", "Stand on the right foot."),
    ("mountain", "warrior three", "Balance on your left leg."),
    ("mountain", "warrior three", "Lift the right leg behind you."),
    ("downward dog", "low lunge", "Step your left foot between your hands."),
    ("downward dog", "low lunge", "Swing the left leg through, chest up."),
    ("downward dog", "warrior two", "Open to the long side, your left knee bends."),
    ("downward dog", "warrior one", "Bend into your left knee, arms up."),
    ("easy seat", "seated side bend", "Lean over to the left, arm long."),
    ("easy seat", "seated twist", "Turn to the left."),
    ("constructive rest", "reclined twist", "Let the knees fall to the right."),
    ("constructive rest", "reclined twist", "Drop your knees over to the right."),
    ("constructive rest", "side-lying rest", "Roll onto your left side."),
    ("plank", "side plank", "Press into the left hand, stack the hips."),
]

FINE = [
    ("easy seat", "seated side bend", "Lean to the right, left arm over the ear."),
    ("easy seat", "seated side bend", "Left arm up and over."),
    ("easy seat", "seated twist", "Turn to the right, look over the left shoulder."),
    ("easy seat", "seated twist", "Right hand behind you, left hand to the right knee."),
    ("easy seat", "seated twist", "Right now there is nowhere to be."),
    ("mountain", "tree", "Shift onto your left foot, lift the right foot."),
    ("mountain", "tree", "Press the left foot down, right sole to the left thigh."),
    ("mountain", "warrior three", "Step onto the right foot and lift the left leg."),
    ("mountain", "warrior three", "Tip forward, your right leg stays, the left leg flies."),
    ("downward dog", "low lunge", "Step your right foot up, left knee down."),
    ("downward dog", "low lunge", "Lower the left knee as the right foot lands."),
    ("downward dog", "low lunge", "Lift the left heel, step the right foot forward."),
    ("downward dog", "warrior two", "Bend the right knee, look over the right hand."),
    ("downward dog", "warrior two", "Right foot forward, left heel down, arms wide."),
    ("downward dog", "crescent lunge", "Straighten the left leg, rise."),
    ("constructive rest", "reclined twist", "Knees fall to the left, look to the right."),
    ("constructive rest", "side-lying rest", "Roll to your right side."),
    ("plank", "side plank", "Weight into the right hand, left arm to the sky."),
]


@pytest.mark.parametrize(("before", "shape", "words"), WRONG)
def test_words_that_name_the_other_side_are_found_once(before: str, shape: str, words: str) -> None:
    text = _said(shape, words, before)
    (one,) = found(text, "wrong-side-said")
    assert lines((one,)) == marked(text)
    assert one.times == 2  # the passage is led on both sides
    assert "<" in one.hint


@pytest.mark.parametrize(("before", "shape", "words"), FINE)
def test_words_that_name_other_limbs_and_sides_rightly_are_left_alone(
    before: str, shape: str, words: str
) -> None:
    text = _said(shape, words, before)
    assert [one for one in of(text, SIDES) if one.rule.startswith("wrong")] == []


def test_between_two_sides_the_second_is_announced() -> None:
    steps = """- come to: mountain
- each side: yes
  steps:
    - in: tree
    - out: mountain
  between:
    - in: same  # here
      say: Now the {} side.
    - out: same
"""
    text = plan_around(steps.format("left"))  # exchanged, it would be led as the right
    assert lines(found(text, "wrong-side-said")) == marked(text)
    assert found(plan_around(steps.format("right")), "wrong-side-said") == ()
    assert found(plan_around(steps.format("<side>")), "wrong-side-said") == ()


GENERATED = ("mountain", "downward dog", "warrior two", "easy seat", "constructive rest", "plank")


def test_generated_words_are_never_taken_for_wrong() -> None:
    sided = [shape for shape in load().shapes.values() if shape.sided]
    steps = "".join(
        f"- come to: {before}\n  over: 4 breaths\n"
        f"- come to: {shape.name}\n  over: 4 breaths\n  side: {side}\n"
        for before, shape, side in product(GENERATED, sided, ("right", "left"))
        if before != shape.name
    )
    case = case_of(plan_around(steps, kind="piece"))
    judged = 0
    for index, moment in enumerate(case.score.moments):
        shape, texts = case.shape(moment), (moment.words.full, moment.words.short)
        if moment.side:
            judged += 1
            assert legs(case.ways[index], texts, shape, moment.side) is None, texts
            assert shaped(shape, moment, texts) is None, texts
    assert judged > 500


HANDS = [
    ("Turn, left elbow outside the right knee.", True),
    ("Hug the right knee with your left arm.", True),
    ("Opposite elbow over the knee.", True),
    ("Right hand behind you, left hand to the right thigh.", True),
    ("Turn and look over the right shoulder.", True),
    ("Right elbow outside the right knee.", False),
    ("Hug the right knee with your right arm.", False),
    ("Same hand to the knee.", False),
    ("Left hand behind you, right hand to the right thigh.", False),
]


@pytest.mark.parametrize(("words", "sound"), HANDS)
def test_the_hand_that_meets_the_knee(words: str, sound: bool) -> None:
    text = _said("marichi's twist", words, "staff")
    assert lines(found(text, "wrong-hand-said")) == ([] if sound else marked(text))


ENDS = [
    ("Turn to the front of the mat.", False),
    ("Turn around to face the front wall.", False),
    ("Face the front.", False),
    ("Turn to the back of the mat.", True),
    ("Turn around to the <end> of the room.", True),
    ("Turn the toes, front knee soft.", True),
    ("Look to the front of the room and breathe.", False),
    ("Step the back foot in and turn.", True),
]


@pytest.mark.parametrize(("words", "sound"), ENDS)
def test_the_end_of_the_mat_that_is_named(words: str, sound: bool) -> None:
    text = plan_around(
        f"""- come to: mountain
- in: arms overhead  # here
  turn: other end
  say: {words}
- out: mountain
- in: arms overhead
  turn: other end
- out: mountain
"""
    )
    assert lines(found(text, "wrong-end-said")) == ([] if sound else marked(text))


def test_a_change_of_side_is_announced_in_the_cue_or_just_before() -> None:
    steps = """- come to: mountain
- each side: yes
  steps:
    - in: tree
      say: Press the foot into the leg.
    - out: mountain
  between:
    - in: same
      say: And the other side.
    - out: same
"""
    (one,) = found(plan_around(steps), "side-unsaid")  # the first side is still to be said
    assert one.weight is Weight.REMARK
    assert one.times == 1
    said = steps.replace("Press the foot", "Press the right foot")
    assert found(plan_around(said), "side-unsaid") == ()


def test_a_matter_of_taste_is_one_remark_for_the_plan() -> None:
    side = (
        "- each side: yes\n  steps:\n    - in: {}\n      say: Up and steady.\n    - out: mountain\n"
    )
    text = plan_around("- come to: mountain\n" + side.format("tree") + side.format("eagle"))
    (one,) = found(text, "side-unsaid")
    assert one.times == 4
    assert len(one.also) == 1


# -- mirrored --------------------------------------------------------------------------------------

STEPS = st.lists(
    st.sampled_from(
        [
            "in: tree",
            "out: mountain",
            "in: warrior one",
            "out: warrior two",
            "in: arms overhead",
            "out: standing fold",
            "out: half moon",
            "in: eagle\n      say: Wrap the left leg over the right.",
            "in: tree\n      say: Lift your left foot.",
            "stay: 2 breaths",
            "stay: 3 breaths\n      only: first side",
            "out: chair twist\n      say: Right elbow to the right knee.",
        ]
    ),
    min_size=2,
    max_size=8,
)


def _facts(findings: tuple[Finding, ...]) -> set[tuple[str, Weight, int, int]]:
    return {(one.rule, one.weight, one.span.line, one.times) for one in findings if one.span}


@settings(max_examples=40, deadline=None)
@given(STEPS)
def test_leading_the_left_side_first_finds_the_same(steps: list[str]) -> None:
    body = "".join(f"    - {step}\n" for step in steps)
    example = f"- come to: mountain\n- each side: yes\n  steps:\n{body}    - out: mountain\n"
    right = of(plan_around(example, head="first side: right\n"), SIDES)
    left = of(plan_around(example, head="first side: left\n"), SIDES)
    assert _facts(right) == _facts(left)
