"""The palettes as themes."""

from textual.theme import Theme

from conductor.view.palette import PALETTES, Palette


def theme_of(palette: Palette) -> Theme:
    """A theme whose variables carry the palette's own names into the style sheet."""
    return Theme(
        name=palette.name,
        primary=palette.rising,
        secondary=palette.falling,
        accent=palette.rising,
        foreground=palette.text,
        background=palette.ground,
        surface=palette.ground,
        panel=palette.panel,
        warning=palette.alert,
        error=palette.alert,
        success=palette.text,
        dark=palette.dark,
        variables={
            "ground": palette.ground,
            "sheet": palette.panel,
            "ink": palette.text,
            "soft": palette.soft,
            "now": palette.now,
            "following": palette.following,
            "rising": palette.rising,
            "falling": palette.falling,
            "right": palette.right,
            "left": palette.left,
            "alert": palette.alert,
            "trough": palette.trough,
        },
    )


THEMES = tuple(theme_of(palette) for palette in PALETTES.values())
NAMES = tuple(theme.name for theme in THEMES)
