"""Telling findings on a terminal: the one place that prints them."""

import click

from conductor.cli.opening import Opened
from conductor.findings import Finding, Weight
from conductor.plan.show import show


def counted(findings: tuple[Finding, ...]) -> str:
    """Count findings by weight in words: "1 error, 3 remarks"."""
    words = []
    for weight in Weight:
        number = sum(finding.weight is weight for finding in findings)
        if number:
            words.append(f"{number} {weight}{'' if number == 1 else 's'}")
    return ", ".join(words) or "nothing to say"


def tell(opened: Opened) -> None:
    """Print the findings of a plan to standard error, with their lines."""
    if opened.findings:
        click.echo(show(opened.findings, opened.sources), err=True, nl=False)
    click.echo(f"{opened.path}: {counted(opened.findings)}", err=True)
