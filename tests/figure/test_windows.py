from hypothesis import given
from hypothesis import strategies as st

from conductor.figure.model import FULL, Kind, Stretch
from conductor.figure.windows import Window, covered, ticks, windows, within

ROWS = st.lists(st.integers(1, 90_000), min_size=1, max_size=30)


def row(lengths: list[int]) -> tuple[Stretch, ...]:
    found, at = [], 0
    for number, length in enumerate(lengths):
        found.append(Stretch(at, length, kind=Kind.RIGHT if number % 2 else Kind.LEFT))
        at += length
    return tuple(found)


@given(ROWS, st.integers(20_000, 300_000), st.integers(1, 200))
def test_wrapped_into_rows_nothing_is_lost_or_doubled(
    lengths: list[int], row_ms: int, cells: int
) -> None:
    whole = row(lengths)
    parts = [within(whole, one) for one in windows(whole[-1].end, row_ms, cells)]
    assert sum(one.length for part in parts for one in part) == whole[-1].end
    for kind in (Kind.RIGHT, Kind.LEFT):
        want = sum(one.length for one in whole if one.kind is kind)
        assert sum(one.length for part in parts for one in part if one.kind is kind) == want


@given(ROWS, st.integers(1, 120))
def test_a_row_covered_throughout_is_full_in_every_cell(lengths: list[int], cells: int) -> None:
    whole = row(lengths)
    window = Window(0, whole[-1].end, cells)
    if window.width < cells * 50:
        return  # cells of a few ms: rounding is all there is
    for cell in covered(whole, window):
        assert FULL * 9 // 10 <= sum(cell.values()) <= FULL


@given(st.integers(0, 5_000_000), st.integers(1, 5_000_000), st.integers(1, 300))
def test_cells_rise_with_time_from_the_first_to_the_last(
    start: int, length: int, cells: int
) -> None:
    window = Window(start, start + length, cells)
    at = [window.cell(start + length * share // 10) for share in range(11)]
    assert at == sorted(at)
    assert (at[0], at[-1]) == (0, cells)
    assert window.cell(start - 5) == 0


def test_the_last_row_is_on_the_scale_of_the_others() -> None:
    rows = windows(25_000, 10_000, 60)
    assert [(one.start, one.end) for one in rows] == [
        (0, 10_000),
        (10_000, 20_000),
        (20_000, 30_000),
    ]


def test_times_on_the_axis_keep_their_distance() -> None:
    hour = Window(0, 3_600_000, 70)
    assert [words for _, words in ticks(hour, 7)] == ["0", "10", "20", "30", "40", "50", "60"]
    assert [words for _, words in ticks(Window(0, 120_000, 70), 7)][:3] == ["0:00", "0:15", "0:30"]
