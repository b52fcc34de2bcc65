"""Units of a class: from a hub into a shape, a stay, and home; on both sides if it has two."""

from collections.abc import Collection

from conductor.body.regions import Region, region
from conductor.draft.choice import HUBS, homes, may, prepared, visit
from conductor.draft.graph import IN, OUT, Here, Move, moves, shapes, stance, trail
from conductor.draft.pen import Pen
from conductor.draft.tree import Group, Step
from conductor.draft.tree import Move as Led
from conductor.shapes.model import Shape
from conductor.stance import Base, Foot, Trunk
from conductor.values import replace

MOVING = 0.5  # how often
MOVING_S = 30  # a shape usually held no longer may be moved in and out of


def unit(pen: Pen, target: str, seconds: float, *, rounds: int = 1, may_move: bool = False) -> None:
    """Write the way into a shape, a stay there, the way home.

    Where that may be, a shape one movement away is sometimes led to and fro with the breath.
    """
    hub = pen.here.shape
    found = visit(target, hub)
    assert found is not None  # noqa: S101 -- units are drawn from shapes that belong to the hub
    shape = shapes()[target]

    def once() -> None:
        pen.walk(found.into)
        pen.stay(seconds, last=seconds >= 40 and not shape.balance)
        pen.walk(found.home)

    sways = may_move and found.long == 2 and shape.hold[1] <= MOVING_S
    steps: tuple[Step, ...]
    if sways and pen.chance.random() < MOVING:
        steps = (Group(pen.cut(lambda: pen.walk(found.into + found.home)), rounds=3),)
        pen.held.add(target)
    else:
        steps = pen.cut(once)
    if shape.sided:
        _on_both(pen, steps)
    elif rounds > 1:
        pen.steps.append(Group(steps, rounds=rounds))
    else:
        pen.steps += steps


def _on_both(pen: Pen, steps: tuple[Step, ...]) -> None:
    """Write steps for both sides; a last half breath in place serves to tell of the other side."""
    last = steps[-1]
    if isinstance(last, Led) and not last.shape:
        told = replace(last, say=pen.other_side())
        pen.steps.append(Group(steps[:-1], sides=True, between=(told,)))
        pen.steps.append(last)
    else:
        pen.steps.append(Group(steps, sides=True, between=between(pen)))


def between(pen: Pen) -> tuple[Step, ...]:
    """A breath between the sides, with a word that the other one comes."""
    here = pen.here

    def breath() -> None:
        pen.move(here.breath.other, here.shape, pen.other_side())
        pen.move(here.breath, here.shape)

    return pen.cut(breath)


def row(pen: Pen, there: str, rounds: int) -> None:
    """Write a movement to and fro with the breath."""
    hub = pen.here.shape
    back = _back(hub, there)

    def once() -> None:
        pen.move(IN, there)
        pen.move(OUT, back)

    steps = pen.cut(once)
    pen.steps.append(Group(steps, rounds=rounds, speak="full, then short, then breath"))
    travel(pen, hub)


def _back(hub: str, there: str) -> str:
    """What the exhale of a row comes to: cat after cow, and else the hub itself."""
    base = shapes()[there].place.base
    undone = (shapes()[name] for name in shapes()[there].undoes)
    moving = [one.id for one in undone if one.place.base is base and not one.landing]
    return moving[0] if moving else hub


def rows(hub: str, level: int) -> tuple[str, ...]:
    """Gentle shapes without sides that an inhale opens to from a hub, and an exhale leaves."""
    found = []
    for move, _ in moves(hub):
        shape = shapes()[move.shape]
        gentle = shape.level == 1 and max(shape.asks.values(), default=0) <= 1
        gentle = gentle and not (shape.sided or shape.loads or shape.landing)
        gentle = gentle and shape.place.trunk is not Trunk.FLAT  # halfway up is no opening
        if move.breath is not IN or not gentle or shape.breath != "in" or not may(shape, level):
            continue
        back = Move(OUT, _back(hub, move.shape))
        if back in {one for one, _ in moves(move.shape)}:
            found.append(move.shape)
    return tuple(found)


def units(hub: str, level: int, seen: Collection[str]) -> tuple[str, ...]:
    """Shapes that may be held from a hub now: no hub itself, and prepared if they are strong."""
    return tuple(
        name
        for name, shape in shapes().items()
        if may(shape, level)
        and name not in HUBS
        and hub in homes(name)
        and prepared(shape, seen)
        and _belongs(shape, hub)
    )


