"""What the feet do between two stances."""

from conductor.body.feet import places, steps
from conductor.body.moves import Action, Do
from conductor.shapes.catalogue import load
from conductor.sides import End, Side
from conductor.stance import Foot, Stance

CATALOGUE = load()


def at(name: str, side: Side = Side.RIGHT) -> Stance:
    return CATALOGUE.shapes[name].place.at(side, End.FRONT)


def test_a_tucked_foot_of_a_kneeling_body_is_one_behind() -> None:
    assert set(places(at("all-fours")).values()) == {Foot.BACK}
    assert steps(at("all-fours"), at("downward-dog")).actions == ()


def test_one_foot_steps() -> None:
    found = steps(at("downward-dog"), at("low-lunge"))
    assert (found.actions, found.effort) == ((Action(Do.STEP_FORWARD, Side.RIGHT),), 1)


def test_both_feet_step_at_once_only_near_the_floor() -> None:
    assert steps(at("half-lift"), at("plank")).effort == 1
    assert steps(at("arms-overhead"), at("plank")).effort == 2


def test_the_knee_comes_forward_into_a_hip_opener() -> None:
    found = steps(at("three-legged-dog", Side.LEFT), at("pigeon", Side.LEFT))
    assert found.actions == (Action(Do.KNEE_FORWARD, Side.LEFT),)


def test_seated_legs_bend_and_stretch_without_weight() -> None:
    assert steps(at("staff"), at("head-to-knee")).actions == (Action(Do.BEND_KNEE, Side.LEFT),)
    over = steps(at("head-to-knee"), at("head-to-knee", Side.LEFT))
    assert (over.possible, over.effort) == (True, 2)


def test_the_wrong_foot_is_named() -> None:
    found = steps(at("three-legged-dog"), at("low-lunge", Side.LEFT))
    assert not found.possible
    assert "only the right foot can step" in found.trouble
