"""Rows of text with a role for each run: what pictures are made of, pure and testable as text."""

from conductor.values import Struct
from conductor.view.letters import cells

MARGIN = 2


class Run(Struct, frozen=True):
    """Text of one role: the role is a name that the style sheet gives its colours."""

    text: str
    role: str = "text"


Row = tuple[Run, ...]
Rows = tuple[Row, ...]


def text_of(rows: Rows) -> str:
    """The rows as plain text, without blanks at their ends."""
    return "\n".join("".join(run.text for run in row).rstrip() for row in rows)


def padded(row: Row, left: int, width: int) -> Row:
    """A row moved to the right and filled up to its width."""
    used = left + sum(cells(run.text) for run in row)
    return (Run(" " * left), *row, Run(" " * max(width - used, 0)))


def fill(rows: Rows, height: int) -> Rows:
    """Rows set in the middle of their height."""
    spare = max(height - len(rows), 0)
    above = spare // 2
    return (*[()] * above, *rows, *[()] * (spare - above))


def centred(text: str, role: str, width: int) -> Row:
    """A line in the middle of its width."""
    left = max((width - cells(text)) // 2, 0)
    return padded((Run(text, role),), left, width)


def breath_role(breath: str) -> str:
    """The role that gives a breath its colour, beside its word and its sign."""
    return {"INHALE": "rising", "EXHALE": "falling"}.get(breath, "text")
