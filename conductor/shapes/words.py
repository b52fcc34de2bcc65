"""The plain words a teacher may use for a stance, and what they stand for."""

from conductor.stance import Base, Foot, Frame, Hands, Trunk

_BOTH_KNEES = ("own", "other")
_TOP, _BACK, _LIFTED, _TUCKED, _AHEAD = (
    Foot.TOP,
    Foot.BACK,
    Foot.LIFTED,
    Foot.TUCKED,
    Foot.AHEAD,
)

Stand = tuple[Base, Foot, Foot, tuple[str, ...], str]

# base, own foot, other foot, knees that bear, which of two limbs bears
STANDS: dict[str, Stand] = {
    "feet": (Base.FEET, _TOP, _TOP, (), ""),
    "one foot": (Base.FOOT, _TOP, _LIFTED, (), "own"),
    "feet apart": (Base.FEET, _TOP, _BACK, (), ""),
    "seat": (Base.SEAT, _TUCKED, _TUCKED, (), ""),
    "front and back foot": (Base.FEET, _TOP, _BACK, (), ""),
    "one foot and hand": (Base.FOOT_HAND, _TOP, _LIFTED, (), "own"),
    "foot and knee": (Base.FOOT_KNEE, _TOP, _BACK, ("other",), ""),
    "hands, foot and knee": (Base.HANDS_FOOT_KNEE, _TOP, _BACK, ("other",), ""),
    "hands and feet": (Base.HANDS_FEET, _BACK, _BACK, (), ""),
    "hands and feet, chest up": (Base.HANDS_FEET_UP, _TUCKED, _TUCKED, (), ""),
    "hands and foot": (Base.HANDS_FOOT, _LIFTED, _BACK, (), "other"),
    "hand and feet": (Base.HAND_FEET, _BACK, _BACK, (), "own"),
    "forearms and feet": (Base.FOREARMS_FEET, _BACK, _BACK, (), ""),
    "hands": (Base.HANDS, _LIFTED, _LIFTED, (), ""),
    "forearms": (Base.FOREARMS, _LIFTED, _LIFTED, (), ""),
    "head and forearms": (Base.HEAD, _LIFTED, _LIFTED, (), ""),
    "hands and knees": (Base.HANDS_KNEES, _TUCKED, _TUCKED, _BOTH_KNEES, ""),
    "hands and knee": (Base.HANDS_KNEE, _LIFTED, _TUCKED, ("other",), "other"),
    "knees": (Base.KNEES, _TUCKED, _TUCKED, _BOTH_KNEES, ""),
    "shins": (Base.SHINS, _TUCKED, _TUCKED, _BOTH_KNEES, ""),
    "heels": (Base.SHINS, _TUCKED, _TUCKED, _BOTH_KNEES, ""),
    "hip": (Base.HIP, _TUCKED, _BACK, (), ""),
    "belly": (Base.BELLY, _BACK, _BACK, (), ""),
    "back": (Base.BACK, _AHEAD, _AHEAD, (), ""),
    "back and feet": (Base.BACK_FEET, _TUCKED, _TUCKED, (), ""),
    "shoulders": (Base.SHOULDERS, _LIFTED, _LIFTED, (), ""),
    "side": (Base.LYING_SIDE, _TUCKED, _TUCKED, (), ""),
}
FACES: dict[str, Frame] = {
    "end": Frame.END,
    "end of the mat": Frame.END,
    "long side": Frame.LONG,
    "long side of the mat": Frame.LONG,
}
BENDS: dict[str, Trunk] = {
    "no": Trunk.UPRIGHT,
    "forward": Trunk.FOLDED,
    "back": Trunk.ARCHED,
    "sideways": Trunk.LATERAL,
    "turns": Trunk.TURNED,
    "flat": Trunk.FLAT,
    "rests": Trunk.RESTING,
    "upside down": Trunk.INVERTED,
    "not": Trunk.UPRIGHT,
    "upright": Trunk.UPRIGHT,
    "backward": Trunk.ARCHED,
    "to the side": Trunk.LATERAL,
    "twists": Trunk.TURNED,
    "turned": Trunk.TURNED,
    "level": Trunk.FLAT,
    "resting": Trunk.RESTING,
}
ARMS: dict[str, Hands] = {
    "up": Hands.UP,
    "wide": Hands.WIDE,
    "at the heart": Hands.HEART,
    "on the floor": Hands.FLOOR,
    "at the sides": Hands.SIDES,
    "in front": Hands.FRONT,
    "bound": Hands.BOUND,
    "free": Hands.FREE,
    "overhead": Hands.UP,
    "open": Hands.WIDE,
    "heart": Hands.HEART,
    "prayer": Hands.HEART,
    "floor": Hands.FLOOR,
    "sides": Hands.SIDES,
    "front": Hands.FRONT,
    "forward": Hands.FRONT,
}
BREATHS: dict[str, str] = {
    "in": "in",
    "out": "out",
    "either": "either",
    "inhale": "in",
    "exhale": "out",
}
SPINES: dict[Trunk, str] = {
    Trunk.UPRIGHT: "neutral",
    Trunk.FOLDED: "flexion",
    Trunk.FLAT: "axial extension",
    Trunk.ARCHED: "extension",
    Trunk.LATERAL: "lateral",
    Trunk.TURNED: "rotation",
    Trunk.RESTING: "neutral",
    Trunk.INVERTED: "axial extension",
}
PARTS = ("foot", "knee", "leg", "hand", "arm")
