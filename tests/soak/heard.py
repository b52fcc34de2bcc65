"""What a recording holds, by the class's own clock: where it is loud, how high, how smooth."""

from __future__ import annotations

import time
from dataclasses import dataclass
from statistics import linear_regression, median
from typing import Any

import numpy as np

from tests.sound import pulse

BLOCK = 220  # frames, 5 ms: how finely loud and quiet are told apart
LOUD = 400  # of 32 768
GAP_MS = 40.0  # quiet for less than this is still the same sound
APART_MS = time.clock_gettime(time.CLOCK_BOOTTIME) * 1000 - time.monotonic() * 1000


@dataclass(frozen=True)
class Stretch:
    """A stretch of sound, ms."""

    start: float
    end: float


@dataclass(frozen=True)
class Heard:
    """A whole recording. Times are ms of the class's clock after the recorder's own delay."""

    samples: Any  # numpy array of 16-bit samples
    zero: float  # ms at which frame 0 was recorded
    per_frame: float  # ms
    stretches: tuple[Stretch, ...]

    def frame(self, at: float) -> int:
        """The frame recorded at a time."""
        return round((at - self.zero) / self.per_frame)

    def hertz(self, start: float, end: float) -> float:
        """How high a lone tone between two times is, by its crossings of zero."""
        part = self.samples[self.frame(start) : self.frame(end)]
        rising = np.flatnonzero((part[:-1] < 0) & (part[1:] >= 0))
        if len(rising) < 2:
            return 0.0
        return float((len(rising) - 1) * pulse.RATE / (rising[-1] - rising[0]))

    def greatest_step(self) -> tuple[int, float]:
        """The greatest step from sample to sample, and when."""
        steps = np.abs(np.diff(self.samples.astype(np.int32)))
        place = int(steps.argmax())
        return int(steps[place]), self.zero + place * self.per_frame

    def last_loud(self, start: float, end: float) -> float | None:
        """The end of the last sound between two times; None when it is quiet there."""
        part = np.abs(self.samples[self.frame(start) : self.frame(end)].astype(np.int32))
        loud = np.flatnonzero(part > LOUD)
        return start + float(loud[-1] + 1) * self.per_frame if len(loud) else None


def heard(recorder: pulse.Recorder) -> Heard:
    """The recording so far; its clock's own slope is taken out by the stamps of its pieces."""
    stamps = list(recorder.stamps)
    samples = np.array(recorder.samples[: stamps[-1][1]], dtype=np.int16)
    late = stamps[len(stamps) // 10 :]
    per_frame = 1000 * linear_regression([n for _, n in late], [at for at, _ in late]).slope
    zero = median(1000 * at - n * per_frame for at, n in late) + APART_MS
    return Heard(samples, zero, per_frame, _stretches(samples, zero, per_frame))


def _stretches(samples: Any, zero: float, per_frame: float) -> tuple[Stretch, ...]:
    blocks = len(samples) // BLOCK
    loud = np.abs(samples[: blocks * BLOCK].astype(np.int32)).reshape(blocks, BLOCK).max(axis=1)
    places = np.flatnonzero(loud > LOUD)
    if not len(places):
        return ()
    most = GAP_MS / (BLOCK * per_frame)
    breaks = np.flatnonzero(np.diff(places) > most)
    firsts = np.concatenate(([places[0]], places[breaks + 1]))
    lasts = np.concatenate((places[breaks], [places[-1]]))
    found = []
    for first, last in zip(firsts, lasts, strict=True):
        within = np.flatnonzero(np.abs(samples[first * BLOCK : (first + 1) * BLOCK]) > LOUD)
        start = first * BLOCK + int(within[0])
        found.append(Stretch(zero + start * per_frame, zero + float(last + 1) * BLOCK * per_frame))
    return tuple(found)
