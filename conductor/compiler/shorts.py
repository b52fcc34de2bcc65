"""Shorts: a movement in two to four words, for a class that has heard it in full."""

import re
from collections.abc import Iterator

from conductor.body.moves import Action, Do, Way
from conductor.compiler.phrases import BOTH, SHORT_MS, action_of, brief, clause, filled, fitting
from conductor.shapes.model import Shape
from conductor.sides import End, Side
from conductor.stance import Base

STEPS = (Do.STEP_FORWARD, Do.STEP_BACK, Do.KNEE_FORWARD, Do.LIFT_LEG, Do.LOWER_LEG, Do.LOWER_FOOT)
_KNEES = (Do.KNEE_DOWN, Do.KNEE_UP)
_STRIDES = frozenset({Do.STEP_BACK, Do.STEP_FORWARD})
_LEGGED = frozenset({"foot", "leg", "knee"})


def short(
    shape: Shape, side: Side | None, way: Way, before: Shape | None, heading: End, turns: bool
) -> str:
    """Word a movement in brief: the shape's name, with the limb before it where it has a choice."""
    return fitting(_choices(shape, side, way, before, heading, turns), SHORT_MS)


def _choices(
    shape: Shape, side: Side | None, way: Way, before: Shape | None, heading: End, turns: bool
) -> Iterator[str]:
    legs = action_of(way, STEPS)
    knee = None if shape.enter else action_of(way, _KNEES)
    if way.did(Do.TURN_ROUND):
        yield f"turn to the {heading}"
    elif "<" in shape.enter and side and (legs or not turns):
        yield from _sided(shape, side, before)
    elif legs and legs.side:
        yield from _step(shape, side, legs, before)
    elif legs and legs.kind in _STRIDES:
        yield f"{brief(legs)}, {shape.name}"
    elif side and shifts(shape, way):
        hand = f"{side} hand"
        yield from (f"{hand}, {shape.name}", f"{side} {shape.name}", f"{hand} down")
    elif knee:
        yield f"{brief(knee)}, {shape.name}"
    if side and shape.side_part in _LEGGED and before and not before.sided:
        yield f"{side} {shape.name}"
    yield shape.name
    if shape.enter and "<" not in shape.enter:
        yield clause(shape.enter)


def shifts(shape: Shape, way: Way) -> bool:
    """Whether the weight goes to one hand."""
    moves = way.did(Do.HAND_UP) or way.did(Do.SWITCH_HANDS)
    return bool(moves) and shape.place.base is Base.HAND_FEET


def _sided(shape: Shape, side: Side, before: Shape | None) -> Iterator[str]:
    """Word a shape whose own phrase names a side."""
    raw = clause(shape.enter)
    said = filled(raw, side)
    yield f"{said}, {shape.name}"
    if "<side>" not in raw:
        if _free(before):
            yield from (said, _bare(said))
        return
    if not shape.side_part:
        yield said
    else:
        yield f"{side} {shape.side_part}, {shape.name}"
    if " the " not in shape.name:
        yield f"{side} {shape.name}"
    yield from (said, _bare(said))


def _bare(said: str) -> str:
    """The phrase without its verb ("left leg over", "along the left leg")."""
    return re.sub(r"^\w+ (?:the )?", "", said)


def _free(before: Shape | None) -> bool:
    """Whether either leg could be the one that moves."""
    return before is None or (not before.sided and before.place.own is before.place.other)


def _step(shape: Shape, side: Side | None, legs: Action, before: Shape | None) -> Iterator[str]:
    one = shape.place.own is not shape.place.other
    if not one and legs.kind in _STRIDES:
        yield f"{BOTH[legs.kind]}, {shape.name}"
        return
    yield f"{brief(legs)}, {shape.name}"
    if legs.side is side and shape.side_part in _LEGGED:
        yield from (f"{side} {shape.side_part}, {shape.name}", f"{side} {shape.name}")
    if one and _free(before):
        yield brief(legs)
