"""A class and the clock on the wall: when it must be over, and what beginning now would change."""

from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from conductor.cli.how import How
from conductor.engine.landing import begin_now
from conductor.engine.led import Naming
from conductor.engine.moves import RUN_IN_MS
from conductor.fit.veto import Checked
from conductor.score.model import Lengths, Score
from conductor.settings import Settings

if TYPE_CHECKING:
    from conductor.cli.opening import Opened


def left_ms(how: How) -> int | None:
    """How much of its own time a class has until it must be over; None where it need not."""
    if how.end is None:
        return None
    left = (how.end - datetime.now().astimezone()) / timedelta(milliseconds=1)
    return round(left * how.speed)


def named(how: How, at: int) -> Naming | None:
    """What the wall's clock shows at a `now` of the class, if it is `at` (ms) now.

    A class that runs faster has no clock on the wall.
    """
    if how.speed != 1.0:
        return None
    zero = datetime.now().astimezone() - timedelta(milliseconds=at)
    return lambda now: f"{zero + timedelta(milliseconds=now):%H:%M}"


def checked(opened: "Opened", lengths: Lengths, settings: Settings) -> Checked:
    """The step that fits a class, watched over by the check."""
    return Checked(opened.shapes, lengths, settings, settings.level)


def said_now(score: Score, how: How, refitting: Checked) -> str:
    """What it means to begin the class now; "" where it has no end to meet."""
    left = left_ms(how)
    if left is None or how.broken:
        return ""
    return begin_now(score, left - RUN_IN_MS, refitting)
