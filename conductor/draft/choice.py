"""Which shapes a class may hold: by level, by what it leads up to, by what was led before."""

import math
from collections.abc import Collection
from functools import cache

from conductor.draft.graph import IN, OUT, Here, Move, shapes, trail
from conductor.draft.tree import Tempo
from conductor.draft.wish import Focus
from conductor.shapes.model import Shape
from conductor.stance import Base
from conductor.values import Struct

# Never drafted: what needs a wall or a bolster, stands on head, neck or forearms, or asks much of
# the knees; whoever teaches these writes them in.
_LEFT_OUT = frozenset(
    """
    final-rest side-lying-rest supported-final-rest supported-fish supported-bridge
    supported-childs-pose legs-up-the-wall half-shoulderstand shoulderstand plow headstand
    forearm-stand handstand fish lotus hero reclined-hero frog stretched-frog-seat toe-squat
    inverted-v prayer-stand knees-down-plank eight-points low-plank upward-dog hare
    hand-under-foot-fold firefly flying-splits side-crow flipped-dog equestrian full-split
    belly-twist
    """.split()
)

HUBS = (
    "mountain", "downward-dog", "all-fours", "childs-pose", "crocodile", "easy-seat", "staff",
    "constructive-rest",
)  # fmt: skip
"""Shapes that parts of a class begin and end in: from each many others are one breath away."""

_PASSING = frozenset(
    """
    mountain arms-overhead standing-fold half-lift downward-dog plank all-fours childs-pose
    high-kneel crocodile easy-seat seated-arms-overhead staff bound-angle constructive-rest
    knees-to-chest five-pointed-star wide-legged-half-lift
    """.split()
)
_PASSING_SIDED = frozenset(
    """
    low-lunge runners-lunge three-legged-dog crescent-lunge warrior-one warrior-two half-split
    pyramid-with-flat-back
    """.split()
)

_AREAS: dict[Focus, dict[str, int]] = {
    Focus.HIPS: {"outer hips": 3, "inner thighs": 3, "hip flexors": 2},
    Focus.BACKBEND: {"spine extension": 3, "chest": 2, "hip flexors": 1},
    Focus.BALANCE: {"balance": 3, "core": 1},
    Focus.SLOW: {"outer hips": 1, "inner thighs": 1, "spine flexion": 1, "chest": 1},
}


def may(shape: Shape, level: int) -> bool:
    """Whether a class of that level may hold it at all."""
    return shape.level <= level and shape.id not in _LEFT_OUT and bool(shape.sources)


def drawn_to(shape: Shape, focus: Focus) -> int:
    """How much a shape has of what the class leads up to."""
    return sum(weight * shape.asks.get(area, 0) for area, weight in _AREAS[focus].items())


def prepared(shape: Shape, seen: Collection[str]) -> bool:
    """Whether something of its own preparation was led; a gentle shape needs none."""
    return shape.level < 2 or bool(set(shape.prepares) & set(seen))


@cache
def leading(target: str) -> frozenset[str]:
    """The shapes one comes through on the way into another, as the catalogue has them."""
    found: set[str] = set()
    todo = [target]
    while todo:
        for name in shapes()[todo.pop()].before:
            if name not in found and name not in _LEFT_OUT and not shapes()[target].landing:
                found.add(name)
                todo += [] if shapes()[name].landing else [name]
    return frozenset(found)


@cache
def passing(target: str) -> frozenset[str]:
    """What may be passed on the way to a shape and home: on both sides only if it is sided."""
    shape = shapes()[target]
    lead = {name for name in leading(target) if shape.sided or not shapes()[name].sided}
    return _PASSING | lead | (_PASSING_SIDED if shape.sided else frozenset())


class Visit(Struct, frozen=True):
    """A shape as reached from a hub, and the way home, which goes through what undoes it."""

    shape: str
    hub: str
    into: tuple[Move, ...]
    home: tuple[Move, ...]

    @property
    def long(self) -> int:
        """How many half breaths the way there and back takes."""
        return len(self.into) + len(self.home)


LONGEST_WAY = 12  # half breaths there and back


@cache
def visit(target: str, hub: str) -> Visit | None:
    """The way to a shape from a hub and home again, or None where there is no good one."""
    by = passing(target)
    start = Here(hub, OUT)
    lead: tuple[Move, ...] = ()
    if hub == "downward-dog" and shapes()[target].sided and target != "three-legged-dog":
        lead = _step_through(target)
        start = Here(lead[-1].shape, lead[-1].breath)
    found: list[Visit] = []
    for breath in (IN, OUT):
        goal = Here(target, breath)
        into, home = _into(start, goal, by), trail(goal, Here(hub, OUT), by)
        if into is not None and home is not None and (lead + into):
            found.append(Visit(target, hub, lead + into, home))
    best = min(found, key=lambda one: (one.long, one.into, one.home), default=None)
    return best if best and best.long <= LONGEST_WAY else None


STRONG = 3  # of the catalogue's levels


def _into(start: Here, goal: Here, by: Collection[str]) -> tuple[Move, ...] | None:
    """The way into a shape; a strong one is entered from what usually comes before it."""
    shape = shapes()[goal.shape]
    if shape.level < STRONG or not shape.before:
        return trail(start, goal, by)
    found: list[tuple[Move, ...]] = []
    for name in shape.before:
        for breath in (IN, OUT):
            there = Here(name, breath)
            first, then = trail(start, there, by), trail(there, goal, by)
            if first is not None and then is not None:
                found.append(first + then)
    return min(found, key=lambda way: (len(way), way), default=None)


def _step_through(target: str) -> tuple[Move, ...]:
    """From the dog a leg is lifted, and steps through."""
    if visit_base(target) in _FROM_LIFTED:
        return (Move(IN, "three-legged-dog"),)
    low = shapes()[target].place.knees
    return (Move(IN, "three-legged-dog"), Move(OUT, "low-lunge" if low else "runners-lunge"))


def visit_base(target: str) -> Base:
    """What carries the weight in a shape."""
    return shapes()[target].place.base


_FROM_LIFTED = frozenset({Base.HIP, Base.HANDS_FOOT, Base.HAND_FEET})


@cache
def homes(target: str) -> tuple[str, ...]:
    """The hubs a shape belongs to: those from which the way there and back is shortest."""
    ways = {hub: found for hub in HUBS if (found := visit(target, hub))}
    if not ways:
        return ()
    least = min(way.long for way in ways.values())
    return tuple(hub for hub in HUBS if hub in ways and ways[hub].long <= least + 1)


class Hold(Struct, frozen=True):
    """Breaths a shape is held: as written, and the bounds it may stretch between."""

    least: int
    usual: int
    most: int


def hold(shape: Shape, tempo: Tempo, seconds: float) -> Hold:
    """Hold a shape for about so many seconds, and never far out of its usual time."""
    breath = tempo.breath / 1000
    low = max(1, math.ceil(0.5 * shape.hold[0] / breath))
    high = max(low, math.floor(shape.hold[1] / breath))
    usual = min(max(round(seconds / breath), low), high)
    return Hold(max(low, math.ceil(usual / 2)), usual, min(high, max(usual * 2, usual + 2)))
