"""`conductor picture`: a class as lanes over its time, in the terminal or as a file."""

from pathlib import Path

import click

from conductor.cli.drawing import head_of, lane_of, led, page_for, time_of, written
from conductor.figure.model import Figure
from conductor.figure.text import text

EPILOG = """
\b
parts     the named parts of the class
shapes    by name, where a name fits; slanted lines (░) are rest
effort    levels of the shapes, more where they load or move with the breath
sides     the right above an axis, the left below it: what is uneven stands out
breath    the longer a breath, the higher; ~ is one's own breath
voice     when something is said, a bell, and silence between
facing    an end of the mat, or a long side
weight    what carries it: every way to the floor and back
wrists    how much they bear
"""


@click.command(epilog=EPILOG)
@click.argument("plan")
@click.option(
    "-o", "--output", type=click.Path(dir_okay=False, path_type=Path),
    help="Write a file: .svg to print or to look at, .txt as in the terminal.",
)  # fmt: skip
@click.option("--width", type=click.IntRange(60, 400), help="Columns of text; else the terminal's.")
@click.option(
    "--row", callback=time_of, metavar="TIME",
    help="How much time a row shows, such as 10min; a class takes as many rows as it needs.",
)  # fmt: skip
@click.option(
    "--ascii", "ascii_only", is_flag=True, help="Plain letters, where blocks are not drawn."
)
def picture(plan: str, output: Path | None, width: int | None, row: int, ascii_only: bool) -> None:
    """Draw the class of PLAN as lanes over its time, with what each comes to in words."""
    found = led(plan)
    assert found.score is not None  # noqa: S101 -- `led` lets no other through
    figure = Figure(found.score.meta.title, (lane_of(found),), (head_of(found.score),))
    page = page_for(width or 0, row, ascii_only)
    if output:
        written(figure, output, page)
    else:
        click.echo(text(figure, page), nl=False)
