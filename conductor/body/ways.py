"""The way from one stance to the next: what is done, whether it can be done, at what effort."""

from collections.abc import Callable
from functools import lru_cache

from conductor.body.feet import TUCKED, steps
from conductor.body.moves import Action, Do, Way, ordered
from conductor.body.regions import Region, near_floor, on_hands, region, stops
from conductor.sides import Side
from conductor.stance import Base, Foot, Frame, Hands, Stance, Trunk
from conductor.values import replace

__all__ = ["Action", "Do", "Way", "sides_allowed", "turned", "way"]

_TURNS = frozenset(
    {
        Region.STANDING,
        Region.LUNGE,
        Region.FOURS,
        Region.KNEELING,
        Region.HEELS,
        Region.SEAT,
        Region.HIP,
    }
)
_FAR = frozenset({Hands.UP, Hands.SIDES, Hands.WIDE})
_LOW = frozenset({Region.SEAT, Region.BACK, Region.SIDE})
_APART = "the feet come together first"


def turned(stance: Stance) -> Stance:
    """The same body turned to the other end of the mat.

    With the feet apart along the mat the foot in front is then the one behind, and the other way
    round; with the feet together they stay where they are.
    """
    if {stance.right, stance.left} == {Foot.TOP, Foot.BACK}:
        stance = replace(stance, right=stance.left, left=stance.right)
    return replace(stance, heading=stance.heading.other)


def _turn(before: Stance, after: Stance) -> list[Action]:
    actions = []
    if before.heading is not after.heading:
        actions.append(Action(Do.TURN_ROUND))
    standing = region(before) is Region.STANDING or region(after) is Region.STANDING
    if before.frame is not after.frame and standing:
        long = after.frame is Frame.LONG
        actions.append(Action(Do.TURN_LONG if long else Do.TURN_END))
    return actions


def _hands(before: Stance, after: Stance) -> list[Action]:
    on, was = on_hands(after), on_hands(before)
    if after.base is Base.HAND_FEET and after.standing:
        if before.base is not Base.HAND_FEET:
            return [Action(Do.HAND_UP, after.standing.other)]
        return [] if before.standing is after.standing else [Action(Do.SWITCH_HANDS)]
    if after.base is Base.FOOT_HAND and after.hands is not Hands.FLOOR and not was:
        return [Action(Do.HAND_DOWN, after.standing)]
    if on and not was:
        return [Action(Do.HANDS_DOWN)]
    return [Action(Do.HANDS_UP)] if was and not on else []


def _knees(before: Stance, after: Stance) -> list[Action]:
    both = {Region.LUNGE, Region.HANDS_FEET, Region.STANDING, Region.FOURS}
    if not {region(before), region(after)} <= both:
        return []
    down = [Action(Do.KNEE_DOWN, side) for side in after.knees if side not in before.knees]
    up = [Action(Do.KNEE_UP, side) for side in before.knees if side not in after.knees]
    return down + up


_ARRIVING: dict[Region, Do] = {
    Region.FOURS: Do.HANDS_KNEES,
    Region.FOREARMS_FEET: Do.FOREARMS_DOWN,
    Region.BALANCE: Do.WEIGHT_TO_HANDS,
    Region.INVERSION: Do.WEIGHT_TO_FOREARMS,
    Region.KNEELING: Do.KNEEL_UP,
    Region.HEELS: Do.SIT_BACK,
    Region.SEAT: Do.SIT_DOWN,
    Region.BELLY: Do.LIE_ON_BELLY,
    Region.BACK: Do.LIE_BACK,
    Region.ARCH: Do.PRESS_UP,
}


_FROM_FLOOR = frozenset({Region.KNEELING, Region.HEELS, Region.SEAT, Region.BACK})

_ROLLING: dict[tuple[Region, Region], Do] = {
    (Region.BELLY, Region.BACK): Do.ROLL_TO_BACK,
    (Region.SIDE, Region.BACK): Do.ROLL_TO_BACK,
    (Region.BACK, Region.BELLY): Do.ROLL_TO_BELLY,
    (Region.SIDE, Region.BELLY): Do.ROLL_TO_BELLY,
    (Region.BACK, Region.SEAT): Do.SIT_UP,
    (Region.SIDE, Region.SEAT): Do.SIT_UP,
    (Region.ARCH, Region.BACK): Do.LOWER_BACK,
}


def _arriving(before: Stance, after: Stance) -> list[Action]:
    here, there = region(before), region(after)
    if there is Region.STANDING:
        rises = here in _FROM_FLOOR and after.trunk is Trunk.UPRIGHT
        return [Action(Do.STAND_UP)] if rises else []
    if there is Region.SIDE:
        return [Action(Do.LIE_ON_SIDE, after.standing)]
    kind = _ROLLING.get((here, there)) or _ARRIVING.get(there)
    return [Action(kind)] if kind else []


