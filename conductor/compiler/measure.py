"""How long a part of a plan lasts, by what it is made of, without making a moment of it.

Half breaths are counted by the breath they follow, stays by the line they are written on: so the
length under another breath, or with other stays, is a sum of a few products.
"""

from collections.abc import Mapping

from conductor.compiler.courses import Breath as Lengths
from conductor.compiler.model import Bit
from conductor.compiler.time import Timed, hold_of
from conductor.sides import Breath
from conductor.spans import Span
from conductor.values import Struct, field

Beat = tuple[Span | None, int, int]
"""Where a breath that may vary is written (or None), and its inhale and exhale in ms."""
Breaths = Mapping[Span, Lengths]


class Line(Struct):
    """A stay as written, all the times it is led: so many breaths (or ms) within its bounds.

    `times` is how often at each beat; `half` says that half a breath more belongs to it.
    """

    amount: int
    least: int
    most: int
    timed: bool
    half: bool
    times: dict[Beat, int] = field(default_factory=dict)

    def step(self, breaths: Breaths) -> int:
        """By how many ms the class grows for one more of its amount."""
        if self.timed:
            return sum(self.times.values())
        return sum(sum(lasting(beat, breaths)) * times for beat, times in self.times.items())


class Measure(Struct):
    """What a part is made of: plain time (ms), half breaths in and out by beat, stays by line."""

    ms: int = 0
    halves: dict[Beat, list[int]] = field(default_factory=dict)
    lines: dict[Span, Line] = field(default_factory=dict)
    last: Breath = Breath.OUT

    def length(self, breaths: Breaths, which: str = "amount") -> int:
        """How long it lasts with every stay at its `amount`, its `least` or its `most` (ms)."""
        return self.sum(which).length(breaths)

    def sum(self, which: str) -> "Sum":
        """Its length with every stay at its `amount`, `least` or `most`, at any breath."""
        found = Sum(self.ms, {beat: list(counts) for beat, counts in self.halves.items()})
        for line in self.lines.values():
            amount: int = getattr(line, which)
            for beat, times in line.times.items():
                if line.timed:
                    found.ms += amount * times
                else:
                    counts = found.halves.setdefault(beat, [0, 0])
                    counts[0] += amount * times
                    counts[1] += amount * times
        return found


class Sum(Struct):
    """A length as a sum: plain time, and half breaths in and out by beat."""

    ms: int
    halves: dict[Beat, list[int]]

    def length(self, breaths: Breaths) -> int:
        """The length with these breaths (ms)."""
        total = self.ms
        for beat, (ins, outs) in self.halves.items():
            inhale, exhale = lasting(beat, breaths)
            total += ins * inhale + outs * exhale
        return total


def lasting(beat: Beat, breaths: Breaths) -> Lengths:
    """Inhale and exhale of a beat (ms)."""
    span, inhale, exhale = beat
    return breaths.get(span, (inhale, exhale)) if span else (inhale, exhale)


def measure(bits: tuple[Bit, ...], last: Breath = Breath.OUT) -> Measure:
    """Measure steps as `time` would time them; `last` is the half breath before the first."""
    found = Measure(last=last)
    told = Timed()
    for bit in bits:
        if bit.verb == "come to":
            _coming(found, bit)
        elif bit.verb in {"in", "out"}:
            _moving(found, bit)
        else:
            _staying(found, bit, told)
    return found


def _beat(bit: Bit) -> Beat:
    return bit.tempo, bit.inhale, bit.exhale


def _coming(found: Measure, bit: Bit) -> None:
    over = bit.mods.over
    if over and over.ms:
        found.ms += over.ms
    else:
        _breathe(found, bit, Breath.IN, over.halves if over else 2)
    found.last = Breath.OUT


def _moving(found: Measure, bit: Bit) -> None:
    if bit.ms:
        found.ms += bit.ms
        found.last = Breath.OUT
    else:
        _breathe(found, bit, bit.breath, bit.halves)


def _staying(found: Measure, bit: Bit, told: Timed) -> None:
    hold = hold_of(bit, told)
    line = found.lines.get(bit.span)
    if line is None:
        line = Line(hold.amount, hold.least, hold.most, hold.timed, hold.half)
        found.lines[bit.span] = line
    line.least, line.most = max(line.least, hold.least), min(line.most, hold.most)
    line.times[_beat(bit)] = line.times.get(_beat(bit), 0) + 1
    if bit.ms:
        found.last = Breath.OUT
    elif hold.half:
        _breathe(found, bit, found.last.other, 1)


def _breathe(found: Measure, bit: Bit, first: Breath, halves: int) -> None:
    """Count half breaths, one after the other, beginning with `first`."""
    counts = found.halves.setdefault(_beat(bit), [0, 0])
    start = 0 if first is Breath.IN else 1
    counts[start] += (halves + 1) // 2
    counts[1 - start] += halves // 2
    found.last = first if halves % 2 else first.other
