"""A sitting in which somebody taps their breath: keys as they come, and what they tell so far."""

from conductor.breathing import keys
from conductor.breathing.measure import measured
from conductor.breathing.model import Half, Reading, Tap
from conductor.sides import Breath


class Session:
    """Collects key presses; `now` is always an argument, in ms of a clock that only goes on."""

    def __init__(self) -> None:
        self._events: list[Tap] = []
        self._known: tuple[tuple[Tap, ...], Reading] = ((), measured(()))

    def press(self, now: int, breath: Breath | None = None) -> None:
        """A key went down, or repeats because it is held: an inhale, an exhale, or either."""
        self._events.append(Tap(now, breath))

    def begin_anew(self) -> None:
        """Forget what was tapped."""
        self._events.clear()

    def taps(self, now: int | None = None) -> tuple[Tap, ...]:
        """What the keys stand for."""
        return keys.taps(self._events, now)

    def reading(self, now: int | None = None) -> Reading:
        """What the taps tell so far; worked out once for each new tap."""
        taps = self.taps(now)
        if self._known[0] != taps:
            self._known = taps, measured(taps)
        return self._known[1]

    def running(self, now: int) -> Half | None:
        """The half that is being breathed, as far as it has got; None before the first tap."""
        taps = self.taps(now)
        if not taps:
            return None
        last = taps[-1]
        return Half(last.at, max(now - last.at, 0), last.breath or self._turned(taps))

    def _turned(self, taps: tuple[Tap, ...]) -> Breath:
        """Which half begins with the last tap of one key for all: the other than the last known."""
        halves = self.reading(taps[-1].at).turns.halves
        before = [half for half in halves if half.at + half.ms <= taps[-1].at]
        if before and before[-1].at + before[-1].ms == taps[-1].at:
            return before[-1].breath.other
        return Breath.IN if len(taps) % 2 else Breath.OUT
