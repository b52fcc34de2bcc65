"""Where the body is: what carries it, where the feet and hands are, which way it faces.

A value only. How one gets from one stance to another is `conductor.body`.
"""

from enum import StrEnum

from conductor.sides import End, Side
from conductor.values import Struct, replace


class Base(StrEnum):
    """What carries the weight."""

    FEET = "feet"
    FOOT = "one foot"
    FOOT_HAND = "one foot and hand"  # half moon, standing split
    FOOT_KNEE = "foot and knee"  # low lunge, gate
    HANDS_FOOT_KNEE = "hands, foot and knee"  # equestrian, lizard
    HANDS_FEET = "hands and feet"  # plank, downward dog
    HANDS_FOOT = "hands and foot"  # three-legged dog
    HAND_FEET = "hand and feet"  # side plank, wild thing
    FOREARMS_FEET = "forearms and feet"
    HANDS = "hands"
    FOREARMS = "forearms"
    HEAD = "head and forearms"
    HANDS_KNEES = "hands and knees"
    HANDS_KNEE = "hands and knee"  # bird dog
    KNEES = "knees"  # kneeling upright
    SHINS = "shins"  # sitting on the heels, child's pose
    SEAT = "seat"
    HIP = "hip"  # pigeon, full split
    BELLY = "belly"
    BACK = "back"
    BACK_FEET = "back and feet"  # bridge
    HANDS_FEET_UP = "hands and feet, chest up"  # wheel, upward plank
    SHOULDERS = "shoulders"
    LYING_SIDE = "side"


class Foot(StrEnum):
    """Where a foot is, seen along the mat in the direction the body heads."""

    TOP = "top"  # at the head of the mat: under the body standing, between the hands in a lunge
    BACK = "back"  # stepped behind
    LIFTED = "lifted"
    TUCKED = "tucked"  # folded under or in: kneeling, cross-legged, sole to the floor when supine
    AHEAD = "ahead"  # stretched away in front: staff, corpse


class Hands(StrEnum):
    """Where the hands are, as far as the wording of a movement needs it."""

    SIDES = "sides"
    UP = "up"
    FLOOR = "floor"
    HEART = "heart"
    WIDE = "wide"
    FRONT = "front"
    BOUND = "bound"
    FREE = "free"


class Trunk(StrEnum):
    """What the spine does; it decides the verb ("fold", "rise", "turn")."""

    UPRIGHT = "upright"
    FOLDED = "folded"
    FLAT = "flat"  # long and level: half lift, plank
    ARCHED = "arched"
    LATERAL = "lateral"
    TURNED = "turned"
    RESTING = "resting"  # lying or folded over the shins, doing nothing
    INVERTED = "inverted"


class Frame(StrEnum):
    """Whether the front of the body faces an end of the mat or a long side."""

    END = "end"
    LONG = "long side"


class Stance(Struct, frozen=True):
    """One stance, fully resolved: every side is a side of the body of whoever moves.

    `wall` is set only while `frame` is LONG: the long side faced, named as seen by somebody who
    faces the front of the room, so it stays the same wall when the class turns round.
    """

    base: Base
    right: Foot
    left: Foot
    knees: tuple[Side, ...] = ()  # knees that bear on the floor
    hands: Hands = Hands.FREE
    trunk: Trunk = Trunk.UPRIGHT
    heading: End = End.FRONT
    frame: Frame = Frame.END
    wall: Side | None = None
    standing: Side | None = None  # the supporting hand or foot, when one of the two bears

    def foot(self, side: Side) -> Foot:
        """Where the foot of that side is."""
        return self.right if side is Side.RIGHT else self.left

    @property
    def front(self) -> Side | None:
        """The foot in front when one is at the top of the mat and the other is not."""
        if (self.right is Foot.TOP) == (self.left is Foot.TOP):
            return None
        return Side.RIGHT if self.right is Foot.TOP else Side.LEFT

    def mirrored(self) -> "Stance":
        """The same stance with right and left exchanged; the ends of the mat stay."""
        return replace(
            self,
            right=self.left,
            left=self.right,
            knees=tuple(sorted(side.other for side in self.knees)),
            wall=self.wall.other if self.wall else None,
            standing=self.standing.other if self.standing else None,
        )
