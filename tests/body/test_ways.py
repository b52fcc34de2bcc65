"""Ways between stances: what a teacher knows can be done in half a breath, and what cannot."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.body.moves import Action, Do, Way
from conductor.body.ways import sides_allowed, turned, way
from conductor.shapes.catalogue import load
from conductor.sides import End, Side
from conductor.stance import Base, Foot, Frame, Hands, Stance, Trunk
from conductor.values import replace

CATALOGUE = load()
RIGHT, LEFT = Side.RIGHT, Side.LEFT


def stance(name: str, heading: End = End.FRONT) -> Stance:
    found = CATALOGUE.find(name)
    assert found is not None, name
    return found.shape.place.at(found.side or RIGHT, heading)


stances = st.builds(
    Stance,
    base=st.sampled_from(Base),
    right=st.sampled_from(Foot),
    left=st.sampled_from(Foot),
    knees=st.sampled_from([(), (RIGHT,), (LEFT,), (LEFT, RIGHT)]),
    hands=st.sampled_from(Hands),
    trunk=st.sampled_from(Trunk),
    heading=st.sampled_from(End),
    frame=st.sampled_from(Frame),
    standing=st.sampled_from([None, RIGHT, LEFT]),
)
shaped = st.builds(
    lambda shape, side, heading: shape.place.at(side, heading),
    st.sampled_from(list(CATALOGUE.shapes.values())),
    st.sampled_from(Side),
    st.sampled_from(End),
)
either = st.one_of(stances, shaped)


def _exchanged(text: str) -> str:
    swap = {"right": "left", "left": "right"}
    return re.sub(r"\b(?:right|left)\b", lambda match: swap[match.group()], text)


def _mirrored(found: Way) -> Way:
    actions = tuple(action.mirrored() for action in found.actions)
    return replace(found, actions=actions, trouble=_exchanged(found.trouble))


@given(either, either)
def test_the_way_of_the_mirror_is_the_mirror_of_the_way(before: Stance, after: Stance) -> None:
    assert way(before.mirrored(), after.mirrored()) == _mirrored(way(before, after))


@given(either)
def test_turning_twice_comes_back(start: Stance) -> None:
    assert turned(turned(start)) == start


@given(either)
def test_turning_and_mirroring_may_change_places(start: Stance) -> None:
    assert turned(start.mirrored()) == turned(start).mirrored()


@given(either)
def test_staying_is_no_effort(start: Stance) -> None:
    assert way(start, start) == Way()


@given(either, either)
def test_trouble_is_told_exactly_when_there_is_some(before: Stance, after: Stance) -> None:
    found = way(before, after)
    assert bool(found.trouble) == (found.effort > 1)
    assert found.possible or found.effort > 1


def test_a_turn_exchanges_the_foot_in_front_only_when_the_feet_are_apart() -> None:
    assert turned(stance("right warrior two")).front is LEFT
    mountain = turned(stance("mountain"))
    assert (mountain.right, mountain.left, mountain.heading) == (Foot.TOP, Foot.TOP, End.BACK)


FLOWS = """
mountain, arms overhead, standing fold, half lift, plank, low plank, upward dog, downward dog,
half lift, standing fold, arms overhead, mountain

chair, standing fold, half lift, low plank, upward dog, downward dog, right warrior one, low
plank, upward dog, downward dog, left warrior one, low plank, upward dog, downward dog, half lift,
standing fold, chair, mountain

downward dog, right three-legged dog, right low lunge, right crescent lunge, right warrior two,
right reverse warrior, right side angle, low plank

right crescent lunge, right warrior three, left standing split, right half moon, right warrior
three, right crescent lunge, plank, right side plank, plank, left side plank, downward dog

all fours, cat, cow, child's pose, downward dog, plank, eight points, cobra, downward dog, child's
pose, all fours, right bird dog, all fours

right three-legged dog, right pigeon, downward dog, dolphin, forearm plank, child's pose

right equestrian, downward dog, eight points, cobra, downward dog, right equestrian, standing
fold, arms overhead

staff, seated fold, staff, boat, staff, constructive rest, bridge, knees to chest, right reclined
twist, final rest, right side-lying rest, easy seat

constructive rest, bridge, wheel, bridge, final rest, shoulderstand, plow, fish, final rest

mountain, right tree, mountain, right eagle, right warrior three, standing fold, crow, low plank

