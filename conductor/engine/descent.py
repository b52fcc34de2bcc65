"""The shortest way down: through resting shapes to where the closing can be entered.

A search over stances. The class passes from one shape to the next only by movements of which the
body's ways say that half a breath is enough; each of them gets a whole breath here.
"""

from collections import deque
from functools import cache

from conductor.body.ways import way
from conductor.engine.course import Course
from conductor.score.model import Moment, Part, Score, Words
from conductor.shapes.files import read
from conductor.shapes.model import Shape
from conductor.sides import Breath, Side
from conductor.stance import Stance
from conductor.timing.holds import resized, retimed
from conductor.timing.infos import info
from conductor.timing.sayings import coming_down
from conductor.values import Struct, replace

UNHURRIED_MS = 15_000  # time enough to lie down from standing, at one's own breath

# Shapes to come down through: each can be rested in, but for the fold, by which standing is left.
THROUGH = (
    "standing-fold",
    "mountain",
    "downward-dog",
    "all-fours",
    "childs-pose",
    "thunderbolt",
    "easy-seat",
    "staff",
    "crocodile",
    "constructive-rest",
)


class Descent(Struct, frozen=True):
    """A way down: shapes to pass, and the moment of the closing that is then entered."""

    through: tuple[Shape, ...]
    entry: int


@cache
def resting() -> tuple[Shape, ...]:
    """The shapes to come down through, from the catalogue."""
    known = {shape.id: shape for shape in read()}
    return tuple(known[name] for name in THROUGH)


def way_down(course: Course, index: int) -> Descent:
    """The way down from a moment with the fewest movements, and of those the one of least time.

    Counted are shapes passed, and the movements of the closing from where it is entered to its
    rest. The closing from its beginning where no way is easy.
    """
    here = course.moments[index].stance
    breath = sum(course.breaths[index])
    stances = {shape.id: shape.place.at(Side.RIGHT, here.heading) for shape in resting()}
    found: list[tuple[int, int, int, tuple[str, ...]]] = []
    for stance, trail in _trails(here, stances):
        for entry in range(course.closing, rest_of(course) + 1):
            if _enters(stance, course.moments[entry]):
                moves, ms = _remaining(course, entry)
                found.append((len(trail) + moves, len(trail) * breath + ms, -entry, trail))
    if not found:
        return Descent((), course.closing)
    _, _, entry, trail = min(found)
    by_id = {shape.id: shape for shape in resting()}
    return Descent(tuple(by_id[name] for name in trail), -entry)


def _trails(here: Stance, stances: dict[str, Stance]) -> list[tuple[Stance, tuple[str, ...]]]:
    """Every resting shape that can be reached, each by one of its shortest trails."""
    found: list[tuple[Stance, tuple[str, ...]]] = [(here, ())]
    todo, left = deque(found), dict(stances)
    while todo:
        stance, trail = todo.popleft()
        for name, there in list(left.items()):
            if easy(stance, there):
                del left[name]
                found.append((there, (*trail, name)))
                todo.append(found[-1])
    return found


def easy(before: Stance, after: Stance) -> bool:
    """Whether half a breath is enough for the movement."""
    found = way(before, after)
    return found.possible and found.effort <= 1


def _enters(stance: Stance, moment: Moment) -> bool:
    if not moment.arriving:
        return False
    unhurried = moment.breath is Breath.FREE and moment.length >= UNHURRIED_MS
    return easy(stance, moment.stance) or (unhurried and way(stance, moment.stance).possible)


def _remaining(course: Course, entry: int) -> tuple[int, int]:
    """Movements and time (score ms) from an entry of the closing until its rest is reached."""
    rest = rest_of(course)
    moves = sum(moment.arriving for moment in course.moments[entry : rest + 1])
    return moves, course.starts[rest] - course.starts[entry]


def rest_of(course: Course) -> int:
    """The first moment of the final rest, or the last of the class."""
    for at in range(course.closing, len(course.moments)):
        hold = course.score.holds.get(course.moments[at].hold)
        if hold is not None and hold.rest:
            return at
    return len(course.moments) - 1


def with_descent(course: Course, index: int, down: Descent, pass_no: int) -> Score:
    """The score with the shapes of a way down led before its entry, each for a breath."""
    score, entry = course.score, down.entry
    if not down.through:
        return score
    like, here = course.moments[entry], course.moments[index].stance
    made = [
        Moment(
            id=f"down.{pass_no}.{number}",
            start=0,
            length=sum(course.breaths[index]),
            breath=Breath.FREE,
            shape=shape.id,
            side=None,
            decided="",
            stance=shape.place.at(Side.RIGHT, here.heading),
            words=Words(full=coming_down(shape.name).text, written=True),
            origin=like.origin,
            part=like.part,
        )
        for number, shape in enumerate(down.through)
    ]
    parts = enumerate(score.parts)
    moments = (*course.moments[:entry], *made, *course.moments[entry:])
    return replace(
        score,
        moments=retimed(moments, score.moments[0].start),
        parts=tuple(_shifted(part, number, like.part, len(made)) for number, part in parts),
        shapes={**{shape.id: info(shape) for shape in down.through}, **score.shapes},
    )


def _shifted(part: Part, number: int, at: int, by: int) -> Part:
    first = part.first + by if number > at else part.first
    return replace(part, first=first, last=part.last + by if number >= at else part.last)


def shorter_rest(course: Course, ends: int) -> Score | None:
    """The score with as much less final rest as it takes to end at `ends` (score ms).

    Never less than its least; None where there is time for all of it, or nothing to give.
    """
    hold = course.score.holds.get(course.moments[rest_of(course)].hold)
    over = course.score.length - ends
    if hold is None or not hold.rest or over <= 0:
        return None
    unit = 1 if hold.timed else hold.unit
    amount = max(hold.amount - -(-over // unit), hold.least)
    return resized(course.score, {hold.id: amount}) if amount < hold.amount else None
