"""`conductor fit`: the class of another length that is nearest to a plan, written if wanted."""

import json
from collections.abc import Sequence
from pathlib import Path

import click

from conductor.cli import rewriting
from conductor.cli.opening import find, opened_text, planned, text_of
from conductor.cli.rewriting import asking, refused, said_anew, shown
from conductor.cli.tell import tell
from conductor.fit.fitting import Fitter, UnfitError
from conductor.fit.model import Fitting
from conductor.plan import amounts, limits
from conductor.plan.edit import EditError
from conductor.report import fitting as report
from conductor.rewrite import Original, original
from conductor.shapes.catalogue import load

FORMAT = 1
EPILOG = """
What is sought, each before the next: the length is met; the fewest passages go (may drop);
parts come near their shares (share); the fewest rounds change (may repeat, least); the breath
differs least (breath may stretch); the final rest gives least; every stay is as near to the plan
as it can be.
Stays change by whole breaths, within their bounds, both sides alike. Nothing else is touched.

\b
  conductor fit my-class.yaml --length 45min            shows what would change
  conductor fit my-class.yaml --length 45min --write    writes it, after a question
  conductor fit my-class.yaml --length 30,45,60,75      what each length would need

\b
Exit code: 0 when every length is met, 1 when one is not or the plan has errors,
2 for wrong use.

\b
--json prints one object: format (1), file, written_ms, fittings: for each length
  length_ms, met, ends_ms, misses_ms, shortest_ms, longest_ms, reason,
  changes    kind (stay, rounds, breath, passage), line, column, what, parts,
             before, after, times (how often it is led), ms (longer by)
  parts      name, before_ms, after_ms, least_ms, wish_ms
  text       the fitted plan; null where the length is not met
"""


def _lengths(_: click.Context, param: click.Parameter, values: Sequence[str]) -> tuple[int, ...]:
    """Times as plans write them, or minutes alone; several with commas."""
    found = []
    for value in ",".join(values).split(","):
        word = value.strip()
        minutes = f"{word} min" if word.replace(".", "", 1).isdecimal() else word
        read = amounts.amount(minutes)
        if read is None or not read[1]:
            words = f"{word!r} is no length; write it like 45min, 1:15:00 or 30,45,60"
            raise click.BadParameter(words, param=param)
        if read[1] > limits.TIME_MS:
            hours = limits.TIME_MS // 3_600_000
            raise click.BadParameter(f"{word} is more than a class of {hours} hours", param=param)
        found.append(read[1])
    return tuple(dict.fromkeys(found))


@click.command(epilog=EPILOG)
@click.argument("plan")
@click.option(
    "--length", "lengths", multiple=True, required=True, callback=_lengths, metavar="TIME[,TIME]",
    help="How long the class shall be; several give a table.",
)  # fmt: skip
@click.option("--write", "-w", is_flag=True, help="Write the fitted plan; the old one is kept.")
@click.option("-o", "--output", type=click.Path(dir_okay=False, path_type=Path),
              help="Write the fitted plan into this new file instead.")  # fmt: skip
@click.option("--yes", "-y", is_flag=True, help="Write without asking.")
@click.option("--json", "as_json", is_flag=True, help="JSON for programs; see below.")
def fit(
    plan: str,
    lengths: tuple[int, ...],
    write: bool,
    output: Path | None,
    yes: bool,
    as_json: bool,
) -> None:
    """Find the class of another length that is nearest to PLAN, and write it into the plan.

    Shows what would change first; comments and layout of the plan stay as they are.
    """
    path = find(plan)
    _may_write(path, lengths, write, output, yes)
    old, fitter = _fitter(path)
    try:
        fittings = [fitter.fit(length) for length in lengths]
    except (UnfitError, EditError) as error:
        raise click.ClickException(str(error)) from error
    if as_json:
        _json(path, fitter, fittings)
    elif len(fittings) > 1:
        click.echo(f"{_head(fitter)}\n\n{report.table(fittings)}", nl=False)
    else:
        _show(path, fitter, fittings[0], plain=not (write or output))
    met = all(one.met for one in fittings)
    if met and (write or output):
        rewriting.write(old, fittings[0].text, output, yes=yes)
    raise SystemExit(0 if met else 1)


def _may_write(
    path: Path, lengths: Sequence[int], write: bool, output: Path | None, yes: bool
) -> None:
    """Refuse at once what could not be written in the end."""
    if not (write or output):
        return
    if len(lengths) > 1:
        raise click.UsageError("one length can be written at a time")
    if write and output:
        raise click.UsageError("--write changes the plan itself, -o writes another file: take one")
    refused(path, output)
    if not yes and not asking():
        raise click.UsageError("nobody can be asked here: say --yes to write without a question")


def _fitter(path: Path) -> tuple[Original, Fitter]:
    """Read and measure the plan, or tell its faults and end."""
    text, _ = text_of(path)
    whole = opened_text(path, text) if text else None
    found = planned(path, text)[0] if whole and whole.score is not None else None
    if found is None or whole is None or not whole.leadable:
        from conductor.cli.opening import opened  # noqa: PLC0415 -- tells what cannot be read too

        tell(opened(path))
        click.echo("A plan with errors cannot be fitted: mend them first.", err=True)
        raise SystemExit(1)
    old = original(path)
    try:
        return old, Fitter(old.text, found, load())
    except (UnfitError, EditError) as error:
        raise click.ClickException(str(error)) from error


def _head(fitter: Fitter) -> str:
    written = sum(one.length({}) for one in fitter.nearest.measures)
    plan = fitter.nearest.plan
    return report.head(plan.title.value, written, plan.length.ms if plan.length else 0)


def _show(path: Path, fitter: Fitter, one: Fitting, *, plain: bool) -> None:
    """All there is to say of one length: words first, then the lines of the plan."""
    click.echo(f"{_head(fitter)}\n{report.summary(one)}")
    if not one.met:
        return
    click.echo(f"\nWhat changes:\n{report.rows(one)}\nParts:\n{report.parts(one)}")
    for line in shown(fitter.text, one.text, path.name):
        click.echo(line)
    fresh, words = said_anew(path, fitter.text, one.text)
    if fresh:
        click.echo("\nThe check says of the fitted plan what it does not say of this one:\n")
        click.echo(words, nl=False)
    if plain:
        click.echo("\nNothing is written. --write changes the plan, -o FILE writes another one.")


def _json(path: Path, fitter: Fitter, fittings: Sequence[Fitting]) -> None:
    found = {
        "format": FORMAT,
        "file": str(path),
        "written_ms": sum(one.length({}) for one in fitter.nearest.measures),
        "fittings": [report.as_values(one) for one in fittings],
    }
    click.echo(json.dumps(found, ensure_ascii=False, indent=1))
