import pytest

from conductor.settings import Settings
from conductor.view.cell import USUAL_MM, USUAL_PPI, cell_of


@pytest.mark.parametrize(
    ("settings", "pixels", "height_mm", "measured"),
    [
        (Settings(), None, USUAL_MM, False),
        (Settings(), 1.0, USUAL_MM, False),
        (Settings(), 20.0, 20 / USUAL_PPI * 25.4, False),
        (Settings(cell_mm=5.0), 20.0, 5.0, True),
        (Settings(cell_mm=5.0, screen_ppi=100.0), 20.0, 5.08, True),
        (Settings(cell_mm=5.0, screen_ppi=100.0), None, 5.0, True),
    ],
)
def test_what_was_measured_comes_before_what_is_reckoned(
    settings: Settings, pixels: float | None, height_mm: float, measured: bool
) -> None:
    found = cell_of(settings, pixels)
    assert found.height_mm == pytest.approx(height_mm)
    assert found.measured is measured


def test_a_guess_is_called_one() -> None:
    assert "if 141 go to the inch" in cell_of(Settings(), 18.0).known
    assert cell_of(Settings(), None).known.startswith("a guess")
