"""`conductor check`: prove plans sound before anybody stands on a mat."""

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from conductor.cli.checking import Checked, How, Wanted, looked, told, trouble, wanted
from conductor.cli.tell import Bar, coloured, painter
from conductor.report.findings import JSON_HEAD, Counts, json_tail, total_line

FEW_LINES = 20  # from more plans on, those of which there is nothing to say get no line
INTERRUPTED = 130  # what a shell expects of a program ended by ctrl-c

EPILOG = """
\b
Exit code: 0 when all is well, 1 when there are errors (with --strict also warnings),
2 for wrong use, 130 when interrupted.

\b
--json prints one object, one finding a line:
  format     1; it rises when a key goes or means something else, not when one is added
  findings   a list, in the order of files and lines; each of them has
    file, line, column, end_column
               from 1, end_column is the one after the last; null where there is no one place
    rule       its name, as `conductor rule NAME` explains it
    weight     error, warning or remark
    words      what is wrong, for a person
    hint       what to do or to type; "" for none
    also       the cause elsewhere: a list of file, line, column, end_column and words
    times      how often the line has this fault in the class
  summary    files, errors, warnings, remarks, failed (whether the exit code is 1),
             passed_over (files in folders that are no plans)
"""


@click.command(epilog=EPILOG)
@click.argument("plans", nargs=-1, required=True)
@click.option("--json", "as_json", is_flag=True, help="JSON for editors and CI; see below.")
@click.option("--voice", is_flag=True, help="Judge words on speech as rendered, not estimated.")
@click.option("--strict", is_flag=True, help="Warnings fail too.")
@click.option("--errors-only", is_flag=True, help="Show errors only; the rest is still counted.")
def check(
    plans: tuple[str, ...], as_json: bool, voice: bool, strict: bool, errors_only: bool
) -> None:
    """Check PLANS: files, shipped plans by name, or folders with all the plans below them."""
    found = wanted(plans)
    paint = painter(sys.stdout)
    how = How(as_json, paint is coloured, errors_only, brief=len(found.plans) > FEW_LINES)
    results = _voiced(found.plans, how) if voice else looked(found.plans, how)
    try:
        failed = _print(results, found, how, strict=strict)
    except KeyboardInterrupt:
        click.echo("\nStopped before the end: not all plans were checked.", err=True)
        raise SystemExit(INTERRUPTED) from None
    raise SystemExit(1 if failed else 0)


def _print(results: Iterator[Checked], found: Wanted, how: How, *, strict: bool) -> bool:
    """Print each plan as it comes, then the sum; whether the check failed."""
    bar = Bar("Checking")
    total, touched, done, rows = Counts(), 0, 0, 0
    if how.as_json:
        click.echo(JSON_HEAD, nl=False)
    for one in results:
        total += one.counts
        touched += one.counts != Counts()
        done += 1
        if one.text or one.rows:
            bar.clear()
            click.echo(one.text or _rows(one.rows, first=not rows), nl=False)
            rows += len(one.rows)
        bar(done, len(found.plans))
    failed = bool(total.errors or (strict and total.warnings))
    if how.as_json:
        names = [str(path) for path in found.passed_over]
        tail = json_tail(done, total, failed=failed, passed_over=names)
        click.echo(("\n" if rows else "") + tail, nl=False)
    elif done != 1 or found.passed_over:
        click.echo(total_line(done, total, touched, len(found.passed_over)))
    return failed


def _rows(rows: Sequence[str], *, first: bool) -> str:
    return ("\n" if first else ",\n") + ",\n".join(rows)


def _voiced(paths: Sequence[Path], how: How) -> Iterator[Checked]:
    """Check plans on speech as rendered in the person's own voice, what is missing first."""
    from conductor import store  # noqa: PLC0415 -- only with a voice
    from conductor.cli.voiced import opened_with_voice  # noqa: PLC0415 -- only with a voice

    try:
        settings = store.settings()
    except store.SettingsError as error:
        raise click.UsageError(str(error)) from error
    for path in paths:
        try:
            found = opened_with_voice(path, settings, Bar("Rendering the voice"))
        except OSError as error:
            words = f"the file cannot be read: {error.strerror or error}"
            yield trouble(path, "unreadable-file", words, how)
        else:
            yield told(found, how)
