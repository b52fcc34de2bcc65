"""The shortest way down: where in its closing a class can lie down from the shape it is in."""

from conductor.body.ways import way
from conductor.engine.course import Course
from conductor.sides import Breath

UNHURRIED_MS = 15_000  # time enough to lie down from standing, at one's own breath


def way_down(course: Course, index: int) -> int:
    """The last movement before the final rest that can be made from the moment `index`.

    One movement, or time at one's own breath; the closing from its beginning where there is none.
    """
    here = course.moments[index].stance
    for at in range(_rest(course), course.closing - 1, -1):
        moment = course.moments[at]
        unhurried = moment.breath is Breath.FREE and moment.length >= UNHURRIED_MS
        if moment.arriving and (unhurried or way(here, moment.stance).effort <= 1):
            return at
    return course.closing


def _rest(course: Course) -> int:
    """The first moment of the final rest, or the last of the class."""
    for at in range(course.closing, len(course.moments)):
        hold = course.score.holds.get(course.moments[at].hold)
        if hold is not None and hold.rest:
            return at
    return len(course.moments) - 1
