"""Which movement follows which: what the catalogue relates, where the body's way is easy."""

import heapq
from collections.abc import Collection, Iterator, Mapping
from functools import cache
from types import MappingProxyType

from conductor.body.regions import region
from conductor.body.ways import way
from conductor.shapes.catalogue import load
from conductor.shapes.model import Shape
from conductor.sides import Breath, End, Side
from conductor.stance import Base, Frame, Hands, Stance, Trunk
from conductor.values import Struct

IN, OUT = Breath.IN, Breath.OUT
STEP_COST = 3
SAME_COST = 4  # half a breath in place
BACK_COST = 1  # the way one came
WEIGHT_COST = 2  # the body is carried by something else
LOAD_COST = 3  # a plank is no place to pass through on the way to hands and knees
TURN_COST = 9  # the hips turn back to the end of the mat on an inhale

# Steps of a flow that no single shape speaks of in the catalogue; common practice.
_FLOWING = """
all-fours crocodile | all-fours thunderbolt | bow crocodile | chair mountain
childs-pose high-kneel | constructive-rest reclined-twist
crescent-lunge runners-lunge | crescent-twist runners-lunge | crocodile all-fours
dancer mountain | downward-dog half-lift | five-pointed-star triangle
five-pointed-star warrior-two | garland half-lift | half-lift downward-dog | half-lift garland
half-lift plank | half-moon warrior-two | half-split plank | humble-warrior runners-lunge
lizard plank | low-lunge plank | low-plank cobra | mountain chair | pigeon three-legged-dog
plank crocodile | pyramid runners-lunge | reclined-twist constructive-rest
reverse-warrior runners-lunge | reverse-warrior triangle | revolved-side-angle runners-lunge
runners-lunge low-lunge | runners-lunge plank | runners-lunge pyramid
runners-lunge pyramid-with-flat-back | runners-lunge warrior-one | side-angle five-pointed-star
side-angle reverse-warrior | staff constructive-rest | standing-fold chair
standing-knee-lift arms-overhead | supine-cow-face constructive-rest
three-legged-dog runners-lunge | three-legged-dog pigeon
side-lunge wide-legged-half-lift | wide-legged-half-lift side-lunge
side-lunge five-pointed-star | side-lunge-with-arms-wide five-pointed-star
thunderbolt all-fours | tree arms-overhead
triangle five-pointed-star | triangle reverse-warrior | warrior-one runners-lunge
warrior-two five-pointed-star | warrior-two runners-lunge
"""


class Move(Struct, frozen=True, order=True):
    """One movement: the half breath it rides on and the shape it comes to, by its id."""

    breath: Breath
    shape: str


@cache
def shapes() -> Mapping[str, Shape]:
    """The catalogue's shapes in the order of their ids, so that every machine draws alike."""
    known = load().shapes
    return MappingProxyType({name: known[name] for name in sorted(known)})


@cache
def stance(shape: str) -> Stance:
    """Where the body is in a shape, as a passage is written: on the right, heading forward."""
    return shapes()[shape].place.at(Side.RIGHT, End.FRONT)


@cache
def _flowing() -> frozenset[tuple[str, str]]:
    pairs = (pair.split() for line in _FLOWING.split("\n") for pair in line.split("|"))
    return frozenset((pair[0], pair[1]) for pair in pairs if pair)


def easy(before: str, after: str) -> bool:
    """Whether the body gets from one shape to the other in half a breath."""
    found = way(stance(before), stance(after))
    return found.possible and found.effort <= 1


def goes_back(before: str, after: str) -> bool:
    """Whether a shape is one that leads into the one left: the way home is the way out."""
    shape = shapes()[before]
    return after in shape.before or after in shape.prepares


def _follows(before: str, after: str) -> bool:
    here, there = shapes()[before], shapes()[after]
    listed = after in here.after or after in here.undoes
    return listed or before in there.before or before in there.prepares


def _rides(before: str, after: str, breath: Breath) -> bool:
    """Whether the movement suits the half breath.

    On the way home from a shape both halves do, unless the body would open or rise on an exhale,
    or close on an inhale.
    """
    shape, here = shapes()[after], shapes()[before]
    if shape.breath in {"either", breath}:
        return breath is IN or not _rises(here, shape)
    if not goes_back(before, after):
        return False
    if breath is IN:
        closing = shape.spine in _CLOSED or shape.place.trunk in _LOW
        return not closing and not shape.enter.startswith(("lower", "sink"))
    arched = shape.place.trunk is Trunk.ARCHED or shape.place.hands is Hands.UP
    opens = arched or shape.spine == "axial extension"
    return not opens and not _rises(here, shape)


def _rises(here: Shape, there: Shape) -> bool:
    """Whether the trunk comes up out of a fold, on the feet or on the seat; a squat sinks."""
    if there.enter.startswith(("lower", "sink")):
        return False
    bases = {here.place.base, there.place.base}
    same = bases <= _ON_FEET or bases == {Base.SEAT}
    return same and here.place.trunk in _LOW | {Trunk.FLAT} and there.place.trunk in _HIGH


_LOW = frozenset({Trunk.FOLDED, Trunk.INVERTED})
_HIGH = frozenset({Trunk.UPRIGHT, Trunk.ARCHED})
_CLOSED = frozenset({"flexion", "rotation", "lateral"})
_ON_FEET = frozenset({Base.FEET, Base.FOOT, Base.FOOT_HAND})


@cache
def moves(before: str) -> tuple[tuple[Move, int], ...]:
    """Every movement that may follow a shape, with what it costs; sorted."""
    found: list[tuple[Move, int]] = []
    for after in shapes():
        if after == before:
            continue
        related = _follows(before, after) or (before, after) in _flowing()
        back = goes_back(before, after)
        if not (related or back) or not easy(before, after):
            continue
        found += [
            (Move(breath, after), _cost(before, after, breath) + (0 if related else BACK_COST))
            for breath in (IN, OUT)
            if _rides(before, after, breath)
        ]
    return tuple(found)


def _cost(before: str, after: str, breath: Breath) -> int:
    here, there = stance(before), stance(after)
    carried = WEIGHT_COST if region(here) is not region(there) else 0
    back = here.frame is Frame.LONG and there.frame is Frame.END and breath is IN
    loads = LOAD_COST if shapes()[after].loads and here.trunk is Trunk.INVERTED else 0
    return STEP_COST + carried + loads + (TURN_COST if back else 0)


class Here(Struct, frozen=True, order=True):
    """Where the class is: the shape, and the half breath that brought it there."""

    shape: str
    breath: Breath = OUT


def trail(here: Here, goal: Here, by: Collection[str]) -> tuple[Move, ...] | None:
    """The easiest row of movements to a shape on a half breath, through the shapes given.

    A movement to the shape one is in stands for half a breath in place. None where there is none.
    """
    heap: list[tuple[int, int, Here, tuple[Move, ...]]] = [(0, 0, here, ())]
    seen: set[Here] = set()
    while heap:
        cost, _, at, so_far = heapq.heappop(heap)
        if at == goal:
            return so_far
        if at in seen:
            continue
        seen.add(at)
        for there, more in _onward(at, goal.shape, by):
            if there not in seen:
                step = (*so_far, Move(there.breath, there.shape))
                heapq.heappush(heap, (cost + more, len(step), there, step))
    return None


def _onward(at: Here, goal: str, by: Collection[str]) -> Iterator[tuple[Here, int]]:
    yield Here(at.shape, at.breath.other), SAME_COST
    for move, cost in moves(at.shape):
        if move.breath is at.breath.other and (move.shape == goal or move.shape in by):
            yield Here(move.shape, move.breath), cost
