import math
from array import array
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.sound.lanes import CHUNK, HIGH, LOW, UNITY, doubled, scaled, summed

RATE = 44_100
samples = st.lists(st.integers(LOW, HIGH), max_size=40).map(lambda values: array("h", values))
quiet = st.lists(st.integers(-12_000, 12_000), max_size=40).map(lambda values: array("h", values))


def tone(frames: int, peak: int = 8000, hz: float = 220.0) -> "array[int]":
    turn = 2 * math.pi * hz / RATE
    return array("h", [round(peak * math.sin(k * turn)) for k in range(frames)])


def flat(frames: int, level: int = 8000) -> "array[int]":
    return array("h", [level] * frames)


def rms(values: Sequence[int]) -> float:
    return math.sqrt(sum(v * v for v in values) / len(values))


def db(value: float) -> float:
    return 20 * math.log10(value)


def held(value: int) -> int:
    return min(HIGH, max(LOW, value))


@given(pcm=samples, gain=st.integers(0, UNITY))
def test_scaled_is_each_sample_times_the_gain(pcm: "array[int]", gain: int) -> None:
    assert scaled(pcm, gain).tolist() == [(s * gain) >> 15 for s in pcm]


@given(pairs=st.lists(st.tuples(st.integers(LOW, HIGH), st.integers(LOW, HIGH)), max_size=40))
def test_summed_is_each_sum_held_at_the_limits(pairs: list[tuple[int, int]]) -> None:
    one, other = (array("h", [pair[k] for pair in pairs]) for k in (0, 1))
    assert summed(one, other).tolist() == [held(a + b) for a, b in pairs]


def filtered(pcm: "array[int]") -> list[int]:
    """Doubling as its filter says, one by one."""
    ends = [*pcm[:1] * 2, *pcm, *pcm[-1:] * 3]
    taps = (3, -25, 150, 150, -25, 3)
    between = [
        held((sum(t * s for t, s in zip(taps, ends[k : k + 6], strict=True)) + 128) >> 8)
        for k in range(len(pcm))
    ]
    return [s for pair in zip(pcm, between, strict=True) for s in pair]


@given(pcm=samples | quiet)
def test_doubled_is_its_filter(pcm: "array[int]") -> None:
    assert doubled(pcm).tolist() == filtered(pcm)


@pytest.mark.parametrize("size", [CHUNK - 1, CHUNK, CHUNK + 1, 3 * CHUNK + 5])
def test_long_pieces_have_no_seams(size: int) -> None:
    piece = tone(size)
    assert scaled(piece, 20_000).tolist() == [(s * 20_000) >> 15 for s in piece]
    assert doubled(piece).tolist() == filtered(piece)


@pytest.mark.parametrize(("hz", "least"), [(300, 75.0), (1000, 70.0), (3000, 40.0)])
def test_doubling_keeps_the_samples_and_puts_true_ones_between(hz: int, least: float) -> None:
    half = array(
        "h", [round(16_000 * math.sin(2 * math.pi * hz * k / 22_050)) for k in range(4000)]
    )
    out, true = doubled(half), tone(8000, peak=16_000, hz=hz)
    assert out[::2] == half
    error = [a - b for a, b in zip(out[100:-100], true[100:-100], strict=True)]
    assert db(rms(true) / rms(error)) > least


@pytest.mark.parametrize("size", [0, 1, 2, 5])
def test_doubling_a_few_samples_gives_twice_as_many(size: int) -> None:
    assert doubled(flat(size)) == flat(2 * size)


def test_doubling_a_full_swing_stays_within_16_bits() -> None:
    swing = array("h", [LOW, LOW, HIGH, HIGH] * 20)
    out = doubled(swing)
    assert (min(out), max(out)) == (LOW, HIGH)