right warrior two, wide-legged fold, goddess, right warrior two, right triangle, right half moon,
right triangle, right revolved triangle, right pyramid, downward dog
""".strip().split("\n\n")


@pytest.mark.parametrize("text", FLOWS)
@pytest.mark.parametrize("mirror", [False, True])
def test_common_flows_move_within_half_a_breath(text: str, mirror: bool) -> None:
    names = [" ".join(name.split()) for name in text.split(",")]
    places = [stance(name) for name in names]
    if mirror:
        places = [place.mirrored() for place in places]
    for first, second, before, after in zip(names, names[1:], places, places[1:], strict=False):
        found = way(before, after)
        assert (found.possible, found.effort <= 1) == (True, True), (first, second, found)


IMPOSSIBLE = [
    ("right warrior two", "boat", "sitting"),
    ("mountain", "final rest", "sitting"),
    ("downward dog", "final rest", "first"),
    ("final rest", "standing fold", "sitting"),
    ("right three-legged dog", "left low lunge", "only the right foot can step"),
    ("left three-legged dog", "right crescent lunge", "only the left foot can step"),
    ("right crescent lunge", "left crescent lunge", "the right foot is in front"),
    ("right warrior two", "left warrior two", "the right foot is in front"),
    ("right low lunge", "left three-legged dog", "only the right leg can lift"),
]


@pytest.mark.parametrize(("first", "second", "says"), IMPOSSIBLE)
def test_what_cannot_be_made_in_one_movement_says_why(first: str, second: str, says: str) -> None:
    found = way(stance(first), stance(second))
    assert not found.possible
    assert says in found.trouble


def test_a_foot_that_carries_cannot_step_while_the_other_leg_is_up() -> None:
    dog = stance("right three-legged dog")
    hop = replace(dog, left=Foot.TOP, base=Base.FOOT, trunk=Trunk.FOLDED)
    found = way(dog, hop)
    assert not found.possible
    assert "the left foot carries the weight while the right leg is up" in found.trouble


HURRIED = [
    ("mountain", "plank"),
    ("arms overhead", "downward dog"),
    ("downward dog", "chair"),
    ("right tree", "left tree"),
    ("right side plank", "left side plank"),
    ("mountain", "staff"),
    ("child's pose", "final rest"),
    ("right three-legged dog", "left three-legged dog"),
    ("final rest", "bridge"),
    ("crocodile", "final rest"),
]


@pytest.mark.parametrize(("first", "second"), HURRIED)
def test_two_changes_of_weight_are_possible_and_hurried(first: str, second: str) -> None:
    found = way(stance(first), stance(second))
    assert (found.possible, found.effort) == (True, 2)


def test_the_feet_are_followed() -> None:
    step = way(stance("right three-legged dog"), stance("right low lunge"))
    assert step.did(Do.STEP_FORWARD) == (RIGHT,)
    assert step.did(Do.KNEE_DOWN) == (LEFT,)
    back = way(stance("right side angle"), stance("low plank"))
    assert back.did(Do.STEP_BACK) == (RIGHT,)
    assert back.did(Do.HANDS_DOWN) == (None,)
    both = way(stance("half lift"), stance("plank"))
    assert both.actions == (Action(Do.STEP_BACK),)
    lifts = way(stance("right crescent lunge"), stance("right warrior three"))
    assert lifts.did(Do.LIFT_LEG) == (LEFT,)


def test_a_raised_knee_may_step_far_forward_or_back() -> None:
    raised = stance("right standing knee lift")
    assert way(raised, stance("right crescent lunge")).did(Do.STEP_FORWARD) == (RIGHT,)
    assert way(raised, stance("left crescent lunge")).did(Do.STEP_BACK) == (RIGHT,)


def test_turning_to_the_other_end_pivots_on_the_feet() -> None:
    pivot = way(stance("right warrior two"), stance("left warrior two", End.BACK))
    assert (pivot.possible, pivot.effort) == (True, 1)
    assert pivot.actions == (Action(Do.TURN_ROUND),)


def test_a_lunge_on_the_hands_can_turn_as_its_feet_are_apart() -> None:
    found = way(stance("right runner's lunge"), stance("left runner's lunge", End.BACK))
    assert (found.possible, found.effort) == (True, 1)


def test_a_squat_is_near_enough_to_the_floor_to_lean_onto_the_hands() -> None:
    assert way(stance("garland"), stance("crow")).effort == 1
    assert way(stance("mountain"), stance("crow")).effort == 2


def test_shapes_the_catalogue_leads_into_each_other_are_within_reach() -> None:
    shapes = CATALOGUE.shapes
    asked = [(shapes[name], shape) for shape in shapes.values() for name in shape.before]
    asked += [(shape, shapes[name]) for shape in shapes.values() for name in shape.after]
    assert len(asked) > 200
    for first, second in asked:
        ways = [
            way(first.place.at(one, End.FRONT), second.place.at(two, End.FRONT))
            for one in Side
            for two in Side
        ]
        assert any(found.possible for found in ways), (first.name, second.name)


def test_nobody_turns_round_on_the_hands() -> None:
    found = way(stance("downward dog"), stance("downward dog", End.BACK))
    assert not found.possible
    assert "turns round" in found.trouble


def _sides(first: str, second: str) -> frozenset[Side]:
    found = CATALOGUE.find(second)
    assert found is not None
    return sides_allowed(stance(first), lambda side: found.shape.place.at(side, End.FRONT))


def test_the_stance_allows_the_leg_that_is_free() -> None:
    assert _sides("right three-legged dog", "low lunge") == {RIGHT}
    assert _sides("left three-legged dog", "pigeon") == {LEFT}
    assert _sides("right crescent lunge", "warrior two") == {RIGHT}
    assert _sides("left warrior two", "side angle") == {LEFT}


def test_from_feet_together_the_stance_allows_both() -> None:
    assert _sides("downward dog", "low lunge") == {RIGHT, LEFT}
    assert _sides("mountain", "tree") == {RIGHT, LEFT}
    assert _sides("plank", "side plank") == {RIGHT, LEFT}


def test_no_side_is_allowed_where_the_shape_is_out_of_reach() -> None:
    assert _sides("final rest", "crescent lunge") == frozenset()


def test_movements_after_each_other_within_one() -> None:
    first = way(stance("half lift"), stance("plank"))
    both = first.then(way(stance("plank"), stance("low plank")))
    assert (both.actions, both.possible, both.effort) == (first.actions, True, 1)
