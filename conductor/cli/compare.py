"""`conductor compare`: two classes, or one class at two lengths, held against each other."""

import json
from pathlib import Path

import click

from conductor.cli.drawing import lane_of, led, page_for, time_of, written
from conductor.cli.opening import Opened
from conductor.figure.compare import Comparison, Pair, compared, figure
from conductor.figure.text import Page, text
from conductor.sides import Side
from conductor.view.spell import span

FORMAT = 1
EPILOG = """
\b
--json prints one object; times are ms, the first class's before the second's:
  format   1; it rises when a key goes or means something else
  names    of the two classes, as the words call them
  ms       how long each is;  breaths  how many each leads
  parts, shapes
           a list of name, ms, and times (how often each comes; 0: it is not there)
  sides    ms on the right and on the left of each
  words    what changed, in sentences
"""


@click.command(epilog=EPILOG)
@click.argument("plan")
@click.argument("other", required=False)
@click.option(
    "--length", callback=time_of, metavar="TIME",
    help="Fit the second class to another length first; with one plan, compare it with itself.",
)  # fmt: skip
@click.option("-o", "--output", type=click.Path(dir_okay=False, path_type=Path),
              help="Write a file: .svg or .txt.")  # fmt: skip
@click.option("--width", type=click.IntRange(60, 400), help="Columns of text; else the terminal's.")
@click.option("--row", callback=time_of, metavar="TIME", help="How much time a row shows.")
@click.option(
    "--ascii", "ascii_only", is_flag=True, help="Plain letters, where blocks are not drawn."
)
@click.option("--json", "as_json", is_flag=True, help="JSON for programs; see below.")
def compare(
    plan: str,
    other: str | None,
    length: int,
    output: Path | None,
    width: int | None,
    row: int,
    ascii_only: bool,
    as_json: bool,
) -> None:
    """Say what changed from PLAN to OTHER in time, shapes and sides, and draw both.

    With --length, OTHER (or PLAN itself) is fitted to that length first.
    """
    if other is None and not length:
        raise click.UsageError("name two plans, or one plan and --length, such as --length 45min")
    one, two = led(plan), led(other or plan, length)
    names = _names(one, two, length, alone=other is None)
    _compared(one, two, names, page_for(width or 0, row, ascii_only), output, as_json)


def _compared(
    one: Opened,
    other: Opened,
    names: tuple[str, str],
    page: Page,
    output: Path | None,
    as_json: bool,
) -> None:
    assert one.score is not None  # noqa: S101 -- `led` lets no other through
    assert other.score is not None  # noqa: S101 -- as above
    told = compared(one.score, other.score, names)
    title = f"{names[0]} and {names[1]}"
    if one.score.meta.title == other.score.meta.title:
        title = f"{one.score.meta.title}: {title}"
    missed = [one.words for one in other.findings if one.rule == "length-missed"]
    also = tuple(f"It cannot be met wholly: {words}." for words in missed)
    drawn = figure(title, lane_of(one, names[0]), lane_of(other, names[1]), told, also)
    if as_json:
        click.echo(json.dumps(as_values(told, drawn.words), ensure_ascii=False, indent=1))
    elif output:
        written(drawn, output, page)
    else:
        click.echo(text(drawn, page), nl=False)


def _names(one: Opened, other: Opened, length: int, *, alone: bool) -> tuple[str, str]:
    """What to call the two: by their files, or by how long they are to be."""
    fitted = f"for {span(length)}"
    if alone:
        return "as written", fitted
    first, second = one.path.stem, other.path.stem
    if one.path.suffix != other.path.suffix:  # a plan as it was, kept as plan.yaml.1
        first, second = one.path.name, other.path.name
    if first == second:
        first, second = "the first", "the second"
    return first, f"{second} {fitted}" if length else second


def as_values(one: Comparison, words: tuple[str, ...]) -> dict[str, object]:
    """A comparison as the JSON has it."""
    return {
        "format": FORMAT,
        "names": one.names,
        "ms": one.lengths,
        "breaths": one.breaths,
        "parts": [_pair(pair) for pair in one.parts],
        "shapes": [_pair(pair) for pair in one.shapes],
        "sides": [{side.value: spent[side] for side in Side} for spent in one.sides],
        "words": words,
    }


def _pair(pair: Pair) -> dict[str, object]:
    return {
        "name": pair.name,
        "ms": [pair.first_ms, pair.second_ms],
        "times": [pair.first_times, pair.second_times],
    }