_STEPPED = frozenset({Base.FOOT_KNEE, Base.HANDS_FOOT_KNEE})
_PASSED = frozenset(
    "high-kneel staff-with-arms-overhead five-pointed-star half-lift wide-legged-half-lift plank "
    "windshield-wipers seated-arms-overhead arms-overhead three-legged-dog thunderbolt "
    "standing-fold cat cow".split()
)
_BRIEF_S = 10  # a shape usually left sooner is passed or moved through, not held


def _belongs(shape: Shape, hub: str) -> bool:
    """Whether a shape is a unit of its own there, and not a step of a standing passage."""
    if shape.hold[1] <= _BRIEF_S or shape.id in _PASSED:
        return False
    base = shape.place.base
    if base is Base.FEET and shape.sided:
        return hub == "mountain" and shape.place.own is shape.place.other
    if base in _STEPPED:
        return shape.id == "gate"
    return base is not Base.FOOT_HAND


def travel(pen: Pen, goal: str) -> None:
    """Write the way from one hub to another, in movements or in words and time."""
    here = pen.here.shape
    if here == goal and pen.here.breath is OUT:
        return
    said = _BY_WORDS.get((_level(here), _level(goal)))
    if said is not None:
        seconds, breaths, lines = said
        line = pen.one(lines)
        if breaths:
            pen.come(goal, line, breaths)
        else:
            pen.free(seconds, goal, line)
        return
    found = trail(pen.here, Here(goal, OUT), ON_THE_WAY)
    if found is None:  # from a seat or the back by way of hands and knees; a test walks all pairs
        travel(pen, "all-fours")
        travel(pen, goal)
        return
    pen.walk(found)


ON_THE_WAY = frozenset(
    "mountain arms-overhead standing-fold half-lift downward-dog plank all-fours childs-pose "
    "crocodile easy-seat staff constructive-rest high-kneel".split()
)

_LEVELS = {
    Region.STANDING: "up",
    Region.LUNGE: "hands",
    Region.HANDS_FEET: "hands",
    Region.FOREARMS_FEET: "hands",
    Region.FOURS: "knees",
    Region.KNEELING: "knees",
    Region.HEELS: "knees",
    Region.BELLY: "belly",
    Region.SEAT: "seat",
    Region.HIP: "seat",
    Region.BACK: "back",
}


def _level(shape: str) -> str:
    """How far from the floor, in the words of the ways below; sitting with long legs is its own."""
    here = stance(shape)
    level = _LEVELS.get(region(here), "hands")
    return "legs" if level == "seat" and Foot.AHEAD in {here.right, here.left} else level


_SIT = ("Come through to sit, both legs long.", "Sit down, both legs long in front of you.")
_LIE = ("Come down to your back, feet on the floor.", "Lie down slowly, feet on the floor.")
_SEAT = ("Come to sit, legs crossed, spine tall.", "Sit down, and cross the legs.")
_KNEES = ("Come to hands and knees, knees under the hips.", "Come forward to hands and knees.")

_BY_WORDS: dict[tuple[str, str], tuple[int, int, tuple[str, ...]]] = {
    **{(start, "legs"): (20, 0, _SIT) for start in ("up", "hands", "knees", "belly")},
    **{(start, "seat"): (20, 0, _SEAT) for start in ("up", "hands", "knees", "belly")},
    **{(start, "back"): (20, 0, _LIE) for start in ("up", "hands", "knees", "belly", "seat")},
    ("legs", "back"): (16, 0, ("Roll down to your back, feet on the floor.",)),
    ("seat", "knees"): (0, 2, _KNEES),
    ("legs", "knees"): (0, 2, _KNEES),
    ("back", "knees"): (20, 0, ("Roll to one side, and come to hands and knees.",)),
    ("back", "seat"): (20, 0, ("Roll to one side, and come up to sit.",)),
    ("back", "legs"): (20, 0, ("Roll to one side, and come up to sit, legs long.",)),
    ("seat", "up"): (20, 0, ("Come up to stand, feet under the hips.",)),
    ("back", "up"): (24, 0, ("Roll to one side, and come up to stand.",)),
}
