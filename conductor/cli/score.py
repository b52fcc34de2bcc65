"""`conductor score`: the compiled plan as a table, or in its one JSON form."""

import click

from conductor.cli.opening import find, opened
from conductor.cli.tell import tell


@click.command()
@click.argument("plan")
@click.option("--json", "as_json", is_flag=True, help="The score's one canonical JSON form.")
@click.option("--every", is_flag=True, help="Every breath of a stay on a line of its own.")
def score(plan: str, as_json: bool, every: bool) -> None:
    """Print the score of PLAN: every moment with its time, side, facing and words."""
    found = opened(find(plan))
    if found.score is None:
        tell(found)
        raise SystemExit(1)
    if as_json:
        from conductor.score.form import to_json  # noqa: PLC0415 -- only for this form

        click.echo(to_json(found.score))
        return
    from conductor.report.score import table  # noqa: PLC0415 -- only for this form

    click.echo(table(found.score, found.cues, every=every), nl=False)
