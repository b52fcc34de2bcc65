"""Clocks. `now` is integer milliseconds that count sleep; only the edges own a real one."""

import time
from typing import Protocol


class Clock(Protocol):
    """Two readings in ms: one that goes on while the machine sleeps and one that may not.

    Their difference is how a sleep is noticed.
    """

    def now(self) -> int:
        """Milliseconds, counting sleep."""
        ...

    def awake(self) -> int:
        """Milliseconds that do not count sleep, where the system tells them apart."""
        ...


class SystemClock:
    """The machine's clock; CLOCK_BOOTTIME where there is one (Linux), else monotonic time."""

    def __init__(self) -> None:
        self._boot = getattr(time, "CLOCK_BOOTTIME", None)

    def now(self) -> int:
        """Milliseconds, counting sleep where the system can."""
        if self._boot is None:
            return time.monotonic_ns() // 1_000_000
        return time.clock_gettime_ns(self._boot) // 1_000_000

    def awake(self) -> int:
        """Milliseconds of monotonic time."""
        return time.monotonic_ns() // 1_000_000


class SetClock:
    """A clock that is set by hand, for tests and for leading without waiting."""

    def __init__(self, now: int = 0) -> None:
        self._now = now
        self._awake = now

    def now(self) -> int:
        """The time it was set to."""
        return self._now

    def awake(self) -> int:
        """As `now`, less what was slept."""
        return self._awake

    def forward(self, ms: int) -> None:
        """Let time pass; it never goes back."""
        if ms < 0:
            raise ValueError(f"time does not go back: {ms} ms")
        self._now += ms
        self._awake += ms

    def sleep(self, ms: int) -> None:
        """Let the machine sleep: `now` moves on and `awake` does not."""
        self._now += ms
