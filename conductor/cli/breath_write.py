"""A measured breath written into a plan: its line shown first, a question, the old file kept."""

import click

from conductor.cli.opening import find
from conductor.cli.rewriting import refused, said_anew, shown, write
from conductor.findings import Weight
from conductor.plan.edit import EditError, changed, put
from conductor.plan.reading import Items, Scalar, Table
from conductor.plan.sheet import Place, Sheet
from conductor.rewrite import original
from conductor.shapes.names import key


def write_breath(plan: str, value: str, part: str | None, *, yes: bool) -> None:
    """Give the plan, or one part of it, this `breath:`; nothing else of its text changes."""
    path = find(plan)
    refused(path, None)
    old = original(path)
    try:
        sheet = Sheet(old.text)
        where = _part(sheet, part) if part else ()
        text = changed(sheet, [put(sheet, where, "breath", value, "part" if part else "title")])
    except (EditError, UnicodeDecodeError) as error:
        raise click.ClickException(f"the plan cannot be changed: {error}") from error
    if text == old.text:
        click.echo("The plan has this breath already.", err=True)
        return
    for line in shown(old.text, text, path.name):
        click.echo(line, err=True)
    fresh, words = said_anew(path, old.text, text)
    if fresh:
        click.echo(f"\nThe check says of it:\n\n{words}", err=True, nl=False)
    if any(one.weight is Weight.ERROR for one in fresh):
        raise click.ClickException("with an error it would not be led: nothing is written")
    write(old, text, None, yes=yes)


def _part(sheet: Sheet, name: str) -> Place:
    """The way to the part of that name."""
    root = sheet.root
    parts = root.pairs["parts"][1] if type(root) is Table and "parts" in root.pairs else None
    names = []
    for number, node in enumerate(parts.items if type(parts) is Items else ()):
        pair = node.pairs.get("part") if type(node) is Table else None
        if pair and type(pair[1]) is Scalar:
            names.append(pair[1].value)
            if key(pair[1].value) == key(name):
                return ("parts", number)
    known = ", ".join(names)
    raise click.UsageError(f"there is no part {name!r} in the plan; there are: {known}.")
