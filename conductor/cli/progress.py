"""Progress of long work, on one line of a terminal and nowhere else."""

import sys

import click

from conductor.progress import Progress, silent


def on_one_line(title: str) -> Progress:
    """Tell "title: 12 of 300" on standard error, over and over on the same line."""
    if not sys.stderr.isatty():
        return silent

    def told(done: int, total: int) -> None:
        end = "\n" if done == total else ""
        click.echo(f"\r{title}: {done} of {total}{end}", err=True, nl=False)

    return told
