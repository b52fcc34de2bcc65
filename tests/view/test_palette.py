import pytest

from conductor.view.legible import CONTRAST, contrast
from conductor.view.palette import PALETTES, Palette


@pytest.mark.parametrize("palette", PALETTES.values(), ids=lambda palette: palette.name)
def test_every_pair_that_is_drawn_stands_at_seven_to_one(palette: Palette) -> None:
    assert {pair: contrast(*pair) for pair in palette.pairs() if contrast(*pair) < CONTRAST} == {}


def test_there_is_a_dark_a_light_and_a_high_contrast_one() -> None:
    assert list(PALETTES) == ["dark", "light", "contrast"]
    assert [one.dark for one in PALETTES.values()] == [True, False, True]
