"""Lists and explanations: plans, shapes, rules."""

import click

from conductor import places
from conductor.report import lists as report


@click.command()
def language() -> None:
    """Show the plan language: every key with what it means and an example."""
    from conductor.report.language import page  # noqa: PLC0415 -- only here

    click.echo(page())


@click.command()
def plans() -> None:
    """List the plans that come with the program."""
    from conductor.cli.opening import opened  # noqa: PLC0415 -- the compiler, only here

    for path in places.shipped_plans():
        click.echo(report.plan_line(path.stem, opened(path).score))


@click.command()
@click.argument("words", nargs=-1)
def shapes(words: tuple[str, ...]) -> None:
    """List all shapes, or those whose names, family or areas hold all of WORDS."""
    from conductor.shapes.catalogue import load  # noqa: PLC0415 -- only here

    lines = report.shape_lines(load().shapes.values(), words)
    if not lines:
        raise click.ClickException(f"no shape has {' '.join(words)} in its names, family or areas")
    click.echo("\n".join(lines))


@click.command()
@click.argument("name", nargs=-1, required=True)
def shape(name: tuple[str, ...]) -> None:
    """Show the shape NAME wholly, with what usually comes before and after."""
    from conductor.shapes.catalogue import load  # noqa: PLC0415 -- only here

    catalogue = load()
    text = " ".join(name)
    found = catalogue.find(text)
    if found is None:
        near = catalogue.nearest(text)
        hint = f"; did you mean {near}?" if near else ""
        raise click.ClickException(f"no shape is called {text}{hint}")
    click.echo(report.shape_page(found.shape, catalogue.shapes))


@click.command()
def rules() -> None:
    """List every rule with its weight and its sentence."""
    from conductor.cli.rulebook import RULES  # noqa: PLC0415 -- only here

    click.echo("\n".join(report.rule_lines(RULES)))


@click.command()
@click.argument("name")
def rule(name: str) -> None:
    """Explain the rule NAME: what, why, thresholds, a bad and a good example."""
    from conductor.cli.rulebook import RULES, limits_of, may_be_off  # noqa: PLC0415 -- only here

    known = {one.name: one for one in RULES}
    if name not in known:
        near = _nearest(name, [*known])
        hint = f"did you mean {near}?" if near else "`conductor rules` lists them"
        raise click.ClickException(f"no rule is called {name}; {hint}")
    page = report.rule_page(known[name], limits_of(name), may_be_off=may_be_off(name))
    click.echo(page)


def _nearest(name: str, known: list[str]) -> str | None:
    from rapidfuzz import process  # noqa: PLC0415 -- only on a slip

    match = process.extractOne(name.lower(), known, score_cutoff=65)
    return match[0] if match else None
