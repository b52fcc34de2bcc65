"""What a body does to get from one stance to another, as values."""

from enum import StrEnum

from conductor.sides import Side
from conductor.values import Struct, replace


class Do(StrEnum):
    """What is done, in the order in which it is done; each value reads as a verb phrase."""

    TURN_ROUND = "turn to the other end"
    TURN_LONG = "turn to the long side"
    TURN_END = "turn to the end of the mat"
    HANDS_DOWN = "hands to the floor"
    HAND_DOWN = "hand to the floor"
    STEP_FORWARD = "step forward"
    STEP_BACK = "step back"
    LOWER_FOOT = "lower the foot"
    LOWER_LEG = "lower the leg"
    LIFT_LEG = "lift the leg"
    KNEE_FORWARD = "bring the knee forward"
    KNEE_BACK = "bring the knee back"
    KNEE_DOWN = "knee down"
    KNEE_UP = "knee up"
    BEND_KNEE = "bend the knee"
    STRETCH_LEG = "stretch the leg"
    OPEN_LEG = "take the leg to the side"
    WEIGHT_TO_HANDS = "weight to the hands"
    WEIGHT_TO_FOREARMS = "weight to the forearms"
    HANDS_KNEES = "come to hands and knees"
    FOREARMS_DOWN = "forearms to the floor"
    KNEEL_UP = "kneel up"
    SIT_BACK = "sit back on the heels"
    SIT_DOWN = "sit down"
    SIT_UP = "come up to sit"
    LIE_ON_BELLY = "come to the belly"
    LIE_BACK = "lie back"
    LIE_ON_SIDE = "roll to the side"
    ROLL_TO_BACK = "roll to the back"
    ROLL_TO_BELLY = "roll to the belly"
    STAND_UP = "stand up"
    RISE = "rise"
    FOLD = "fold"
    LIFT_HIPS = "lift the hips"
    LOWER_HIPS = "lower the hips"
    LOWER_BACK = "lower the back"
    LIFT_LEGS_OVER = "lift the legs over the head"
    PRESS_UP = "press up"
    SWITCH_HANDS = "switch the hands"
    HAND_UP = "hand off the floor"
    HANDS_UP = "hands off the floor"


_ORDER = {do: at for at, do in enumerate(Do)}


class Action(Struct, frozen=True):
    """One thing done; `side` None means both limbs, or no limb in particular."""

    kind: Do
    side: Side | None = None

    def mirrored(self) -> "Action":
        """The same with right and left exchanged."""
        return replace(self, side=self.side.other) if self.side else self


class Way(Struct, frozen=True):
    """How one gets from a stance to the next.

    `effort` counts changes of weight: more than one needs more than half a breath. `possible` is
    False for what cannot be made in one movement; `trouble` says why, in a teacher's words.
    """

    actions: tuple[Action, ...] = ()
    possible: bool = True
    trouble: str = ""
    effort: int = 0

    def did(self, kind: Do) -> tuple[Side | None, ...]:
        """The sides on which that was done; empty when it was not."""
        return tuple(action.side for action in self.actions if action.kind is kind)

    def then(self, later: "Way") -> "Way":
        """Both after each other within one movement, as written by `through`."""
        return Way(
            self.actions + later.actions,
            self.possible and later.possible,
            self.trouble or later.trouble,
            max(self.effort, later.effort),
        )


def ordered(actions: list[Action]) -> tuple[Action, ...]:
    """Join an action of both sides into one, and put all in the order in which they are done."""
    kinds = [action.kind for action in actions]
    joined = {Action(action.kind) if kinds.count(action.kind) > 1 else action for action in actions}
    return tuple(sorted(joined, key=lambda action: _ORDER[action.kind]))
