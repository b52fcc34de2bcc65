"""What several classes of a plan ask of it: stays that were led longer or shorter each time."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from difflib import SequenceMatcher

from conductor.run.review.model import Review, StayLed
from conductor.score.model import Hold, Moment, Score
from conductor.spans import Span
from conductor.values import Struct

CLASSES = 3  # a habit, not an accident
TIMED_STEP_MS = 10_000  # a stay in time is written to this, and less is no wish
NEVER_BEYOND = 2  # times as long, or that part as long: more is another class


class Reviewed(Struct, frozen=True):
    """A review and the score the class was led from."""

    review: Review
    score: Score


class Wish(Struct, frozen=True):
    """A stay of the plan, at its place, that should be `by` breaths (or ms, `timed`) longer.

    `planned` is its length in the score; `led` are those of the classes, the newest first. `holds`
    are the stays of the score that this one place makes: both sides, every round, every call.
    """

    place: Span
    holds: tuple[str, ...]
    shape: str
    timed: bool
    half: bool
    planned: int
    led: tuple[int, ...]
    by: int

    @property
    def wanted(self) -> int:
        """Its length as it would be planned."""
        return self.planned + self.by


def wishes(
    score: Score, classes: Sequence[Reviewed], least: int = CLASSES, most: int = CLASSES
) -> tuple[Wish, ...]:
    """The wishes of the newest `most` classes, newest first in `classes`, in the plan's order.

    A class counts for a stay where it had been planned as it is now, was led to its end and by
    nobody's clock; at least so many must. The middle one of them is taken, so that one accident
    changes nothing, and a rest is never made shorter.
    """
    found: dict[Span, list[tuple[Hold, Moment]]] = defaultdict(list)
    seen: set[str] = set()
    for moment in score.moments:
        hold = score.holds.get(moment.hold)
        if hold is not None and hold.id not in seen:
            seen.add(hold.id)
            found[moment.origin].append((hold, moment))
    led = [_led(one, score) for one in classes]
    told = (_wish(place, those, led, score, least, most) for place, those in found.items())
    return tuple(wish for wish in told if wish is not None)


def _led(one: Reviewed, score: Score) -> Mapping[str, StayLed]:
    """The stays of a class by their names in the score as it is now."""
    now_of = aligned(one.score, score)
    stays = (stay for stay in one.review.stays if stay.sure)
    return {now_of[stay.hold]: stay for stay in stays if stay.hold in now_of}


def aligned(old: Score, new: Score) -> Mapping[str, str]:
    """Which stay of another score is which of this one, by their order and what they are."""
    if old is new:
        return {name: name for name in new.holds}
    before, after = _marks(old), _marks(new)
    marks = [mark for _, mark in before], [mark for _, mark in after]
    matcher = SequenceMatcher(None, *marks, autojunk=False)
    return {
        before[block.a + at][0]: after[block.b + at][0]
        for block in matcher.get_matching_blocks()
        for at in range(block.size)
    }


def _marks(score: Score) -> list[tuple[str, tuple[object, ...]]]:
    first: dict[str, Moment] = {}
    for moment in score.moments:
        if moment.hold in score.holds:
            first.setdefault(moment.hold, moment)
    return [(name, _mark(score.holds[name], moment)) for name, moment in first.items()]


def _mark(hold: Hold, moment: Moment) -> tuple[object, ...]:
    """What a stay is, whatever was written around it and however long."""
    return moment.shape, moment.side, moment.round, hold.timed, hold.half


def _wish(
    place: Span,
    those: Sequence[tuple[Hold, Moment]],
    led: Sequence[Mapping[str, StayLed]],
    score: Score,
    least: int,
    most: int,
) -> Wish | None:
    hold, moment = those[0]
    classes = []
    for stays in led:
        amounts = [
            stays[one.id].led - one.amount
            for one, _ in those
            if one.id in stays and stays[one.id].planned == one.amount
        ]
        if amounts:
            classes.append(_middle(amounts))
    newest = classes[:most]
    if len(newest) < max(least, 1):
        return None
    by = _within_reason(_middle(newest), hold)
    if not by:
        return None
    info = score.shapes.get(moment.shape)
    return Wish(
        place=place,
        holds=tuple(one.id for one, _ in those),
        shape=info.name if info else moment.shape,
        timed=hold.timed,
        half=hold.half,
        planned=hold.amount,
        led=tuple(hold.amount + one for one in newest),
        by=by,
    )


def _middle(values: Sequence[int]) -> int:
    """The middle one; of two in the middle the one that changes less."""
    order = sorted(values)
    return min(order[(len(order) - 1) // 2], order[len(order) // 2], key=abs)


def _within_reason(by: int, hold: Hold) -> int:
    """A change that can be written: whole steps, within the plan's own bounds or half to double.

    A rest only grows: that it was cut short is no wish.
    """
    if hold.timed:
        by = round(by / TIMED_STEP_MS) * TIMED_STEP_MS
    if hold.rest or hold.keep:
        by = max(by, 0)
    low = max(-(-hold.amount // NEVER_BEYOND), 0 if hold.half else 1)
    high = max(hold.amount * NEVER_BEYOND, 1)
    if hold.stretchable:
        low, high = hold.least, hold.most
    return min(max(hold.amount + by, low), high) - hold.amount
