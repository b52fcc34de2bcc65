"""Every action has a phrase, and a phrase for one limb names its side."""

import pytest

from conductor.body.moves import Action, Do
from conductor.compiler.phrases import BOTH, BRIEF, WHOLE, brief, filled, whole
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
