"""Which side is owed: led for less time than its mate, with nothing more of it to come.

Counted in the time of the score and by passes: what has been led of each, and what is to come.
While a class goes on by itself the sum of the two stays, so only commands change what is owed.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping

from conductor.engine.course import Course
from conductor.engine.led import Led
from conductor.engine.model import Owed, State
from conductor.score.model import Moment
from conductor.sides import Side
from conductor.values import replace

OWED_MS = 20_000  # a breath or two more on one side may be meant, or come of a stop

Sides = Mapping[str, int]
"""How long each pass has been led (score ms), by its key."""


def credited(led: Led) -> Led:
    """The moment has been led to its end: its pass has so much more."""
    moment = led.course.moments[led.index]
    if not moment.pass_key:
        return led
    sides = {**led.sides, moment.pass_key: led.sides.get(moment.pass_key, 0) + moment.length}
    return replace(led, sides=sides)


def uncredited(led: Led, to: int) -> Led:
    """A stop broke into it: what is led again from moment `to` on counts once."""
    again = passes_in(led.course.moments[to : led.index])
    sides = {key: max(ms - again.get(key, 0), 0) for key, ms in led.sides.items()}
    return replace(led, sides=sides)


def passes_in(moments: Iterable[Moment]) -> Sides:
    """How long each pass is in some moments (score ms)."""
    found: dict[str, int] = defaultdict(int)
    for moment in moments:
        if moment.pass_key:
            found[moment.pass_key] += moment.length
    return found


def exchanged(sides: Sides, one: str, other: str) -> Sides:
    """It was the other side all along."""
    return {**sides, one: sides.get(other, 0), other: sides.get(one, 0)}


def owing(led: Led) -> tuple[Owed, ...]:
    """The sides that are owed, the one owed most first."""
    over = led.state is State.FINISHED
    coming = passes_in(() if over else led.course.moments[led.index :])
    owed: dict[Side, int] = defaultdict(int)
    for key, mate, side in _pairs(led.course):
        mine, theirs = (led.sides.get(one, 0) + coming.get(one, 0) for one in (key, mate))
        if theirs - mine >= OWED_MS:
            owed[side] += theirs - mine
    return tuple(Owed(side, ms) for side, ms in sorted(owed.items(), key=lambda one: -one[1]))


def _pairs(course: Course) -> tuple[tuple[str, str, Side], ...]:
    """Each pass with two sides, its mate and its own side."""
    found: dict[str, tuple[str, str, Side]] = {}
    for index, moment in enumerate(course.moments):
        if moment.pass_key and moment.pass_side and moment.pass_key not in found:
            mate = course.mate(index)
            if mate:
                found[moment.pass_key] = (moment.pass_key, mate, moment.pass_side)
    return tuple(found.values())
