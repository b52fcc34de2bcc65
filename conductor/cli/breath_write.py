"""A measured breath written into a plan: its line shown first, a question, the old file kept."""

import click

from conductor.cli.opening import find
from conductor.cli.rewriting import refused, said_anew, shown, write
from conductor.findings import Weight
from conductor.plan.edit import EditError, changed, put
from conductor.plan.reading import Items, Scalar, Table
from conductor.plan.sheet import Place, Sheet
from conductor.rewrite import Original, original
from conductor.shapes.names import key
from conductor.values import Struct


class Target(Struct, frozen=True):
    """Where a breath is to be written: a plan as it is, and the way to its head or to a part."""

    old: Original
    sheet: Sheet
    where: Place


def target(plan: str, part: str | None) -> Target:
    """Find the place, before anybody sits down to breathe for it; what is wrong is told."""
    path = find(plan)
    refused(path, None)
    try:
        old = original(path)
        sheet = Sheet(old.text)
    except (OSError, EditError, UnicodeDecodeError) as error:
        raise click.ClickException(f"the plan cannot be changed: {error}") from error
    return Target(old, sheet, _part(sheet, part) if part else ())


def write_breath(to: Target, value: str, *, yes: bool) -> None:
    """Give the plan, or one part of it, this `breath:`; nothing else of its text changes."""
    old, after = to.old, "part" if to.where else "title"
    try:
        text = changed(to.sheet, [put(to.sheet, to.where, "breath", value, after)])
    except EditError as error:
        raise click.ClickException(f"the plan cannot be changed: {error}") from error
    if text == old.text:
        click.echo("The plan has this breath already.", err=True)
        return
    fresh, words = said_anew(old.path, old.text, text)
    if fresh:
        click.echo(f"\nThe check says of it:\n\n{words}", err=True)
    for line in shown(old.text, text, old.path.name):
        click.echo(line, err=True)
    if any(one.weight is Weight.ERROR for one in fresh):
        raise click.ClickException("with an error it would not be led: nothing is written")
    write(old, text, None, yes=yes)


def _part(sheet: Sheet, name: str) -> Place:
    """The way to the part of that name, or the only one that begins so."""
    root = sheet.root
    parts = root.pairs["parts"][1] if type(root) is Table and "parts" in root.pairs else None
    names: dict[int, str] = {}
    for number, node in enumerate(parts.items if type(parts) is Items else ()):
        pair = node.pairs.get("part") if type(node) is Table else None
        if pair and type(pair[1]) is Scalar:
            names[number] = pair[1].value
    exact = [number for number, one in names.items() if key(one) == key(name)]
    begun = [number for number, one in names.items() if key(one).startswith(key(name))]
    if exact or len(begun) == 1:
        return ("parts", (exact or begun)[0])
    known = ", ".join(names.values())
    raise click.UsageError(f"there is no part {name!r} in the plan; there are: {known}.")
