"""Telling on a terminal: findings, colour where it is wanted, and a bar of progress."""

import os
import sys
import time
from typing import TextIO

import click

from conductor.cli.opening import Opened
from conductor.plan.show import Paint, plain, show
from conductor.report.findings import count, file_line

_COLOURS = {
    "error": "\x1b[1;31m",
    "warning": "\x1b[1;33m",
    "remark": "\x1b[36m",
    "place": "\x1b[1m",
    "caret": "\x1b[1;35m",
    "hint": "\x1b[32m",
}
_RESET = "\x1b[0m"
_WIDTH = 30
_EVERY_S = 0.1


def coloured(text: str, what: str) -> str:
    """Colour a text by what it is; the words say the same without colour."""
    return f"{_COLOURS[what]}{text}{_RESET}" if what in _COLOURS else text


def painter(stream: TextIO) -> Paint:
    """Colour on a terminal only, and not where NO_COLOR is set to anything."""
    wanted = stream.isatty() and not os.environ.get("NO_COLOR")
    return coloured if wanted and os.environ.get("TERM") != "dumb" else plain


class Bar:
    """A bar of progress on a terminal; silent elsewhere. Call it with how many are done."""

    def __init__(self, what: str, stream: TextIO | None = None) -> None:
        self._what = what
        self._stream = stream or sys.stderr
        self._on = self._stream.isatty()
        self._next = 0.0
        self._shown = False

    def __call__(self, done: int, total: int) -> None:
        """Draw it, at most ten times a second, and take it away at the end."""
        if not self._on:
            return
        if done >= total:
            self.clear()
            return
        now = time.monotonic()
        if now >= self._next:
            self._next = now + _EVERY_S
            filled = _WIDTH * done // total
            bar = f"[{'#' * filled}{'.' * (_WIDTH - filled)}]"
            self._stream.write(f"\r{self._what} {bar} {done:,} of {total:,}")
            self._stream.flush()
            self._shown = True

    def clear(self) -> None:
        """Take the line away, so that text can be written there."""
        if self._shown:
            self._stream.write("\r\x1b[K")
            self._stream.flush()
            self._shown, self._next = False, 0.0


def tell(opened: Opened) -> None:
    """Print the findings of a plan to standard error, with their lines."""
    paint = painter(sys.stderr)
    if opened.findings:
        click.echo(show(opened.findings, opened.sources, paint), err=True, nl=False)
    click.echo(file_line(str(opened.path), count(opened.findings), paint), err=True)
