"""Arithmetic on all samples at once: two long integers, every other sample in lanes of 32 bits.

Adding and multiplying long integers runs in C, so samples are worked on several times as fast as
one by one, without a library for it. Samples are raised by 32 768, so no lane is ever negative.
"""

from __future__ import annotations

import sys
from array import array
from collections.abc import Callable
from functools import lru_cache
from operator import add

UNITY = 1 << 15  # the gain that changes nothing
LOW, HIGH = -32_768, 32_767
RAISE = 1 << 15
WIDE = "I" if array("I").itemsize == 4 else "L"

CHUNK = 8192  # samples at a time, so that nothing holds the interpreter for long

Work = Callable[..., int]
"""From lanes of raised samples to lanes of raised samples, or -1 where a result does not fit."""


def scaled(pcm: array[int], gain: int) -> array[int]:
    """Samples times a gain in parts of UNITY, from 0 to 1, rounded down."""
    out = array("h")
    for start in range(0, len(pcm), CHUNK):
        out += _scaled(pcm[start : start + CHUNK], gain)
    return out


def _scaled(pcm: array[int], gain: int) -> array[int]:
    lanes = (len(pcm) + 1) // 2
    rest, low = _all((UNITY - gain) * RAISE, lanes), _all(0xFFFF, lanes)
    return _worked(lambda x: x * gain + rest >> 15 & low, pcm) or pcm


def summed(one: array[int], other: array[int]) -> array[int]:
    """The sum of as many samples; what does not fit 16 bits is held at the limit."""
    lanes = (len(one) + 1) // 2
    once, high, within = (_all(value, lanes) for value in (RAISE, 0xFFFF0000, 0x10000))

    def both(x: int, y: int) -> int:
        total = x + y + once
        return total ^ within if total & high == within else -1

    return _worked(both, one, other) or _clamped(list(map(add, one, other)))


def doubled(pcm: array[int]) -> array[int]:
    """Samples at twice the rate, those between by a half-band filter of six taps."""
    if not pcm:
        return array("h")
    ends = array("h", [pcm[0]] * 2) + pcm + array("h", [pcm[-1]] * 3)
    out = array("h", bytes(4 * len(pcm)))
    out[::2] = pcm
    for start in range(0, len(pcm), CHUNK):
        last = min(start + CHUNK, len(pcm))
        out[2 * start + 1 : 2 * last : 2] = _between([ends[start + k : last + k] for k in range(6)])
    return out


def _between(taps: list[array[int]]) -> array[int]:
    lanes = (len(taps[0]) + 1) // 2
    shift, low = _all((1 << 24) + 128, lanes), _all(0xFFFFFF, lanes)
    high, within = _all(0xFF0000, lanes), _all(0x10000, lanes)

    def filtered(a: int, b: int, c: int, d: int, e: int, f: int) -> int:
        total = 150 * (c + d) + 3 * (a + f) + shift - 25 * (b + e) >> 8 & low
        return total ^ within if total & high == within else -1

    return _worked(filtered, *taps) or _swinging(taps)


def _swinging(taps: list[array[int]]) -> array[int]:
    """The samples between, one by one, where some go beyond the limit."""
    rows = zip(*taps, strict=True)
    return _clamped(
        [(150 * (c + d) - 25 * (b + e) + 3 * (a + f) + 128) >> 8 for a, b, c, d, e, f in rows]
    )


def _clamped(samples: list[int]) -> array[int]:
    return array("h", [min(HIGH, max(LOW, sample)) for sample in samples])


def _worked(work: Work, *operands: array[int]) -> array[int] | None:
    """The work done on all samples; None where some result does not fit."""
    size = len(operands[0])
    lanes = (size + 1) // 2
    low = _all(0xFFFF, lanes)
    raised = [_raised(pcm, lanes) for pcm in operands]
    even = work(*(x & low for x in raised))
    odd = work(*(x >> 16 & low for x in raised))
    if even < 0 or odd < 0:
        return None
    turned = (even | odd << 16) ^ _all(RAISE << 16 | RAISE, lanes)
    pcm = array("h")
    pcm.frombytes(turned.to_bytes(4 * lanes, sys.byteorder))
    return pcm[:size] if sys.byteorder == "little" else pcm[2 * lanes - size :]


def _raised(pcm: array[int], lanes: int) -> int:
    """Samples as one integer, each raised by 32 768: turning the sign bit of 16 bits does it."""
    return int.from_bytes(pcm.tobytes(), sys.byteorder) ^ _all(RAISE << 16 | RAISE, lanes)


@lru_cache(maxsize=64)
def _all(value: int, lanes: int) -> int:
    """The same value in every lane; blocks of one size come again and again."""
    return int.from_bytes((array(WIDE, [value]) * lanes).tobytes(), sys.byteorder)
