from conductor.screens.themes import NAMES, THEMES, theme_of
from conductor.view.palette import DARK, PALETTES


def test_there_is_a_theme_for_every_palette() -> None:
    assert NAMES == ("dark", "light", "contrast")
    assert list(PALETTES) == list(NAMES)


def test_a_theme_brings_the_palettes_own_names() -> None:
    theme = theme_of(DARK)
    assert theme.variables["rising"] == DARK.rising
    assert theme.background == DARK.ground
    assert {frozenset(one.variables) for one in THEMES} == {frozenset(theme.variables)}
