"""A changed plan before it is written: its lines, what the check says anew, the question."""

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from conductor import places
from conductor.cli.opening import opened_text
from conductor.cli.tell import painter
from conductor.findings import Finding, Weight
from conductor.plan.edit import difference
from conductor.plan.show import show
from conductor.rewrite import Original, rewrite
from conductor.view.clean import clean

MARK = "\ufeff"  # of byte order; the compiler reads a text without it


def refused(path: Path, output: Path | None) -> None:
    """Say why a plan cannot be written, before anything is worked out for it."""
    if output and output.exists():
        raise click.UsageError(f"{output} is there already: name a new file")
    if not output and path.resolve() in {one.resolve() for one in places.shipped_plans()}:
        words = f"{path.stem} comes with the program; write your own with -o {path.name}"
        raise click.UsageError(words)


def shown(old: str, new: str, name: str) -> Iterator[str]:
    """The lines that change, in colour where there is some; their signs say the same."""
    paint = painter(sys.stdout)
    for line in difference(old, new, name).splitlines():
        kind = {"+": "hint", "-": "error", "@": "remark"}.get(line[:1], "")
        yield paint(clean(line), kind) if kind else clean(line)


def said_anew(path: Path, old: str, new: str) -> tuple[list[Finding], str]:
    """What the check says of the new text that it does not say of the old one, and that shown."""
    known = {(one.rule, one.words) for one in _findings(path, old)}
    fresh = [one for one in _findings(path, new) if (one.rule, one.words) not in known]
    return fresh, show(fresh, {str(path): new.removeprefix(MARK)}, painter(sys.stdout))


def _findings(path: Path, text: str) -> list[Finding]:
    told = opened_text(path, text.removeprefix(MARK)).findings
    return [one for one in told if one.weight is not Weight.REMARK]


def write(old: Original, text: str, output: Path | None, *, yes: bool) -> bool:
    """Write the plan, after a question unless told not to ask; whether it was written."""
    where = output or old.path
    if not yes and not asking():
        click.echo("Nothing is written: nobody can be asked here; --yes writes it.", err=True)
        return False
    if not yes and not click.confirm(f"\nWrite this to {where.name}?", err=True):
        click.echo("Nothing is written.", err=True)
        return False
    try:
        if output:
            with output.open("xb") as file:
                file.write(text.encode("utf-8"))
            click.echo(f"Written to {output}.", err=True)
        else:
            kept = rewrite(old, text)
            click.echo(f"Written; the plan as it was is kept as {kept.name}.", err=True)
    except OSError as error:
        raise click.ClickException(f"nothing is written: {error.strerror or error}") from error
    return True


def asking() -> bool:
    """Whether somebody is there to be asked."""
    return sys.stdin.isatty()
