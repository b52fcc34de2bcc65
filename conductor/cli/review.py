"""`conductor review`: how a class went, as text or JSON; the classes there are."""

import json
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from conductor import store
from conductor.run.review.kept import JOURNAL, BadJournalError, Head, earlier, glance, heads, load
from conductor.run.review.model import FORM
from conductor.run.review.propose import proposal
from conductor.run.review.wishes import Reviewed
from conductor.run.review.words import after, ended, rehearsed
from conductor.score.form import plain
from conductor.view.clean import clean
from conductor.view.spell import span

LISTED = 30


@click.command()
@click.argument("which", metavar="[CLASS]", required=False)
@click.option("--list", "listing", is_flag=True, help="List the classes that were kept.")
@click.option("--all", "every", is_flag=True, help="With --list: all of them.")
@click.option("--json", "as_json", is_flag=True, help="Everything that was counted, for programs.")
@click.option("--picture", is_flag=True, help="Draw it as planned and as led, on one scale.")
@click.option(
    "-o", "--output", type=click.Path(dir_okay=False, path_type=Path),
    help="Write that picture to a file: .svg or .txt.",
)  # fmt: skip
def review(
    which: str | None,
    listing: bool,
    every: bool,
    as_json: bool,
    picture: bool,
    output: Path | None,
) -> None:
    """Show how a class went: where the time went, the sides, what to change next time.

    CLASS is its number in `conductor review --list`, the day it was led (2026-11-25, or with its
    hour: "2026-11-25 18"), or the file of its journal. Without one it is the last class led.
    Rehearsals at another speed are listed too and marked, but count for nothing.
    """
    folder = store.journals()
    if listing:
        _list(folder, None if every else LISTED)
        return
    head, note = _chosen(folder, which)
    try:
        now = load(head)
    except BadJournalError as error:
        raise click.ClickException(str(error)) from error
    if not now.review.line:
        raise click.ClickException(f"{head}: this class never began")
    others = earlier(folder, now.review)
    if note:
        click.echo(note, err=True)
    if picture or output:
        _draw(now, others, output)
    else:
        click.echo(_json(now, others) if as_json else "\n".join(after(now, others).lines))


def _draw(now: Reviewed, others: Sequence[Reviewed], output: Path | None) -> None:
    from conductor.cli.drawing import page_for, written  # noqa: PLC0415 -- only for a picture
    from conductor.figure.text import text  # noqa: PLC0415 -- as above
    from conductor.run.review.picture import figure  # noqa: PLC0415 -- as above

    page = page_for(0, 0, ascii_only=False)
    drawn = figure(now, others)
    if output:
        written(drawn, output, page)
    else:
        click.echo(text(drawn, page), nl=False)


def _json(now: Reviewed, others: Sequence[Reviewed]) -> str:
    form = {"review": FORM, "proposal": proposal(now, others), **_fields(now)}
    return json.dumps(form, ensure_ascii=False, indent=1)


def _fields(now: Reviewed) -> dict[str, object]:
    fields = plain(now.review)
    assert isinstance(fields, dict)  # noqa: S101 -- a review is a struct
    return fields


def _chosen(folder: Path, which: str | None) -> tuple[Path, str]:
    """The journal asked for, and what is to be said about the choice."""
    if which and (path := Path(which)).suffix in (JOURNAL, ".json") and path.is_file():
        return path.with_name(path.name.split(".")[0] + JOURNAL), ""
    found = heads(folder)
    if which is None:
        return _last(found)
    if which.isdecimal() and len(which) < 4:  # a longer number is a year
        return _numbered(found, int(which)), ""
    return _dated(found, which)


def _last(found: Iterator[Head]) -> tuple[Path, str]:
    """The newest class that really led something; a rehearsal only where there is no class."""
    rehearsed: Path | None = None
    for head in found:
        if head.rehearsal:
            rehearsed = rehearsed or head.path
        elif _began(head.path):
            return head.path, ""
    if rehearsed is None:
        raise click.ClickException("no class has been kept yet: lead one, then come back")
    return rehearsed, "No class has been led yet; this is the last rehearsal."


def _began(path: Path) -> bool:
    try:
        return b'"kind":"moment"' in path.read_bytes()
    except OSError:
        return False


def _numbered(found: Iterator[Head], number: int) -> Path:
    for at, head in enumerate(found, start=1):
        if at == number:
            return head.path
    raise click.UsageError(f"there is no class {number}: `conductor review --list` numbers them")


def _dated(found: Iterator[Head], day: str) -> tuple[Path, str]:
    wanted = day.strip().replace(" ", "T").replace(":", "-")
    those = [head for head in found if head.path.name.startswith(wanted)]
    if not those:
        words = "no class was kept on that day, and no journal has that name"
        raise click.UsageError(f"{day}: {words}; `conductor review --list` shows what there is")
    more = "" if len(those) == 1 else f"{len(those)} classes are of {day}; this is the last."
    return those[0].path, more


def _list(folder: Path, most: int | None) -> None:
    number = 0
    for number, head in enumerate(heads(folder), start=1):
        if most is not None and number > most:
            click.echo(f"The newest {most}; --all lists all of them.")
            return
        click.echo(_line(number, head))
    if not number:
        click.echo("No class has been kept yet.")


def _line(number: int, head: Head) -> str:
    when = head.when
    date = f"{when:%Y-%m-%d %H:%M}" if when else "at a time unknown"
    try:
        seen = glance(head)
        told = f"{span(seen[0]):>12}  {ended(seen[1])}" if seen else f"{'':12}  never began"
    except BadJournalError as error:
        told = f"{'':12}  cannot be read: {str(error).removeprefix(f'{head.path}')[2:]}"
    apart = f", {rehearsed(head.speed)}" if head.rehearsal else ""
    return f"{number:>3}  {date}  {clean(head.title):<28} {told}{apart}"
