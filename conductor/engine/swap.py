"""We are on the other side: a pass and its mate change places in the score."""

from conductor.engine.course import Course
from conductor.score.model import Moment, Score
from conductor.timing.holds import retimed
from conductor.values import replace


def swapped(course: Course, index: int) -> tuple[Score, int]:
    """The score with this moment's pass and its mate exchanged, and where `index` is then.

    Moments keep their ids, so a cue or a stay belongs to the same words and side as before.
    """
    moments = course.moments
    mine = course.passes[moments[index].pass_key]
    theirs = course.passes[course.mate(index)]
    if len(mine) == len(theirs):
        new = _in_place(moments, mine, theirs)
        return replace(course.score, moments=retimed(new)), index
    new, at = _spliced(moments, mine, theirs, index)
    return replace(course.score, moments=retimed(new)), at


def _in_place(
    moments: tuple[Moment, ...], mine: tuple[int, ...], theirs: tuple[int, ...]
) -> list[Moment]:
    new = list(moments)
    for a, b in zip(mine, theirs, strict=True):
        new[a] = replace(moments[b], part=moments[a].part)
        new[b] = replace(moments[a], part=moments[b].part)
    return new


def _spliced(
    moments: tuple[Moment, ...], mine: tuple[int, ...], theirs: tuple[int, ...], index: int
) -> tuple[list[Moment], int]:
    """Passes of unequal length (a step on one side only): exchange them as whole stretches."""
    early, late = sorted((mine, theirs))
    between = moments[early[-1] + 1 : late[0]]
    new = [
        *moments[: early[0]],
        *moments[late[0] : late[-1] + 1],
        *between,
        *moments[early[0] : early[-1] + 1],
        *moments[late[-1] + 1 :],
    ]
    offset = min(mine.index(index), len(theirs) - 1)
    if mine == early:
        return new, early[0] + offset
    return new, early[0] + len(late) + len(between) + offset


def unswapped(before: Course, exchanged: int, now: Course, index: int) -> int:
    """Where `index` of a course is in the one before a swap, in which moment `exchanged` stood.

    Within the exchanged passes that is the same place on the other side: the bodies stay.
    """
    one = before.passes[before.moments[exchanged].pass_key]
    other = before.passes[before.mate(exchanged)]
    while now.moments[index].id not in before.index_of:  # a breath that the clock has added since
        index -= 1
    at = before.index_of[now.moments[index].id]
    for here, there in ((one, other), (other, one)):
        if at in here:
            return there[min(here.index(at), len(there) - 1)]
    return at
