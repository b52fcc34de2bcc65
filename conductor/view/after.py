"""The page about a class that is over, as both front ends and the command line show it."""

from textwrap import wrap

from conductor.values import Struct

LINE = "\n"
WIDTH = 80


class After(Struct, frozen=True):
    """Three things first, each under its heading, and below them the blocks with the figures.

    `kept`: whether there is a journal by which it can be shown again.
    """

    title: str
    first: tuple[tuple[str, str], ...]
    blocks: tuple[tuple[str, tuple[str, ...]], ...] = ()
    kept: bool = True

    @property
    def told(self) -> tuple[str, ...]:
        """The three things alone, a line each: for where a class has just been told in lines."""
        again = ("`conductor review` tells all of it.",) if self.kept else ()
        told = (f"{heading}: {' '.join(words.split(LINE))}" for heading, words in self.first)
        return (*told, *again)

    @property
    def lines(self) -> tuple[str, ...]:
        """All of it in order."""
        page = [self.title]
        for heading, words in self.first:
            page += ["", heading, *(row for line in words.split(LINE) for row in _rows(line))]
        for heading, rows in self.blocks:
            page += ["", heading, *(f"  {row}" for row in rows)]
        return tuple(page)


def _rows(line: str) -> list[str]:
    return wrap(line, WIDTH, initial_indent="  ", subsequent_indent="  ", break_on_hyphens=False)
