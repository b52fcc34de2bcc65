"""From taps to half breaths: which taps are turns of the breath, and of which way.

People miss a tap, press twice, press the other key, stop and start again. So of all ways to read
the taps the likeliest is taken (dynamic programming over taps and the two halves), with the
usual lengths of inhale and exhale found from the same taps, a few rounds over.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import log

from conductor.breathing.model import Half, Tap, Turns
from conductor.breathing.robust import NORMAL, median
from conductor.sides import Breath
from conductor.values import Struct

ROUNDS = 6
SPREAD = 0.2  # of the logarithm of a half breath's length, to begin with
SPREADS = 0.1, 0.25  # what it is taken to be at least and at most, however the taps lie
BOUNCE_MS = 120  # two presses of a key so close are one
IN_A_ROW = 3  # taps too many, one after another
MOST_TURNS = 4  # turns in a stretch of which all but the last were missed

# Costs are natural logarithms of how much less likely a reading is.
MISSED = 3.5
DOUBLED = 3.0  # a tap too many soon after a turn: of two, the first was meant
STRAY = 6.0  # a tap too many elsewhere
WRONG = 5.0  # the other key than was meant
PAUSE = 9.0  # no breath at all; also the most that any stretch costs
OUT_FIRST = 1.5  # with one key for both, people begin with an inhale
CLOSE = 0.4  # of the shorter half: this soon after a turn a tap is a doubled one

_NEVER = 1e9


class _Way(Struct, frozen=True):
    """The cheapest way to a tap that begins one half: its cost, and the tap and half before it."""

    cost: float
    before: int = -1
    breath: Breath = Breath.IN
    turns: int = 0  # 0: a pause


class _Usual(Struct, frozen=True):
    """The usual length of the halves, ms, and how much they vary (of the logarithm)."""

    inhale: float
    exhale: float
    spread: float = SPREAD

    def of(self, breath: Breath) -> float:
        return self.inhale if breath is Breath.IN else self.exhale

    def expected(self, breath: Breath, turns: int) -> float:
        """How long it takes from the beginning of a half until so many turns later."""
        whole, odd = divmod(turns, 2)
        return whole * (self.inhale + self.exhale) + odd * self.of(breath)


def read(taps: Sequence[Tap]) -> Turns:
    """The half breaths that the taps tell of."""
    taps = settled(taps)
    if len(taps) < 3:
        return Turns()
    best = min((_refined(taps, usual) for usual in _guesses(taps)), key=lambda found: found[0])
    return _told(taps, best[1], best[2])


def settled(taps: Sequence[Tap]) -> tuple[Tap, ...]:
    """Taps in order of time, a key that bounced taken once."""
    kept: list[Tap] = []
    for tap in sorted(taps, key=lambda one: one.at):
        if kept and tap.at - kept[-1].at < BOUNCE_MS and tap.breath is kept[-1].breath:
            continue
        kept.append(tap)
    return tuple(kept)


def _guesses(taps: Sequence[Tap]) -> list[_Usual]:
    """Lengths to begin with: from the labels where there are some, else from the spread of all."""
    gaps = [(one.breath, two.breath, two.at - one.at) for one, two in pairwise(taps)]
    ins = [ms for one, two, ms in gaps if one is Breath.IN and two is Breath.OUT]
    outs = [ms for one, two, ms in gaps if one is Breath.OUT and two is Breath.IN]
    if ins and outs:
        return [_Usual(median(ins), median(outs))]
    ordered = sorted(ms for *_, ms in gaps)
    ordered = [ms for ms in ordered if ms > CLOSE * median(ordered)] or ordered
    low, middle, high = (ordered[int(len(ordered) * share)] for share in (0.2, 0.5, 0.8))
    return [_Usual(low, high), _Usual(high, low), _Usual(middle, middle)]


Path = list[tuple[int, Breath, int]]
"""Taps that are turns: index, the half that begins there, turns since the one before."""


def _refined(taps: Sequence[Tap], usual: _Usual) -> tuple[float, Path, _Usual]:
    """Read the taps, take the usual lengths from the reading, and read again."""
    cost, path = _path(taps, usual)
    for _ in range(ROUNDS):
        better = _usual(taps, path, usual)
        if better == usual:
            break
        usual = better
        cost, path = _path(taps, usual)
    return cost, path, usual


def _usual(taps: Sequence[Tap], path: Path, before: _Usual) -> _Usual:
    lengths: dict[Breath, list[float]] = {Breath.IN: [], Breath.OUT: []}
    wholes: list[float] = []
    for (start, breath, _), (end, _, turns) in pairwise(path):
        if turns == 1:
            lengths[breath].append(taps[end].at - taps[start].at)
        elif turns == 2:
            wholes.append(taps[end].at - taps[start].at)
    inhale, exhale = (median(those) if those else 0.0 for those in lengths.values())
    whole = median(wholes) if wholes else before.inhale + before.exhale
    inhale = inhale or max(whole - exhale, 0.0) or before.inhale
    exhale = exhale or max(whole - inhale, 0.0) or before.exhale
    offs = [abs(log(ms / mean)) for ms, mean in _against(lengths, inhale, exhale)]
    least, most = SPREADS
    spread = min(max(NORMAL * median(offs), least), most) if offs else before.spread
    return _Usual(inhale, exhale, spread)


def _against(
    lengths: dict[Breath, list[float]], inhale: float, exhale: float
) -> list[tuple[float, float]]:
    means = {Breath.IN: inhale, Breath.OUT: exhale}
    return [(ms, means[one]) for one, those in lengths.items() for ms in those if ms > 0]


def _path(taps: Sequence[Tap], usual: _Usual) -> tuple[float, Path]:
    """The likeliest reading of the taps with these lengths, and what it costs."""
    ways: list[dict[Breath, _Way]] = []
    for index, tap in enumerate(taps):
        ways.append({breath: _reached(taps, ways, index, breath, usual) for breath in _HALVES})
        for breath in _HALVES if tap.breath is not None else ():
            if breath is not tap.breath:
                way = ways[index][breath]
                ways[index][breath] = _Way(way.cost + WRONG, way.before, way.breath, way.turns)
    ends = [
        (ways[index][breath].cost + _too_many(taps, index, len(taps), usual), index, breath)
        for index in range(max(len(taps) - 1 - IN_A_ROW, 0), len(taps))
        for breath in _HALVES
    ]
    cost, index, breath = min(ends, key=lambda end: end[0])
    path: Path = []
    while index >= 0:
        way = ways[index][breath]
        path.append((index, breath, way.turns))
        index, breath = way.before, way.breath
    return cost, path[::-1]


_HALVES = (Breath.IN, Breath.OUT)


def _reached(
    taps: Sequence[Tap], ways: list[dict[Breath, _Way]], index: int, breath: Breath, usual: _Usual
) -> _Way:
    """The cheapest way for a half to begin at a tap."""
    first = _too_many(taps, -1, index, usual) if index <= IN_A_ROW else _NEVER
    if taps[index].breath is None and breath is Breath.OUT:
        first += OUT_FIRST
    best = _Way(first)
    for start in range(max(index - 1 - IN_A_ROW, 0), index):
        between = _too_many(taps, start, index, usual)
        gap = taps[index].at - taps[start].at
        for turns in range(MOST_TURNS + 1):
            for before in _HALVES:
                if turns and (before is breath) is (turns % 2 == 1):
                    continue
                cost = ways[start][before].cost + between + _stretch(gap, before, turns, usual)
                if cost < best.cost:
                    best = _Way(cost, start, before, turns)
    return best


def _stretch(gap: int, breath: Breath, turns: int, usual: _Usual) -> float:
    """How unlikely it is that a stretch holds so many turns; none is a pause."""
    if not turns:
        return PAUSE
    expected = usual.expected(breath, turns)
    if gap <= 0 or expected <= 0:
        return _NEVER
    off = log(gap / expected) / usual.spread
    return min(off * off * turns / 2 - log(turns) / 2, PAUSE) + MISSED * (turns - 1)


def _too_many(taps: Sequence[Tap], start: int, end: int, usual: _Usual) -> float:
    """What it costs to take the taps between two turns for pressed by mistake."""
    near = CLOSE * min(usual.inhale, usual.exhale)
    turned = taps[start].at + near if start >= 0 else -_NEVER
    return sum(DOUBLED if tap.at <= turned else STRAY for tap in taps[start + 1 : end])


def _shared(at: int, ms: int, breath: Breath, usual: _Usual) -> tuple[Half, Half]:
    """The two halves of a breath whose turn was not tapped, in their usual proportion.

    To leave the whole out would let chance decide which breaths count.
    """
    first = round(ms * usual.of(breath) / usual.expected(breath, 2))
    return Half(at, first, breath), Half(at + first, ms - first, breath.other)


def _told(taps: Sequence[Tap], path: Path, usual: _Usual) -> Turns:
    """The reading as values."""
    halves: list[Half] = []
    wholes: list[tuple[int, int]] = []
    pauses: list[int] = []
    missed = 0
    last: Half | None = None
    for (start, breath, _), (end, _, turns) in pairwise(path):
        at, ms = taps[start].at, taps[end].at - taps[start].at
        if not turns or ms > 2 * usual.expected(breath, max(turns, 1)):
            pauses.append(ms)
            last = None
            continue
        missed += turns - 1
        if turns == 2:
            wholes.append((at, ms))
            halves += _shared(at, ms, breath, usual)
        half = Half(at, ms, breath) if turns == 1 else None
        if half:
            halves.append(half)
            if last:
                wholes.append((last.at, last.ms + half.ms))
        last = half if half and not (last and wholes[-1][0] == last.at) else None
    wrong = sum(taps[at].breath not in (None, breath) for at, breath, _ in path)
    doubled = len(taps) - len(path)
    return Turns(tuple(halves), tuple(wholes), missed, doubled, wrong, tuple(pauses))
