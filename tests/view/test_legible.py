import pytest

from conductor.view.legible import advice, arc_minutes, cell_needed, contrast


@pytest.mark.parametrize(
    ("height_mm", "metres", "minutes"),
    [  # computed from h = 2 d tan(angle / 2): ISO 9241-303 through ASR A6 6.1.3 gives d/155 as 22
        (9.60, 1.5, 22),
        (12.80, 2.0, 22),
        (19.20, 3.0, 22),
        (9.31, 2.0, 16),
        (18.04, 2.0, 31),
    ],
)
def test_minutes_of_arc_of_published_heights(
    height_mm: float, metres: float, minutes: float
) -> None:
    assert arc_minutes(height_mm, metres, 1) == pytest.approx(minutes, abs=0.02)


def test_the_goal_is_the_distance_over_155() -> None:
    assert cell_needed(2.0, 1) == pytest.approx(2000 / 155, rel=0.01)


def test_large_letters_at_the_default_distance_are_just_large_enough() -> None:
    assert arc_minutes(3.7, 2.0, 3.5) >= 22
    assert advice(3.7, 2.0, 3.5) == ""


def test_advice_names_a_size_that_would_do() -> None:
    words = advice(3.0, 3.0, 3.5)
    assert "At 3 m these letters are 12 minutes of arc tall" in words
    assert "1.8 times as large" in words
    assert arc_minutes(3.0 * 1.83, 3.0, 3.5) >= 22


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [  # WCAG 2.2 relative luminance, computed pairs
        ("#000000", "#ffffff", 21.0),
        ("#777777", "#ffffff", 4.478),
        ("#767676", "#ffffff", 4.542),
        ("#595959", "#ffffff", 7.005),
        ("#ff0000", "#ffffff", 3.998),
        ("#0000ff", "#000000", 2.444),
        ("#ffff00", "#000000", 19.556),
    ],
)
def test_contrast_of_known_pairs(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=0.001)
    assert contrast(other, one) == contrast(one, other)