_LIFTS: dict[tuple[Base, Base], Do] = {
    (Base.BACK, Base.BACK_FEET): Do.LIFT_HIPS,
    (Base.BACK_FEET, Base.BACK): Do.LOWER_HIPS,
    (Base.SHOULDERS, Base.BACK): Do.LOWER_HIPS,
    (Base.BACK, Base.SHOULDERS): Do.LIFT_LEGS_OVER,
    (Base.BACK_FEET, Base.SHOULDERS): Do.LIFT_LEGS_OVER,
}


def _trunk(before: Stance, after: Stance) -> list[Action]:
    lift = _LIFTS.get((before.base, after.base))
    if lift:
        return [Action(lift)]
    if region(before) is not region(after):
        return _arriving(before, after)
    if after.trunk is Trunk.FOLDED and before.trunk is not Trunk.FOLDED:
        return [Action(Do.FOLD)]
    upright = after.trunk is Trunk.UPRIGHT
    return [Action(Do.RISE)] if upright and before.trunk is not Trunk.UPRIGHT else []


def _apart(stance: Stance) -> bool:
    return region(stance) is Region.STANDING and not stance.right is stance.left is Foot.TOP


def _carry(before: Stance, after: Stance) -> tuple[int, str]:
    """Changes of weight that the bases ask for, and what has to happen on the way."""
    here, there = region(before), region(after)
    effort, between = stops(here, there)
    words = f"from {here.value} to {there.value} is more than one movement"
    if between:
        words += ": come to " + ", then ".join(stop.value for stop in between) + " first"
    if there in _LOW and _apart(before):
        return effort + 1, words if between else f"{words}: {_APART}"
    if here in _LOW and _apart(after):
        return effort + 1, words
    return effort, words


def _special(before: Stance, after: Stance) -> tuple[int, str]:
    """Efforts that neither the region nor the feet tell of."""
    bases = (before.base, after.base)
    if after.base is Base.HAND_FEET and before.base is Base.HANDS_FOOT:
        lifted = Side.RIGHT if before.right is Foot.LIFTED else Side.LEFT
        if after.standing is lifted and before.foot(lifted) is Foot.LIFTED:
            return 2, f"the {lifted.value} leg is up: the weight goes to the other hand"
    if bases == (Base.HAND_FEET, Base.HAND_FEET) and before.standing is not after.standing:
        return 2, "the weight passes through both hands on its way to the other"
    if after.base is Base.HAND_FEET and region(before) is not Region.HANDS_FEET:
        return 2, "both hands carry before one of them can leave the floor"
    if bases == (Base.BACK, Base.BACK_FEET) and before.right is before.left is Foot.AHEAD:
        return 2, "the feet come in before the hips can lift"
    if {region(before), region(after)} == {Region.STANDING, Region.BALANCE}:
        upright = before if region(before) is Region.STANDING else after
        if not near_floor(upright) and upright.hands in _FAR:
            return 2, "the hands come to the floor before they can carry"
    return 0, ""


def _reclined_hero(before: Stance, after: Stance) -> bool:
    folded = before.right is before.left is TUCKED and after.right is after.left is TUCKED
    pair = {region(before), region(after)}
    return folded and pair == {Region.HEELS, Region.BACK} and bool(after.knees or before.knees)


def _can_turn(before: Stance) -> bool:
    """Whether the body can turn to the other end: not while hands and feet stay behind it."""
    return region(before) in _TURNS or before.front is not None


def way(before: Stance, after: Stance) -> Way:
    """The way from one stance to the next, in one movement."""
    return _way(before, after)


@lru_cache(maxsize=8192)  # a class takes few different ways, each of them many times
def _way(before: Stance, after: Stance) -> Way:
    rounds = before.heading is not after.heading
    start = turned(before) if rounds else before
    if rounds and not _can_turn(before):
        words = (
            f"nobody turns round from {region(before).value}: come to the feet or the seat first"
        )
        return Way((Action(Do.TURN_ROUND),), False, words, 3)
    feet = steps(start, after)
    carry, why = (1, "") if _reclined_hero(start, after) else _carry(start, after)
    extra, wherefore = _special(start, after)
    found = [
        *_turn(before, after),
        *_hands(start, after),
        *feet.actions,
        *_knees(start, after),
        *_trunk(start, after),
    ]
    effort = max(carry, feet.effort, extra, int(before != after))
    effort += int(rounds and bool(feet.effort))
    heavy = [(carry, why), (feet.effort, feet.trouble), (extra, wherefore)]
    trouble = next((words for n, words in sorted(heavy, reverse=True) if n > 1 and words), "")
    if effort > 1 and not trouble:
        trouble = "a turn and a step are two movements"
    possible = feet.possible and effort < 3
    return Way(ordered(found), possible, trouble, effort)


def sides_allowed(before: Stance, at: Callable[[Side], Stance]) -> frozenset[Side]:
    """The sides on which a shape can be reached in one movement."""
    return frozenset(side for side in Side if way(before, at(side)).possible)
