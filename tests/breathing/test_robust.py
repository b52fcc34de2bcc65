import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.breathing.robust import LEAST, estimate, median

TIMES = st.lists(st.integers(500, 20_000), min_size=LEAST, max_size=40)


def spaced(values: list[int]) -> list[tuple[int, int]]:
    return [(n * 9000, ms) for n, ms in enumerate(values)]


def test_a_fifth_of_wrong_values_moves_it_little() -> None:
    values = [4000, 4100, 3900, 4050, 3950, 4000, 4020, 3980, 19_000, 400]
    found = estimate(spaced(values))
    assert found is not None
    assert abs(found.ms - 4000) < 60


def test_a_straight_line_is_its_own_slope() -> None:
    found = estimate([(n * 6000, 4000 + n * 50) for n in range(20)])
    assert found is not None
    assert (found.drift, found.drift_low, found.drift_high) == (500, 500, 500)
    assert found.drifts


def test_too_few_are_not_guessed_from() -> None:
    assert estimate(spaced([4000] * (LEAST - 1))) is None


@given(TIMES)
def test_the_middle_lies_within_its_bounds_and_among_the_values(values: list[int]) -> None:
    found = estimate(spaced(values))
    assert found is not None
    assert min(values) <= found.low <= found.ms <= found.high <= max(values)
    assert found.drift_low <= found.drift <= found.drift_high


@given(TIMES, st.integers(1, 5))
def test_it_goes_with_the_scale(values: list[int], times: int) -> None:
    one, other = estimate(spaced(values)), estimate(spaced([ms * times for ms in values]))
    assert one is not None
    assert other is not None
    assert other.ms == pytest.approx(one.ms * times, abs=times)


def test_the_median_of_an_even_number_is_between_the_two() -> None:
    assert (median([1, 2, 3, 10]), median([3, 1, 2])) == (2.5, 2)
