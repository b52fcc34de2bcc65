import math

import pytest

from conductor.view.legible import (
    GOAL,
    arc_minutes,
    contrast,
    farthest,
    ink_needed,
    letter_mm,
)

# Height of a letter in mm for a number of minutes of arc at a distance in m, from
# h = 2 d tan(angle / 2). The angles: 16 is the least ISO 9241-3 allows (as quoted by a maker of
# screens), 20 to 22 preferred there and in NUREG-0700 rev. 3, 1.3.1-4; 22 and 31 are the bounds of
# DIN EN ISO 9241-303:2012-03 for long distances, as ASR A6, 6.1.3 gives them (d/155 and d/110).
HEIGHTS = [
    (16, {1.5: 6.98, 2.0: 9.31, 3.0: 13.96}),
    (20, {1.5: 8.73, 2.0: 11.64, 3.0: 17.45}),
    (22, {1.5: 9.60, 2.0: 12.80, 3.0: 19.20}),
    (31, {1.5: 13.53, 2.0: 18.04, 3.0: 27.05}),
]
# Rows of ink for 16, 22 and 31 minutes of arc, by the height of a row in mm and the distance in m.
ROWS = {
    2.5: {1.5: (3, 4, 6), 2.0: (4, 6, 8), 3.0: (6, 8, 11)},
    3.0: {1.5: (3, 4, 5), 2.0: (4, 5, 7), 3.0: (5, 7, 10)},
    3.5: {1.5: (2, 3, 4), 2.0: (3, 4, 6), 3.0: (4, 6, 8)},
    4.0: {1.5: (2, 3, 4), 2.0: (3, 4, 5), 3.0: (4, 5, 7)},
    4.5: {1.5: (2, 3, 4), 2.0: (3, 3, 5), 3.0: (4, 5, 7)},
    5.0: {1.5: (2, 2, 3), 2.0: (2, 3, 4), 3.0: (3, 4, 6)},
    6.0: {1.5: (2, 2, 3), 2.0: (2, 3, 4), 3.0: (3, 4, 5)},
    8.0: {1.5: (1, 2, 2), 2.0: (2, 2, 3), 3.0: (2, 3, 4)},
}


@pytest.mark.parametrize(("minutes", "heights"), HEIGHTS)
def test_heights_of_letters_for_minutes_of_arc(minutes: int, heights: dict[float, float]) -> None:
    for metres, height_mm in heights.items():
        assert letter_mm(metres, minutes) == pytest.approx(height_mm, abs=0.01)
        assert arc_minutes(height_mm, metres, 1) == pytest.approx(minutes, abs=0.02)


@pytest.mark.parametrize(("cell_mm", "by_distance"), ROWS.items())
def test_rows_of_ink_for_minutes_of_arc(
    cell_mm: float, by_distance: dict[float, tuple[int, int, int]]
) -> None:
    for metres, rows in by_distance.items():
        found = [ink_needed(cell_mm, metres, goal) for goal in (16, 22, 31)]
        assert tuple(math.ceil(one) for one in found) == rows


def test_the_goal_is_the_distance_over_155_and_a_letter_may_be_as_tall_as_110() -> None:
    assert letter_mm(2.0) == pytest.approx(2000 / 155, rel=0.01)
    assert letter_mm(2.0, 31) == pytest.approx(2000 / 110, rel=0.01)


@pytest.mark.parametrize(
    ("rows", "cell_mm", "metres", "minutes"),
    [  # half block letters of 5 x 7 and 7 x 9 pixels, and letters of two rows (computed)
        (3.5, 3.4, 2.0, 20.5),
        (4.5, 3.4, 2.0, 26.3),
        (4.5, 3.4, 3.0, 17.5),
        (2.0, 5.0, 1.5, 22.9),
        (2.0, 2.5, 3.0, 5.7),
    ],
)
def test_letters_of_half_blocks(rows: float, cell_mm: float, metres: float, minutes: float) -> None:
    assert arc_minutes(cell_mm, metres, rows) == pytest.approx(minutes, abs=0.05)


def test_from_farther_than_that_a_letter_falls_below_the_goal() -> None:
    far = farthest(3.7, 3.5)
    assert arc_minutes(3.7, far, 3.5) == pytest.approx(GOAL, abs=0.001)
    assert arc_minutes(3.7, far + 0.1, 3.5) < GOAL


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [  # WCAG 2.2 relative luminance, computed pairs
        ("#000000", "#ffffff", 21.0),
        ("#777777", "#ffffff", 4.478),
        ("#767676", "#ffffff", 4.542),
        ("#595959", "#ffffff", 7.005),
        ("#949494", "#ffffff", 3.033),
        ("#ff0000", "#ffffff", 3.998),
        ("#0000ff", "#000000", 2.444),
        ("#ffff00", "#000000", 19.556),
    ],
)
def test_contrast_of_known_pairs(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=0.001)
    assert contrast(other, one) == contrast(one, other)
