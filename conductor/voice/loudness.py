"""Loudness as a listener has it, so that no cue startles and none is lost.

The measure is that of ITU-R BS.1770-4 (from memory): K-weighting, blocks of 400 ms that overlap by
three quarters, gates at -70 LUFS and 10 LU below the mean. The weighting's energy comes from the
signal's autocorrelation, which is many times cheaper than filtering in Python.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Sequence
from operator import mul

RATE_HZ = 22050
TARGET_LUFS = -21.0  # speech has crests near 20 dB: this is as loud as it gets without clipping
PEAK = 10 ** (-1 / 20)  # of full scale: -1 dBFS

_FULL = 32768.0
_STEP = RATE_HZ // 10
_BLOCK = 4
# Cosine series of the weighting's power at 22.05 kHz; five terms are within 0.4 LU for speech.
_WEIGHTS = (2.25431, -0.23909, -0.1932, -0.13845, -0.08844)
_STRIDE = 3  # a third of the products tells the correlations well enough
_OFFSET = -0.691
_ABSOLUTE_GATE = -70.0
_RELATIVE_GATE = -10.0


def loudness(samples: array[int]) -> float:
    """LUFS of mono samples at 22.05 kHz; -inf for silence."""
    blocks = [power for power in _blocks(samples) if _lufs(power) > _ABSOLUTE_GATE]
    if not blocks:
        return -math.inf
    gate = _lufs(_mean(blocks)) + _RELATIVE_GATE
    return _lufs(_mean([power for power in blocks if _lufs(power) > gate]))


def peak(samples: array[int]) -> float:
    """The largest sample as a share of full scale."""
    high, low = (max(samples), min(samples)) if samples else (0, 0)
    return max(high, -low) / _FULL


def levelled(samples: array[int], target: float = TARGET_LUFS) -> array[int]:
    """The samples at the target loudness, or as near as the peak of -1 dBFS lets them."""
    top = peak(samples)
    if not top:
        return samples
    gain = min(10 ** ((target - loudness(samples)) / 20), PEAK / top)
    whole = int(gain * 32768)  # a shift of integers costs a third of a multiplication of floats
    return array("h", [sample * whole >> 15 for sample in samples])


def _blocks(samples: array[int]) -> list[float]:
    values = samples.tolist()  # a list is summed in half the time of an array
    steps = [_energy(values, at) for at in range(0, len(values), _STEP)]
    if len(steps) <= _BLOCK:
        return [sum(steps) / max(len(samples), 1)]
    whole = len(samples) // _STEP
    spans = range(max(whole - _BLOCK + 1, 1))
    return [sum(steps[at : at + _BLOCK]) / (_BLOCK * _STEP) for at in spans]


def _energy(samples: list[int], at: int) -> float:
    here = samples[at : at + _STEP]
    total: float = _WEIGHTS[0] * sum(map(mul, here, here))
    some = here[::_STRIDE]
    for lag, weight in enumerate(_WEIGHTS[1:], 1):
        shifted = samples[at + lag : at + lag + _STEP : _STRIDE]
        total += 2 * weight * _STRIDE * sum(map(mul, some, shifted))
    return max(total, 0.0) / (_FULL * _FULL)


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


def _lufs(power: float) -> float:
    return _OFFSET + 10 * math.log10(power) if power > 0 else -math.inf
