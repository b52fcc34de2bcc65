"""Places in a file that a person wrote."""

from conductor.values import Struct


class Span(Struct, frozen=True, order=True):
    """A stretch of one line: line and columns count from 1, `end` is the column after the last."""

    file: str
    line: int
    column: int
    end: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"
