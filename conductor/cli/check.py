"""`conductor check`: prove plans sound before anybody stands on a mat."""

import click

from conductor.cli.opening import find, opened
from conductor.cli.tell import tell
from conductor.findings import Weight, worst


@click.command()
@click.argument("plans", nargs=-1, required=True)
@click.option("--strict", is_flag=True, help="Warnings fail too.")
def check(plans: tuple[str, ...], strict: bool) -> None:
    """Check PLANS: files, or shipped plans by name."""
    failed = False
    for name in plans:
        result = opened(find(name))
        tell(result)
        heaviest = worst(result.findings)
        failed |= heaviest is Weight.ERROR or (strict and heaviest is Weight.WARNING)
    raise SystemExit(1 if failed else 0)
