"""`conductor screen`: how tall letters stand in this terminal, and a ruler to measure it with."""

import shutil
import sys

import click

from conductor import own_file, store
from conductor.terminal import row_pixels
from conductor.view.cell import INCH_MM, cell_of
from conductor.view.legible import GOAL, arc_minutes, farthest, ink_needed, letter_mm
from conductor.view.letters import LARGE_INK, PLAIN_INK

BAR_ROWS = 12  # tall enough for a ruler to tell a tenth of a row, low enough for 15 rows


@click.command()
@click.option("--bar", type=click.FloatRange(5, 600), metavar="MM", help="The bar's height, in mm.")
@click.option(
    "--distance", type=click.FloatRange(0.3, 10), metavar="M", help="From how far you read it."
)
def screen(bar: float | None, distance: float | None) -> None:
    """Measure this terminal with a ruler, so that letters are large enough to read from the mat.

    A bar is drawn; type how tall it is in mm, and from how far you read the screen. Both are kept
    in your settings.toml; your comments there stay.
    """
    pixels = row_pixels()
    asks = bar is None and distance is None and sys.stdin.isatty() and sys.stdout.isatty()
    if asks:
        click.echo("\n".join(ruler()))
        bar = _number("How tall is the bar, in mm? (Enter: as it is) ", 5, 600)
        distance = _number("From how many metres do you read it? (Enter: as it is) ", 0.3, 10)
    try:
        for name, value in measured(bar, distance, pixels).items():
            own_file.keep(store.settings_file(), name, value)
            click.echo(f"Kept in {store.settings_file()}: {name} = {value:g}", err=True)
    except store.SettingsError as error:
        raise click.ClickException(str(error)) from error
    kept = store.kept()
    for words in kept.troubles:
        click.echo(words, err=True)
    cell = cell_of(kept.settings, pixels)
    size = shutil.get_terminal_size()
    far = kept.settings.view_distance_m
    need = ink_needed(cell.height_mm, far)
    click.echo(f"This window: {size.columns} columns, {size.lines} rows.")
    click.echo(f"A row: {cell.height_mm:.2f} mm ({cell.known}).")
    click.echo(
        f"From {far:g} m, {GOAL:.0f} minutes of arc read well: letters of {letter_mm(far):.1f} mm, "
        f"{need:.1f} rows."
    )
    for name, ink in (("Plain text", PLAIN_INK), ("The letters of 4 rows", LARGE_INK)):
        minutes = arc_minutes(cell.height_mm, far, ink)
        near = farthest(cell.height_mm, ink)
        click.echo(f"{name}: {minutes:.0f} minutes of arc; reads well from {near:.1f} m.")
    if not cell.measured:
        click.echo("Nobody has measured it: run `conductor screen` in a terminal, with a ruler.")


def ruler() -> list[str]:
    """A bar of so many whole rows, to hold a ruler beside."""
    bar = [f"  {'█' * 6}"] * BAR_ROWS
    bar[0] += "  <- from the upper edge of this row"
    bar[-1] += "  <- to the lower edge of this one"
    return [*bar, f"  The bar is {BAR_ROWS} rows tall."]


def measured(bar: float | None, distance: float | None, pixels: float | None) -> dict[str, float]:
    """What is to be kept: the screen's density where the pixels are known, else the row's height.

    A density holds for every size of the font; a height only for the one it was measured at.
    """
    kept: dict[str, float] = {}
    if bar is not None:
        row = bar / BAR_ROWS
        kept["cell_mm"] = round(row, 3)
        if pixels:
            kept = {"screen_ppi": round(pixels / row * INCH_MM, 1)}
    if distance is not None:
        kept["view_distance_m"] = distance
    return kept


def _number(question: str, low: float, high: float) -> float | None:
    """A number from the terminal, asked again until it is one; None for an empty line."""
    while True:
        text = click.prompt(question, default="", show_default=False, prompt_suffix="").strip()
        if not text:
            return None
        try:
            value = float(text.replace(",", ".").removesuffix("mm").removesuffix("m"))
        except ValueError:
            value = -1.0
        if low <= value <= high:
            return value
        click.echo(f"A number between {low:g} and {high:g}, please.")
