"""One breath more or fewer in a stay, and in its mates as long as they are still to come."""

from conductor.engine.course import Course
from conductor.score.model import Hold, Score
from conductor.timing.holds import resized
from conductor.values import Struct, replace


class Stay(Struct, frozen=True):
    """The stay to change: its hold, its mates still to come, and those led already."""

    hold: Hold
    mates: tuple[str, ...]
    led: tuple[str, ...]


def stay(course: Course, index: int) -> Stay | None:
    """The stay a moment is in, or the one that follows the movement into its shape."""
    moments = course.moments
    name = moments[index].hold
    if not name and index + 1 < len(moments) and moments[index + 1].shape == moments[index].shape:
        name = moments[index + 1].hold
    hold = course.score.holds.get(name)
    if hold is None:
        return None
    begun = {mate: course.hold_first.get(mate, -1) for mate in hold.mates if mate != hold.id}
    coming = tuple(mate for mate, first in begun.items() if first > index)
    led = tuple(mate for mate, first in begun.items() if 0 <= first <= index)
    return Stay(hold, coming, led)


def breath_ms(score: Score, hold: Hold) -> int:
    """One breath of a stay."""
    return hold.unit or score.meta.inhale + score.meta.exhale


def left(course: Course, index: int, hold: Hold, pos: int) -> int:
    """How many whole breaths of it could still be taken out at score time `pos`."""
    last = course.last[index] if course.moments[index].hold == hold.id else None
    if hold.timed:
        spent = pos - course.starts[index] if last is not None else 0
        return max(hold.amount - spent - 1, 0) // breath_ms(course.score, hold)
    if last is None:
        return hold.amount - (0 if hold.half else 1)
    kept = index - course.first[index] + 1  # half breaths that stay
    return (2 * hold.amount + hold.half - max(kept, 1)) // 2


def changed(course: Course, index: int, here: Stay, by: int) -> Score:
    """The score with `by` breaths more or fewer in the stay; its mates to come become equal."""
    score, timed = course.score, here.hold.timed
    step = by * (breath_ms(score, here.hold) if timed else 1)
    amounts = dict.fromkeys((here.hold.id, *here.mates), here.hold.amount + step)
    new = resized(score, amounts, index if timed else index + 1)
    holds = {**new.holds, **{name: _as_asked(new.holds[name]) for name in amounts}}
    return _renumbered(replace(new, holds=holds), index, course.first[index], by, timed)


def _as_asked(hold: Hold) -> Hold:
    """What the teacher asked for holds: no fit to a time takes it back, or gives it again."""
    return replace(hold, least=hold.amount, most=hold.amount)


def _renumbered(score: Score, index: int, first: int, by: int, timed: bool) -> Score:
    """The breaths led already say of how many they are now."""
    moments = list(score.moments)
    if timed or not moments[index].of_stay[1]:
        return score
    for at in range(first, index + 1):
        breath, of = moments[at].of_stay
        moments[at] = replace(moments[at], of_stay=(breath, of + by))
    return replace(score, moments=tuple(moments))
