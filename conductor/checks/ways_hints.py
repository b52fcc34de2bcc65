"""Hints for ways: the free side, a turn, shapes to pass, or more time, as a plan writes them."""

from collections.abc import Iterator
from functools import lru_cache

from conductor.body.paths import shortest
from conductor.body.ways import way
from conductor.score.model import Moment
from conductor.shapes.catalogue import load
from conductor.shapes.model import Template
from conductor.sides import Breath, Side
from conductor.stance import Stance

BETWEEN = (
    *("downward-dog", "plank", "three-legged-dog", "all-fours", "standing-fold", "half-lift"),
    *("mountain", "runners-lunge", "low-lunge", "crescent-lunge", "garland", "high-kneel"),
    *("thunderbolt", "childs-pose", "staff", "easy-seat", "constructive-rest", "crocodile"),
    *("side-lying-rest", "cobra", "wide-legged-fold", "five-pointed-star"),
)
"""Shapes to pass on the way, those that classes use most first; common practice."""


def hint(before: Moment, moment: Moment, place: Template | None = None) -> str:
    """Propose what can be typed: the free side, shapes to pass, or more time."""
    if place and moment.side and _turns(before, moment, place):
        return "turn: other end"
    side = _free_side(before, moment, place) if place else None
    if side:
        return f"side: {side} (only that side is free from here)"
    trail = _trail(before.stance, moment.stance, moment.pass_side is Side.LEFT)
    if not trail:
        return "over: 1 breath"
    last = moment.breath.other if moment.breath is not Breath.FREE else Breath.IN
    if len(trail) == 1 and moment.breath is not Breath.FREE:
        return f"through: {trail[0]}"
    if moment.breath is Breath.FREE and _suits(trail, last) < _suits(trail, last.other):
        last = last.other
    typed = (f"- {breath}: {name}" for name, breath in _breathed(trail, last))
    return "lead what lies between: " + " ".join(typed)


def _breathed(trail: tuple[str, ...], last: Breath) -> Iterator[tuple[str, Breath]]:
    """Give each step its half breath, alternating up to the last one."""
    for at, name in enumerate(trail):
        yield name, last if (len(trail) - at) % 2 else last.other


def _suits(trail: tuple[str, ...], last: Breath) -> int:
    """How many of the steps come on their usual half breath then."""
    found = ((load().find(name), breath) for name, breath in _breathed(trail, last))
    return sum(1 for known, breath in found if known and known.shape.breath == breath)


def _turns(before: Moment, moment: Moment, place: Template) -> bool:
    """Whether a turn to the other end, feet where they are, brings the class there."""
    assert moment.side is not None  # noqa: S101 -- the caller asked only for shapes with sides
    apart = before.stance.front is not None and before.stance.heading is moment.stance.heading
    other = place.at(moment.side, moment.stance.heading.other, moment.stance.frame)
    found = way(before.stance, other)
    return apart and found.possible and found.effort <= 1


def _free_side(before: Moment, moment: Moment, place: Template) -> Side | None:
    """The other side of the shape, as the plan would write it, when that can be reached."""
    if moment.side is None or moment.decided != "written":
        return None
    other = place.at(moment.side.other, moment.stance.heading, moment.stance.frame)
    found = way(before.stance, other)
    if not found.possible or found.effort > 1:
        return None
    return moment.side if moment.pass_side is Side.LEFT else moment.side.other


@lru_cache(maxsize=256)
def _trail(before: Stance, after: Stance, mirrored: bool) -> tuple[str, ...]:
    """Names of the shapes to pass, with their side where they have one, as a plan writes them."""
    known = load().shapes
    found: dict[str, Stance] = {}
    for name in BETWEEN:
        shape = known[name]
        for side in Side if shape.sided else (Side.RIGHT,):
            written = side.other if mirrored else side
            label = f"{written} {shape.name}" if shape.sided else shape.name
            found.setdefault(label, shape.place.at(side, after.heading))
            if before.heading is not after.heading:
                here = shape.place.at(side, before.heading)
                found.setdefault(f"{label} (before the turn)", here)
    return shortest(before, after, found)
