"""Actions as values."""

from conductor.body.moves import Action, Do, Way, ordered
from conductor.sides import Side


def test_the_same_on_both_sides_is_one_action() -> None:
    both = ordered([Action(Do.STEP_BACK, Side.LEFT), Action(Do.STEP_BACK, Side.RIGHT)])
    assert both == (Action(Do.STEP_BACK),)


def test_actions_stand_in_the_order_in_which_they_are_done() -> None:
    found = ordered([Action(Do.RISE), Action(Do.STEP_BACK, Side.LEFT), Action(Do.TURN_ROUND)])
    assert [action.kind for action in found] == [Do.TURN_ROUND, Do.STEP_BACK, Do.RISE]


def test_mirroring_an_action_exchanges_its_side_only() -> None:
    assert Action(Do.LIFT_LEG, Side.LEFT).mirrored() == Action(Do.LIFT_LEG, Side.RIGHT)
    assert Action(Do.RISE).mirrored() == Action(Do.RISE)


def test_one_impossible_movement_makes_the_whole_impossible() -> None:
    no = Way(possible=False, trouble="no", effort=3)
    assert Way().then(no) == no
    assert no.then(Way(effort=1)) == no
