"""What the feet have to do between two stances, and whether they can do it at once."""

from conductor.body.moves import Action, Do
from conductor.body.regions import Region, levelled, near_floor, region
from conductor.sides import Side
from conductor.stance import Foot, Stance, Trunk
from conductor.values import Struct

TOP, BACK, LIFTED = Foot.TOP, Foot.BACK, Foot.LIFTED
TUCKED, AHEAD = Foot.TUCKED, Foot.AHEAD

WALKING = frozenset(
    {
        Region.STANDING,
        Region.LUNGE,
        Region.HANDS_FEET,
        Region.FOREARMS_FEET,
        Region.FOURS,
        Region.KNEELING,
        Region.HEELS,
        Region.HIP,
        Region.BELLY,
    }
)
"""Regions along the mat in which a foot steps; elsewhere legs only bend, stretch and lift."""


_KNEELING = frozenset({Region.KNEELING, Region.HEELS, Region.FOURS})


class Steps(Struct, frozen=True):
    """What the feet do: changes of weight, whether it can be done at once, and why not."""

    actions: tuple[Action, ...] = ()
    effort: int = 0
    possible: bool = True
    trouble: str = ""


Change = tuple[Foot, Foot]

_AT_ONCE_NOT: dict[frozenset[Change], str] = {
    frozenset({(LIFTED, BACK), (BACK, TOP)}): (
        "the {up} leg is up and the {down} foot carries the weight: only the {up} foot can step"
    ),
    frozenset({(TOP, BACK), (BACK, TOP)}): (
        "the {down} foot is in front: for the {up} foot to be there needs a step between, or a"
        " turn to the other end"
    ),
    frozenset({(TOP, BACK), (BACK, LIFTED)}): (
        "the {up} foot is behind and the {down} in front: only the {down} leg can lift from here"
    ),
}


def places(stance: Stance) -> dict[Side, Foot]:
    """Where both feet are, with those places taken together that make no step apart."""
    return {side: levelled(stance, stance.foot(side)) for side in Side}


def _leg(change: Change, before: Stance, after: Stance) -> Do | None:
    """What a leg does in a region where nobody steps: seated, lying, upside down."""
    start, goal = change
    if change == (LIFTED, BACK):
        return Do.STEP_BACK
    if change == (LIFTED, TOP):
        return Do.LOWER_FOOT
    if LIFTED in change:
        return Do.LIFT_LEG if goal is LIFTED else Do.LOWER_LEG
    if goal is TUCKED:
        return Do.BEND_KNEE
    if start is TUCKED and goal is AHEAD:
        return Do.STRETCH_LEG
    return None if region(before) is not region(after) else Do.OPEN_LEG


def _step(change: Change, before: Stance, after: Stance) -> Do | None:
    """What a foot does along the mat."""
    start, goal = change
    if region(after) is Region.HIP and goal is TOP and start is not TOP:
        return Do.KNEE_FORWARD
    if goal is LIFTED:
        return Do.LIFT_LEG
    if start is LIFTED:
        if region(before) is Region.STANDING:
            return Do.LOWER_FOOT if goal is TOP else Do.STEP_BACK
        return Do.STEP_FORWARD if goal is TOP else Do.LOWER_LEG
    if goal is TOP:
        return Do.STEP_FORWARD
    if start is not TOP:
        return None
    return Do.KNEE_BACK if region(after) in _KNEELING else Do.STEP_BACK


def _mixed(changes: dict[Side, Change], before: Stance) -> Steps:
    """Two feet that do different things."""
    pair = frozenset(changes.values())
    words = _AT_ONCE_NOT.get(pair)
    if words:
        moves_up = (BACK, LIFTED) if (BACK, LIFTED) in pair else (LIFTED, BACK)
        up = next((side for side, change in changes.items() if change == moves_up), None)
        if up is None:
            up = next(side for side, change in changes.items() if change == (BACK, TOP))
        return Steps((), 3, False, words.format(up=up.value, down=up.other.value))
    upright = before.trunk not in {Trunk.FOLDED, Trunk.FLAT, Trunk.INVERTED, Trunk.LATERAL}
    if pair == {(LIFTED, TOP), (TOP, BACK)} and upright:
        return Steps((), 1)  # the lifted foot steps far forward, the other stays where it is
    if len(pair) == 2 and all((goal, start) in pair for start, goal in pair):
        return Steps((), 2, True, "both legs change over: one lands, then the other lifts")
    return Steps((), 2, True, "one foot has to land before the other can leave the floor")


def _both_alike(goal: Foot, before: Stance, after: Stance) -> Steps:
    if goal is TOP and not near_floor(after):
        return Steps((), 2, True, "the feet step forward, and then the body rises")
    if goal is BACK and not near_floor(before):
        return Steps((), 2, True, "the hands come to the floor before the feet can step back")
    return Steps((), 1)


def _one(side: Side, change: Change, still: Foot) -> Steps:
    if still is LIFTED and change in {(BACK, TOP), (TOP, BACK)}:
        words = (
            f"the {side.value} foot carries the weight while the {side.other.value} leg is up:"
            " it cannot step"
        )
        return Steps((), 2, change[1] is BACK, words)
    return Steps((), 1)


def _acts(changes: dict[Side, Change], before: Stance, after: Stance) -> tuple[Action, ...]:
    """Name what each foot does."""
    walking = region(before) in WALKING and region(after) in WALKING
    if walking and set(changes.values()) == {(LIFTED, TOP), (TOP, BACK)}:
        lifted = next(side for side, change in changes.items() if change[0] is LIFTED)
        return (Action(Do.STEP_FORWARD, lifted),)
    name = _step if walking else _leg
    named = ((name(change, before, after), side) for side, change in changes.items())
    return tuple(Action(kind, side) for kind, side in named if kind)


def steps(before: Stance, after: Stance) -> Steps:
    """What the feet do from one stance to the next, headings being equal."""
    start, goal = places(before), places(after)
    changes = {side: (start[side], goal[side]) for side in Side if start[side] is not goal[side]}
    if not changes:
        return Steps()
    actions = _acts(changes, before, after)
    if region(before) not in WALKING or region(after) not in WALKING:
        pair = set(changes.values())
        crossed = len(pair) == 2 and all((goal, start) in pair for start, goal in pair)
        within = region(before) is region(after)
        words = "both legs change over: one lands, then the other moves" if crossed else ""
        return Steps(actions, 2 if crossed else 1, True, words) if within else Steps(actions)
    if len(changes) == 1:
        ((side, change),) = changes.items()
        found = _one(side, change, goal[side.other])
    elif len({end for _, end in changes.values()}) == 1:
        found = _both_alike(next(iter(changes.values()))[1], before, after)
    else:
        found = _mixed(changes, before)
    return Steps(actions, found.effort, found.possible, found.trouble)
