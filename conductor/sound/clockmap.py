"""The clock map: which frame of the stream belongs to which time; offset and drift live here."""

from collections import deque

RATE = 44_100
MS_FRAMES = RATE / 1000
STEP_MS = 20.0  # more than this at once is an underrun, less is the clock's own wandering
STEP_SPAN_MS = 1000.0  # an underrun stays, a late callback is followed by early ones
STEP_COUNT = 4  # callbacks that must agree on a step
EARLY_MS = 5.0  # a callback this early proves the map wrong: they come late, never early
BUCKET_MS = 1000.0
WINDOW = 15  # buckets in which the earliest callback is looked for
SETTLING_MS = 3000.0  # steps so soon after a stream's irregular start are not counted
ROUGH_MS = 80.0  # two callbacks in a row this close together are no longer the start
FOLLOW_MS = 8000.0  # time in which most of a small difference is followed
DRIFT = 300e-6  # the fastest a map moves: real clocks stay below 200 ppm


class ClockMap:
    """Follows a stream by the times at which its frames were asked for.

    A callback may come late but never early, so the earliest ones of the last seconds tell the
    stream's true line. A slow slope of it is the device's clock and is followed; a step that
    stays is an underrun: it is counted, and what has not begun is placed by the new line.
    Times are ms and any fraction of them.
    """

    def __init__(self) -> None:
        self.underruns = 0
        self._line: float | None = None  # ms at which frame 0 was due
        self._since: float | None = None  # ms at which the stream had settled
        self._last = 0.0
        self._recent: deque[tuple[float, float]] = deque()  # (at, due), the last second's
        self._buckets: deque[tuple[int, float]] = deque(maxlen=WINDOW)

    def observe(self, frame: int, at: float) -> None:
        """The stream asked for `frame` at `at` ms."""
        self._keep(at, at - frame / MS_FRAMES)
        if self._line is None or self._since is None:
            self._line, self._since = self._settled(), at
        elif (step := self._step(self._line)) is not None:
            self.underruns += at - self._since > SETTLING_MS
            self._line = self._restart(at, step)
        else:
            self._line = self._follow(self._line, at - self._last)
        self._last = at

    def frame_at(self, at: float) -> int | None:
        """The frame that is asked for at `at` ms; None while the stream has not settled."""
        if self._line is None:
            return None
        return round((at - self._line) * MS_FRAMES)

    def _keep(self, at: float, due: float) -> None:
        self._recent.append((at, due))
        while len(self._recent) > STEP_COUNT and self._recent[1][0] <= at - STEP_SPAN_MS:
            self._recent.popleft()
        bucket = int(at // BUCKET_MS)
        if self._buckets and self._buckets[-1][0] == bucket:
            due = min(due, self._buckets.pop()[1])
        self._buckets.append((bucket, due))

    def _restart(self, at: float, line: float) -> float:
        """Forget what was observed of an older line."""
        self._buckets.clear()
        self._buckets.append((int(at // BUCKET_MS), line))
        return line

    def _settled(self) -> float | None:
        """Take two callbacks that agree for the line; the very first only fills the buffer."""
        if len(self._recent) < 3:
            return None
        (_, one), (at, two) = self._recent[-2], self._recent[-1]
        return self._restart(at, min(one, two)) if abs(one - two) < ROUGH_MS else None

    def _step(self, line: float) -> float | None:
        """The new line, if the callbacks of the last second agree that it has moved at once."""
        if len(self._recent) < STEP_COUNT:
            return None
        if self._recent[-1][0] - self._recent[0][0] < STEP_SPAN_MS:
            return None
        earliest = min(due for _, due in self._recent)
        return earliest if earliest > line + STEP_MS else None

    def _follow(self, line: float, passed: float) -> float:
        """Move the line towards the earliest callbacks, no faster than a clock drifts."""
        target = min(due for _, due in self._buckets)
        if target < line - EARLY_MS:
            return target
        wish = (target - line) * min(1.0, passed / FOLLOW_MS)
        limit = passed * DRIFT
        return line + max(-limit, min(limit, wish))
