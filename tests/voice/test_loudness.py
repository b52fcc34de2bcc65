from __future__ import annotations

import cmath
import math
from array import array

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.voice.loudness import PEAK, TARGET_LUFS, levelled, loudness, peak

RATE = 22050


def tone(hz: float, amplitude: float, seconds: float = 1.0) -> array[int]:
    turn = 2 * math.pi * hz / RATE
    times = range(int(seconds * RATE))
    return array("h", [round(32767 * amplitude * math.sin(turn * at)) for at in times])


# ITU-R BS.1770-4, tables 1 and 2, at 48 kHz (from memory).
SHELF = (
    (1.53512485958697, -2.69169618940638, 1.19839281085285),
    (1, -1.69065929318241, 0.73248077421585),
)
HIGH_PASS = (1, -2, 1), (1, -1.99004745483398, 0.99007225036621)


def weighting_db(hz: float) -> float:
    turn = cmath.exp(-2j * math.pi * hz / 48000)
    gain = 1.0
    for above, below in (SHELF, HIGH_PASS):
        top, bottom = (sum(c * turn**k for k, c in enumerate(side)) for side in (above, below))
        gain *= abs(top / bottom)
    return 20 * math.log10(gain)


@pytest.mark.parametrize("hz", [100, 200, 400, 800, 1600, 3000, 5000])
def test_a_tone_is_weighted_within_one_unit_of_the_standard(hz: float) -> None:
    expected = -0.691 + 20 * math.log10(0.5) - 3.01 + weighting_db(hz)
    assert loudness(tone(hz, 0.5, 2)) == pytest.approx(expected, abs=1.0)


def test_the_reference_tone_has_the_standards_loudness() -> None:
    # ITU-R BS.1770-4 (from memory): a 997 Hz sine at full scale in one channel reads -3.01 LKFS.
    assert loudness(tone(997, 1.0, 2)) == pytest.approx(-3.01, abs=0.3)


def test_half_the_amplitude_is_six_decibels_less() -> None:
    assert loudness(tone(500, 0.4)) - loudness(tone(500, 0.2)) == pytest.approx(6.02, abs=0.05)


def test_pauses_are_gated_out() -> None:
    pause = array("h", [0] * RATE * 3)
    alone = loudness(tone(500, 0.3, 2))
    assert loudness(tone(500, 0.3, 2) + pause) == pytest.approx(alone, abs=0.5)


def test_silence_is_infinitely_quiet_and_stays_as_it_is() -> None:
    quiet = array("h", [0] * RATE)
    assert loudness(quiet) == loudness(array("h")) == -math.inf
    assert levelled(quiet) == quiet
    assert peak(array("h")) == 0


@settings(max_examples=25, deadline=None)
@given(st.floats(0.01, 1), st.floats(100, 3000), st.floats(0.1, 2))
def test_cues_come_out_equally_loud(amplitude: float, hz: float, seconds: float) -> None:
    level = loudness(levelled(tone(hz, amplitude, seconds)))
    assert level == pytest.approx(TARGET_LUFS, abs=0.2)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.sampled_from([0, 0, 0, 3, -3, 32767, -32768]), min_size=200, max_size=300))
def test_nothing_ever_clips(samples: list[int]) -> None:
    assert peak(levelled(array("h", samples))) <= PEAK + 1 / 32768
