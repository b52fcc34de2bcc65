"""Widgets that draw row by row and refresh only what changed."""

from collections.abc import Callable
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from conductor.screens.paint import MARGIN, Row, Rows, Run

EIGHTHS = " ▏▎▍▌▋▊▉█"
ROLES = (
    "text",
    "soft",
    "now",
    "next",
    "rising",
    "falling",
    "side-right",
    "side-left",
    "post-right",
    "post-left",
    "mark-right",
    "mark-left",
    "alert",
    "block",
)


def _nothing(_width: int, _height: int) -> Rows:
    return ()


class Pane(Widget):
    """Rows painted for its size; a row that stays the same is not drawn again."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {f"pane--{role}" for role in ROLES}

    def __init__(self, id: str | None = None) -> None:  # noqa: A002 - textual's word
        super().__init__(id=id)
        self._paint: Callable[[int, int], Rows] = _nothing
        self._rows: Rows = ()

    def show(self, paint: Callable[[int, int], Rows]) -> None:
        """Take a new picture and mark the rows in which it differs."""
        self._paint = paint
        rows = paint(*self.size)
        before, self._rows = self._rows, rows
        for y in range(max(len(before), len(rows))):
            if before[y : y + 1] != rows[y : y + 1]:
                self.refresh(Region(0, y, self.size.width, 1))

    def on_resize(self) -> None:
        """Paint for the new size."""
        self._rows = self._paint(*self.size)
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """One row, as wide as the widget."""
        row: Row = self._rows[y] if y < len(self._rows) else ()
        segments = [Segment(run.text, self._style(run)) for run in row if run.text]
        return Strip(segments).adjust_cell_length(self.size.width, self.rich_style)

    def _style(self, run: Run) -> Style:
        return self.get_component_rich_style(f"pane--{run.role}")


class BreathBar(Widget):
    """The bar of the breath: it fills on the way in and empties on the way out."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"bar--rising", "bar--falling", "bar--own"}

    def __init__(self, id: str | None = None) -> None:  # noqa: A002 - textual's word
        super().__init__(id=id)
        self._eighths = 0
        self._kind = "own"

    def show(self, fraction: int, breath: str) -> None:
        """Set the part of the half breath that is done, per mille; only what moved is drawn."""
        kind = {"INHALE": "rising", "EXHALE": "falling"}.get(breath, "own")
        full = 1000 - fraction if kind == "falling" else fraction
        eighths = full * self._room * 8 // 1000
        if kind != self._kind:
            self._kind, self._eighths = kind, eighths
            self.refresh()
        elif eighths != self._eighths:
            low, high = sorted((eighths, self._eighths))
            self._eighths = eighths
            first, last = low // 8, min(high // 8 + 1, self._room)
            self.refresh(Region(MARGIN + first, 0, last - first, self.size.height))

    @property
    def _room(self) -> int:
        """Columns of the bar itself."""
        return max(self.size.width - 2 * MARGIN, 1)

    def render_line(self, y: int) -> Strip:  # noqa: ARG002
        """The same row throughout: full cells, one in eighths, then nothing."""
        width = self._room
        full, part = divmod(self._eighths, 8)
        text = ("█" * full + (EIGHTHS[part] if full < width else "")).ljust(width)[:width]
        edge = Segment(" " * MARGIN, self.rich_style)
        return Strip(
            [edge, Segment(text, self.get_component_rich_style(f"bar--{self._kind}")), edge]
        )
