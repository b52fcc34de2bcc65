from hypothesis import given
from hypothesis import strategies as st

from conductor.engine.anchor import Anchor, paced

MS = st.integers(-10_000_000, 10_000_000)
PACE = st.integers(700, 1400)


@given(MS, MS, PACE, MS, MS)
def test_both_ways_agree_on_what_is_due(now: int, at: int, pace: int, t: int, s: int) -> None:
    anchor = Anchor(now, at, pace)
    assert (s <= anchor.score_at(t)) == (anchor.now_at(s) <= t)


@given(MS, MS, PACE)
def test_the_fixed_point_is_fixed(now: int, at: int, pace: int) -> None:
    anchor = Anchor(now, at, pace)
    assert (anchor.now_at(at), anchor.score_at(now)) == (now, at)


def test_a_slower_pace_takes_longer_and_rounds_up() -> None:
    assert (paced(4000, 1100), paced(1, 1050), paced(-1, 1050)) == (4400, 2, -1)
