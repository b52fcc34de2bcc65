"""How long each stay was really led, in whole breaths or ms, its holds included."""

from collections.abc import Collection, Iterator, Sequence

from conductor.engine.model import Do
from conductor.run.review.model import Doing, Ending, StayLed, Stretch
from conductor.run.review.story import KEPT, TAKEN_BACK, Story
from conductor.score.model import Hold, Score
from conductor.values import Struct

_TO_THE_CLOCK = (Do.LAND, Do.REST, KEPT)  # after these a length is no longer the teacher's wish


class _Run(Struct):
    """One time through a stay: its stretches in order."""

    hold: str
    stretches: list[Stretch]


def stays(story: Story, score: Score, to_the_clock: bool = False) -> tuple[StayLed, ...]:
    """Every stay that was entered, in order; of several times through one the longest.

    `to_the_clock`: the class was fitted to a time of day before it began.
    """
    fits = [one.at for one in story.asked if one.do in _TO_THE_CLOCK]
    fitted = 0 if to_the_clock else min(fits, default=None)
    returns = {one.at for one in story.asked if one.do == TAKEN_BACK}
    found: dict[str, StayLed] = {}
    for run, last in _runs(story.stretches):
        hold = score.holds.get(run.hold)
        if hold is None:
            continue
        broken = last and story.ending is not Ending.FINISHED
        sure = not broken and not _returned(run, returns) and _sure(run, fitted)
        led = _stay(run, hold, sure)
        before = found.get(hold.id)
        if before is None or led.led > before.led:
            found[hold.id] = led
    return tuple(found.values())


def _sure(run: _Run, fitted: int | None) -> bool:
    away = any(one.doing is Doing.AWAY for one in run.stretches)
    return not away and (fitted is None or run.stretches[-1].end <= fitted)


def _returned(run: _Run, returns: Collection[int]) -> bool:
    """Whether it ended where the command that had led to it was taken back."""
    led = [one for one in run.stretches if one.doing in (Doing.LED, Doing.HELD)]
    return bool(led) and led[-1].end in returns


def _runs(stretches: Sequence[Stretch]) -> Iterator[tuple[_Run, bool]]:
    """Each time through a stay, and whether it was what the class did last.

    A hold in the movement that leads into the shape belongs to the stay that follows.
    """
    run: _Run | None = None
    waiting: list[Stretch] = []
    for at, one in enumerate(stretches):
        goes_on = run is not None and one.hold == run.hold and not _anew(run, one)
        if run is not None and not goes_on:
            yield run, False
            run = None
        if not one.hold:
            same = waiting and (waiting[-1].shape, waiting[-1].side) == (one.shape, one.side)
            waiting = [*(waiting if same else ()), one] if one.doing is Doing.HELD else []
        elif run is None:
            mine = [wait for wait in waiting if (wait.shape, wait.side) == (one.shape, one.side)]
            run, waiting = _Run(one.hold, [*mine, one]), []
        else:
            run.stretches.append(one)
        if run is not None and at + 1 == len(stretches):
            yield run, True


def _anew(run: _Run, one: Stretch) -> bool:
    """Whether the stay is begun once more: its first moment comes again after others of it."""
    led = [other.moment for other in run.stretches if other.hold]
    return bool(led) and one.moment == led[0] and led[-1] != led[0]


def _stay(run: _Run, hold: Hold, sure: bool) -> StayLed:
    ms = sum(one.scaled for one in _whole(run.stretches, hold))
    breath = max(hold.unit, 1)
    half = hold.inhale if hold.half else 0
    led = ms if hold.timed else max(round((ms - half) / breath), 0)
    here = run.stretches[-1]
    return StayLed(
        hold=hold.id,
        shape=here.shape,
        side=here.side,
        timed=hold.timed,
        rest=hold.rest,
        planned=hold.amount,
        led=led,
        sure=sure,
    )


def _whole(stretches: Sequence[Stretch], hold: Hold) -> Iterator[Stretch]:
    """What was led or held; a half breath that began anew after a stop counts once."""
    for at, one in enumerate(stretches):
        if one.doing not in (Doing.LED, Doing.HELD):
            continue
        later = stretches[at + 1 :]
        again = any(other.doing is Doing.LED and other.moment == one.moment for other in later)
        paused = bool(later) and later[0].doing in (Doing.STOPPED, Doing.AWAY)
        if hold.timed or not (again and paused):
            yield one
