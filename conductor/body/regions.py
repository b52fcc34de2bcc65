"""Regions of carrying the weight, and which of them lie one change of weight apart."""

from enum import StrEnum
from functools import cache
from heapq import heappop, heappush
from itertools import count

from conductor.stance import Base, Foot, Hands, Stance, Trunk


class Region(StrEnum):
    """Bases between which moving is alike; each value ends the phrase "from ... to ..."."""

    STANDING = "standing"
    LUNGE = "a kneeling lunge"
    HANDS_FEET = "hands and feet"
    FOREARMS_FEET = "forearms and feet"
    BALANCE = "a balance on the hands"
    INVERSION = "a balance on forearms or head"
    FOURS = "hands and knees"
    KNEELING = "kneeling upright"
    HEELS = "sitting on the heels"
    SEAT = "sitting"
    HIP = "sitting over one bent or stretched leg"
    BELLY = "lying on the belly"
    BACK = "lying on the back"
    ARCH = "an arch on hands and feet"
    SIDE = "lying on the side"


_OF: dict[Base, Region] = {
    Base.FEET: Region.STANDING,
    Base.FOOT: Region.STANDING,
    Base.FOOT_HAND: Region.STANDING,
    Base.FOOT_KNEE: Region.LUNGE,
    Base.HANDS_FOOT_KNEE: Region.LUNGE,
    Base.HANDS_FEET: Region.HANDS_FEET,
    Base.HANDS_FOOT: Region.HANDS_FEET,
    Base.HAND_FEET: Region.HANDS_FEET,
    Base.FOREARMS_FEET: Region.FOREARMS_FEET,
    Base.HANDS: Region.BALANCE,
    Base.FOREARMS: Region.INVERSION,
    Base.HEAD: Region.INVERSION,
    Base.HANDS_KNEES: Region.FOURS,
    Base.HANDS_KNEE: Region.FOURS,
    Base.KNEES: Region.KNEELING,
    Base.SHINS: Region.HEELS,
    Base.SEAT: Region.SEAT,
    Base.HIP: Region.HIP,
    Base.BELLY: Region.BELLY,
    Base.BACK: Region.BACK,
    Base.BACK_FEET: Region.BACK,
    Base.SHOULDERS: Region.BACK,
    Base.HANDS_FEET_UP: Region.ARCH,
    Base.LYING_SIDE: Region.SIDE,
}

_ON_HANDS = frozenset(
    {
        Base.HANDS_FOOT_KNEE,
        Base.HANDS_FEET,
        Base.HANDS_FOOT,
        Base.HAND_FEET,
        Base.HANDS,
        Base.HANDS_KNEES,
        Base.HANDS_KNEE,
        Base.FOOT_HAND,
        Base.FOREARMS_FEET,
        Base.FOREARMS,
        Base.HEAD,
        Base.HANDS_FEET_UP,
    }
)

# One change of weight apart, or as many as the number says; common practice.
_STEPS = {
    "FOURS": "HEELS KNEELING BELLY HIP SEAT BALANCE INVERSION:2",
    "HEELS": "BELLY SEAT HIP INVERSION",
    "KNEELING": "HEELS SEAT",
    "SEAT": "BACK ARCH HIP BALANCE SIDE",
    "BACK": "SIDE ARCH",
    "SIDE": "FOURS",
    "BELLY": "SIDE",
    "HANDS_FEET": "FOREARMS_FEET FOURS HEELS BELLY HIP BALANCE SEAT:2 ARCH:2",
    "FOREARMS_FEET": "FOURS HEELS BELLY INVERSION",
    "LUNGE": "HANDS_FEET FOREARMS_FEET FOURS KNEELING HEELS HIP",
    "STANDING": "LUNGE HANDS_FEET FOURS BALANCE SEAT:2",
}


def _neighbours() -> dict[Region, dict[Region, int]]:
    near: dict[Region, dict[Region, int]] = {region: {} for region in Region}
    for name, others in _STEPS.items():
        for entry in others.split():
            other, _, weight = entry.partition(":")
            near[Region[name]][Region[other]] = int(weight or 1)
            near[Region[other]][Region[name]] = int(weight or 1)
    return near


_NEAR = _neighbours()


def region(stance: Stance) -> Region:
    """The region of a stance."""
    return _OF[stance.base]


@cache
def stops(start: Region, goal: Region) -> tuple[int, tuple[Region, ...]]:
    """Changes of weight from one region to another, and the regions passed on the way."""
    tie = count()
    heap: list[tuple[int, int, Region, tuple[Region, ...]]] = [(0, next(tie), start, ())]
    seen: set[Region] = set()
    while heap:
        cost, _, here, trail = heappop(heap)
        if here is goal:
            return cost, trail[:-1]
        if here in seen:
            continue
        seen.add(here)
        for there, weight in _NEAR[here].items():
            heappush(heap, (cost + weight, next(tie), there, (*trail, there)))
    return 9, ()


def on_hands(stance: Stance) -> bool:
    """Whether hands or forearms are on the floor."""
    return stance.base in _ON_HANDS or stance.hands is Hands.FLOOR


def near_floor(stance: Stance) -> bool:
    """Whether the hands are at the floor or close to it, so that both feet can step at once."""
    low = stance.trunk in {Trunk.FOLDED, Trunk.FLAT, Trunk.INVERTED}
    return on_hands(stance) or (low and stance.hands is not Hands.UP)


_LEVELLED: dict[Region, dict[Foot, Foot]] = {
    Region.STANDING: {Foot.TUCKED: Foot.LIFTED, Foot.AHEAD: Foot.LIFTED},
    Region.LUNGE: {Foot.TUCKED: Foot.BACK, Foot.AHEAD: Foot.TOP},
    Region.HIP: {Foot.TUCKED: Foot.TOP, Foot.AHEAD: Foot.TOP, Foot.LIFTED: Foot.BACK},
    Region.FOURS: {Foot.TUCKED: Foot.BACK},
    Region.KNEELING: {Foot.TUCKED: Foot.BACK},
    Region.HEELS: {Foot.TUCKED: Foot.BACK},
    Region.BELLY: {Foot.TUCKED: Foot.BACK, Foot.LIFTED: Foot.BACK},
}


def levelled(stance: Stance, foot: Foot) -> Foot:
    """The place of a foot with those taken together that make no step apart in this region."""
    if stance.base is Base.HAND_FEET and foot is Foot.TUCKED:
        return Foot.BACK
    if stance.base is Base.HANDS_FOOT and foot is Foot.TUCKED:
        return Foot.LIFTED
    return _LEVELLED.get(region(stance), {}).get(foot, foot)
