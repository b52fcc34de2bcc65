"""Drawing a plan: its figure, the width of the terminal, colours, and writing a picture down."""

import os
import shutil
import sys
from pathlib import Path

import click

from conductor.cli.opening import Opened, find, opened
from conductor.cli.tell import painter, tell
from conductor.figure.model import Figure, Timeline
from conductor.figure.text import Page
from conductor.figure.timeline import timeline
from conductor.plan import amounts
from conductor.plan.show import Paint, plain
from conductor.score.model import Score
from conductor.view.spell import span

KINDS = (".svg", ".txt")
_RESET = "\x1b[0m"
_INKS = {
    "right": "\x1b[31m",
    "left": "\x1b[34m",
    "effort": "\x1b[33m",
    "load": "\x1b[35m",
    "speech": "\x1b[36m",
    "bell": "\x1b[1;35m",
    "rest": "\x1b[32m",
    "held": "\x1b[1;33m",
    "stopped": "\x1b[1;31m",
    "added": "\x1b[1;32m",
    "left out": "\x1b[1;31m",
}


def inked(text: str, kind: str) -> str:
    """Colour a text by its kind of stretch; the signs say the same without colour."""
    return f"{_INKS[kind]}{text}{_RESET}" if kind in _INKS else text


def time_of(_: click.Context, param: click.Parameter, value: str | None) -> int:
    """A time as plans write it (10 min, 45min, 1:30) in ms; 0 where none is given."""
    if value is None:
        return 0
    found = amounts.amount(value)
    if found is None or not found[1]:
        raise click.BadParameter(
            f"{value!r} is no time; write it like 10min, 90s or 1:30", param=param
        )
    return found[1]


def led(name: str, length_ms: int = 0) -> Opened:
    """A plan with its score (of another length, if any), or its findings told and the end."""
    found = opened(find(name), length_ms=length_ms)
    if found.score is None:
        tell(found)
        raise SystemExit(1)
    return found


def lane_of(found: Opened, name: str = "planned") -> Timeline:
    """The timeline of a plan that has a score."""
    assert found.score is not None  # noqa: S101 -- `led` lets no other through
    return timeline(found.score, found.cues, found.shapes, name)


def head_of(score: Score) -> str:
    """What the plan says of itself, in one line."""
    meta = score.meta
    asked = f", asked for {span(meta.length)}" if meta.length else ""
    level = f"for {meta.for_}; " if meta.for_ else ""
    breath = f"{meta.inhale / 1000:g} s in, {meta.exhale / 1000:g} s out"
    return (
        f"{meta.kind}, {span(score.length)}{asked}; {level}breath {breath}; "
        f"first side {meta.first_side}"
    )


def page_for(columns: int, row_ms: int, ascii_only: bool, ink: Paint = inked) -> Page:
    """How this terminal wants a figure: its width, its colours, its letters."""
    columns = columns or shutil.get_terminal_size((80, 24)).columns
    paint = plain if painter(sys.stdout) is plain else ink
    return Page(columns, row_ms, ascii_only or _plain_letters(), paint)


def _plain_letters() -> bool:
    """Whether the terminal is set to letters in which there are no blocks."""
    names = ("LC_ALL", "LC_CTYPE", "LANG")
    where = next((os.environ[name] for name in names if os.environ.get(name)), "")
    return where.upper() in {"C", "POSIX"}


def written(figure: Figure, output: Path, page: Page) -> None:
    """Write a figure to a file, as the ending of its name says."""
    if output.suffix.lower() not in KINDS:
        raise click.UsageError(f"name a file that ends in {' or '.join(KINDS)}")
    if output.suffix.lower() == ".svg":
        from conductor.figure.svg import svg  # noqa: PLC0415 -- only for a file

        made = svg(figure, page.row_ms)
    else:
        from conductor.figure.text import text  # noqa: PLC0415 -- only for a file

        made = text(figure, Page(page.columns, page.row_ms, page.ascii_only))
    try:
        output.write_text(made, "utf-8")
    except OSError as error:
        raise click.ClickException(f"{output}: {error.strerror}") from error
    click.echo(f"{output}: {figure.title}, {span(figure.length)}", err=True)
