"""How tall a row of this terminal is on this screen, and how that is known."""

from conductor.settings import Settings
from conductor.values import Struct

USUAL_PPI = 141.0  # 15.6 inch, 1920 x 1080: sqrt(1920**2 + 1080**2) / 15.6
USUAL_MM = 3.7  # between 11 and 12 pt without scaling on screens of 14 to 15.6 inch (computed)
INCH_MM = 25.4
PIXELS = (4, 200)  # what a row can be; others are a terminal's slip


class Cell(Struct, frozen=True):
    """The height of a row in mm. `known` says whence; `measured` tells it from a guess."""

    height_mm: float
    known: str
    measured: bool


def cell_of(settings: Settings, pixels: float | None) -> Cell:
    """The row's height from what was set, and from its pixels where the terminal tells them.

    Pixels are no millimetres: only with the density of the screen they become some, and then they
    hold for every size of the font.
    """
    told = pixels if pixels and PIXELS[0] <= pixels <= PIXELS[1] else None
    if told and settings.screen_ppi:
        words = f"{told:g} pixels, at the {settings.screen_ppi:g} to the inch you measured"
        return Cell(told / settings.screen_ppi * INCH_MM, words, True)
    if settings.cell_mm:
        return Cell(settings.cell_mm, "as you measured it", True)
    if told:
        words = f"{told:g} pixels, if {USUAL_PPI:g} go to the inch as on many laptops"
        return Cell(told / USUAL_PPI * INCH_MM, words, False)
    return Cell(USUAL_MM, "a guess: this terminal does not tell its pixels", False)
