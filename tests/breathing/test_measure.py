import pytest

from conductor.breathing.measure import FEW, NONE, measured
from conductor.breathing.model import Estimate, Tap
from conductor.breathing.robust import LEAST, estimate
from conductor.sides import Breath
from tests.breathing.tapped import tapped

PAIRS = [(4000, 4000), (4000, 6000), (2000, 3000), (5000, 5000), (3000, 7000)]
LONG_S, LONG_SEEDS = 1200, 3  # twenty minutes; tests/soak/breaths.py takes more seeds
SHORT_S, SHORT_SEEDS = 120, 20


def both(inhale: Estimate | None, exhale: Estimate | None) -> tuple[Estimate, Estimate]:
    assert inhale is not None
    assert exhale is not None
    return inhale, exhale


def usual(real: list[int]) -> int:
    """What the same estimate gives where every turn is known."""
    found = estimate([(n * 8000, ms) for n, ms in enumerate(real)])
    assert found is not None
    return found.ms


@pytest.mark.slow
@pytest.mark.parametrize("labels", [True, False])
@pytest.mark.parametrize(("inhale", "exhale"), PAIRS)
def test_over_twenty_minutes_it_is_within_two_percent_of_the_truth_with_every_seed(
    inhale: int, exhale: int, labels: bool
) -> None:
    for seed in range(LONG_SEEDS):
        taps, _ = tapped(seed, inhale, exhale, LONG_S, labels=labels)
        reading = measured(taps)
        found = both(reading.inhale, reading.exhale)
        assert reading.trouble == ""
        for half, truth in zip(found, (inhale, exhale), strict=True):
            assert abs(half.ms - truth) <= 0.02 * truth, seed


@pytest.mark.slow
@pytest.mark.parametrize("labels", [True, False])
@pytest.mark.parametrize(("inhale", "exhale"), PAIRS)
def test_in_two_minutes_slips_of_the_finger_cost_little_of_what_was_really_breathed(
    inhale: int, exhale: int, labels: bool
) -> None:
    """Breaths themselves vary more than that within two minutes; the bounds say by how much."""
    off = []
    for seed in range(SHORT_SEEDS):
        taps, real = tapped(seed, inhale, exhale, SHORT_S, labels=labels)
        reading = measured(taps)
        found = both(reading.inhale, reading.exhale)
        for half, breath in zip(found, (Breath.IN, Breath.OUT), strict=True):
            known = usual(real[breath])
            off.append(abs(half.ms - known) / known)
    assert max(off) <= 0.05
    assert sum(one <= 0.02 for one in off) >= 0.9 * len(off)


@pytest.mark.slow
def test_the_bounds_hold_the_truth_about_nineteen_times_in_twenty() -> None:
    held = total = 0
    for inhale, exhale in PAIRS:
        for seed in range(100, 120):
            reading = measured(tapped(seed, inhale, exhale, SHORT_S)[0])
            for half, truth in zip(
                both(reading.inhale, reading.exhale), (inhale, exhale), strict=True
            ):
                held += half.low <= truth <= half.high
                total += 1
    assert total == 200
    assert 0.9 <= held / total <= 0.995


@pytest.mark.slow
@pytest.mark.parametrize("drift", [0.03, -0.03])
def test_a_drift_is_found_and_a_steady_breath_has_none(drift: float) -> None:
    for seed in range(6):
        reading = measured(tapped(seed, 4000, 5000, 600, drift=drift)[0])
        assert reading.breath is not None
        assert reading.breath.drifts
        assert abs(reading.breath.drift - 9000 * drift) < 60, seed
    steady = [measured(tapped(seed, 4000, 5000, 300)[0]).breath for seed in range(20)]
    assert sum(one is not None and one.drifts for one in steady) <= 3  # one in twenty, by chance


def test_a_pause_is_left_out_and_told() -> None:
    first, _ = tapped(1, 4000, 5000, 60, missed=0, doubled=0)
    later, _ = tapped(2, 4000, 5000, 60, missed=0, doubled=0)
    shifted = [Tap(tap.at + 130_000, tap.breath) for tap in later]
    reading = measured([*first, *shifted])
    assert len(reading.turns.pauses) == 1
    for half, truth in zip(both(reading.inhale, reading.exhale), (4000, 5000), strict=True):
        assert abs(half.ms - truth) < 0.06 * truth


def test_a_key_that_was_the_wrong_one_is_counted_as_a_slip() -> None:
    taps, _ = tapped(3, 4000, 5000, 120, missed=0, doubled=0)
    taps[6] = Tap(taps[6].at, Breath.OUT)
    reading = measured(taps)
    assert reading.turns.wrong == 1
    for half, truth in zip(both(reading.inhale, reading.exhale), (4000, 5000), strict=True):
        assert abs(half.ms - truth) < 0.06 * truth


def every(ms: int, number: int, breath: Breath | None = None) -> list[Tap]:
    return [Tap(n * ms, breath) for n in range(number)]


@pytest.mark.parametrize(
    ("taps", "words"),
    [
        ([], NONE),
        (every(4000, 1), FEW.format(0, LEAST)),
        (every(4000, 7), FEW.format(3, LEAST)),
        (every(250, 60), "faster than anybody breathes"),
        (every(130, 3), "faster than anybody breathes"),
        (every(60_000, 10), "slower than anybody breathes"),
        (every(8000, 20, Breath.IN), "Only each inhale was tapped"),
        (every(8000, 20, Breath.OUT), "Tap each inhale too"),
        ([Tap(0, Breath.IN)] * 50, FEW.format(0, LEAST)),
    ],
)
def test_taps_that_tell_no_breath_are_told_why(taps: list[Tap], words: str) -> None:
    reading = measured(taps)
    assert words in reading.trouble
    assert reading.inhale is None


def test_with_one_key_alone_the_whole_breath_is_known() -> None:
    reading = measured(every(8000, 20, Breath.IN))
    assert reading.breath is not None
    assert reading.breath.ms == 8000


def test_a_breath_all_uneven_is_not_given_out_as_one() -> None:
    taps, at = [], 0
    for n in range(60):
        taps.append(Tap(at, (Breath.IN, Breath.OUT)[n % 2]))
        at += (1500, 2500, 9000, 4000, 1200, 7000, 2000)[n % 7]
    assert "Too uneven to tell" in measured(taps).trouble
