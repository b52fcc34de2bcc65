"""What the recordings are judged by: the onsets, and the bench's comparison with the plan."""

from array import array

import pytest

from tests.bench.onsets import judged, plan_of
from tests.sound import pulse


def test_onsets_are_the_first_loud_samples_after_quiet() -> None:
    recording = array("h", bytes(2 * 44_100))
    for start in (1000, 20_000, 20_000 + pulse.RATE * 60 // 1000 + pulse.QUIET + 1):
        recording[start : start + len(pulse.click())] = pulse.click()
    assert pulse.onsets(recording) == [1000, 20_000, 20_000 + 2646 + pulse.QUIET + 1]


def test_a_perfect_recording_has_no_error_wherever_it_starts() -> None:
    plan = plan_of(50, 3)
    result = judged("ours", "idle", [cue + 1234.5 for cue in plan], plan)
    assert (result.lost, result.doubled) == (0, 0)
    assert result.at(1) == pytest.approx(0, abs=1e-6)
    assert (result.drift_ppm, result.shift) == pytest.approx((0, 0), abs=1e-3)


def test_lost_doubled_late_and_drifting_cues_are_seen() -> None:
    plan = plan_of(50, 3)
    heard = [cue + 300 for cue in plan]
    heard[20] += 40
    result = judged(
        "ours", "idle", [*heard[:10], *heard[11:30], heard[30] - 250, *heard[30:]], plan
    )
    assert (result.lost, result.doubled) == (1, 1)
    assert result.at(0.5) == pytest.approx(0, abs=1e-6)
    slow = judged("ours", "idle", [cue * 1.0001 for cue in plan], plan)
    assert slow.drift_ppm == pytest.approx(100)
    assert slow.at(0.5) == pytest.approx(0.12, abs=0.03)
    late = judged("ours", "idle", heard, plan)
    assert late.at(1) == pytest.approx(40)
    assert judged("ours", "idle", [], plan).lost == 50
