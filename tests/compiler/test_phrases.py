"""Every action has a phrase, and a phrase for one limb names its side."""

import pytest

from conductor.body.moves import Action, Do, Way
from conductor.compiler.phrases import (
    BOTH,
    BRIEF,
    WHOLE,
    action_of,
    brief,
    clause,
    filled,
    fitting,
    whole,
)
from conductor.sides import Side

UNSAID = {
    Do.TURN_ROUND,
    Do.TURN_LONG,
    Do.TURN_END,
    Do.HAND_UP,
    Do.HANDS_UP,
    Do.HAND_DOWN,
    Do.SWITCH_HANDS,
}


@pytest.mark.parametrize("kind", [kind for kind in Do if kind not in UNSAID])
def test_every_action_can_be_said(kind: Do) -> None:
    assert whole(Action(kind))
    assert brief(Action(kind))


@pytest.mark.parametrize("kind", list(WHOLE))
def test_one_limb_is_named_by_its_side(kind: Do) -> None:
    assert kind in BRIEF
    for phrase in (whole(Action(kind, Side.LEFT)), brief(Action(kind, Side.LEFT))):
        assert " left " in f" {phrase} "
        assert "{" not in phrase


def test_no_phrase_for_both_limbs_names_a_side() -> None:
    assert not [phrase for phrase in BOTH.values() if "left" in phrase or "right" in phrase]


def test_a_phrase_of_the_catalogue_is_filled_with_both_sides() -> None:
    assert filled("<side> sole to the <other> leg", Side.LEFT) == "left sole to the right leg"
    assert filled("fold forward", None) == "fold forward"


def test_the_first_phrase_that_is_short_enough_is_taken_else_the_shortest() -> None:
    phrases = ("step the left foot back, crescent lunge", "left foot back, crescent lunge", "back")
    assert fitting(phrases, 9000) == phrases[0]
    assert fitting(phrases, 3400) == phrases[1]
    assert fitting(phrases, 10) == "back"
    assert fitting((), 3400) == ""


def test_both_sides_are_as_long_as_each_other() -> None:
    for most in range(1000, 4000, 10):
        left = fitting(("lift the left leg, half moon", "left leg", "moon"), most)
        right = fitting(("lift the right leg, half moon", "right leg", "moon"), most)
        assert left == right.replace("right", "left")


def test_the_clause_that_tells_most_has_the_side_in_it() -> None:
    assert clause("hands to heart, turn <side>") == "turn <side>"
    assert clause("lift the hips, chest high") == "lift the hips"
    assert clause("") == ""


def test_actions_are_looked_for_by_kind_in_the_order_asked() -> None:
    down, back = Action(Do.KNEE_DOWN), Action(Do.STEP_BACK, Side.LEFT)
    found = Way((back, down))
    assert action_of(found, (Do.KNEE_DOWN, Do.STEP_BACK)) == down
    assert action_of(found, (Do.RISE,)) is None
