"""Where the time went: the difference between led and planned, split so that it adds up."""

from collections import defaultdict
from collections.abc import Mapping

from conductor.run.review.model import Doing, Ending
from conductor.run.review.story import Story
from conductor.score.model import Moment, Score

STOPPED, HELD, AWAY, COMING = (
    str(one) for one in (Doing.STOPPED, Doing.HELD, Doing.AWAY, Doing.COMING)
)
LONGER, SHORTER = "longer stays", "shorter stays"
AGAIN, BREATH = "led again", "slower breath"
LEFT_OUT, NOT_REACHED = "left out", "not reached"
KINDS = (
    *(STOPPED, HELD, AWAY, COMING, LONGER, AGAIN, BREATH),
    *(SHORTER, LEFT_OUT, NOT_REACHED),
)


def account(story: Story, score: Score) -> dict[str, int]:
    """The ms of each kind, 0 ones too; they add up to led less planned.

    A pace below that of the plan makes `slower breath` negative; `not reached` is what lay after
    the end of a class that was ended or broke off.
    """
    found = dict.fromkeys(KINDS, 0)
    led: dict[str, int] = defaultdict(int)
    entries: dict[str, int] = defaultdict(int)
    for one in story.stretches:
        if one.doing is not Doing.LED:
            found[str(one.doing)] += one.length
            continue
        led[one.moment] += one.scaled
        entries[one.moment] += 1
        found[BREATH] += one.length - one.scaled
    planned = {one.id: one for one in score.moments}
    for name, ms in led.items():
        if name not in planned:
            found[LONGER] += ms
    over = last_reached(story, score) + (story.ending is Ending.FINISHED)
    begun = {one.hold for one in score.moments if one.hold and one.id in led}
    for index, moment in enumerate(score.moments):
        by = led.get(moment.id, 0) - moment.length
        found[_kind(moment, by, entries, begun, index >= over)] += by
    return found


def last_reached(story: Story, score: Score) -> int:
    """The index of the last moment before the class came to its end."""
    if story.ending is Ending.FINISHED:
        return len(score.moments) - 1
    led = {one.moment for one in story.stretches}
    return max((at for at, one in enumerate(score.moments) if one.id in led), default=-1)


def _kind(
    moment: Moment, by: int, entries: Mapping[str, int], begun: set[str], beyond: bool
) -> str:
    if by > 0:
        return AGAIN if entries[moment.id] > 1 else LONGER
    if beyond:
        return NOT_REACHED
    return SHORTER if moment.hold in begun else LEFT_OUT
