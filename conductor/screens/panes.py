"""Widgets that draw row by row and refresh only what changed."""

from collections.abc import Callable
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from conductor.screens.board import Picture
from conductor.screens.rows import Row, Rows

STEPS = 64  # of the bar in half a breath; more cost more than they show
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


class Painted(Widget):
    """A widget that keeps the styles of its roles until the style sheet or the theme changes."""

    def __init__(self, id: str | None = None) -> None:  # noqa: A002 - textual's word
        super().__init__(id=id)
        self._styles_of: dict[str, Style] = {}

    def notify_style_update(self) -> None:
        """Forget the styles kept."""
        super().notify_style_update()
        self._styles_of = {}

    def style_of(self, name: str) -> Style:
        """The style of a component class, or the widget's own for ""."""
        style = self._styles_of.get(name)
        if style is None:
            style = self.get_component_rich_style(name) if name else self.rich_style
            self._styles_of[name] = style
        return style

    def strip(self, row: Row) -> Strip:
        """A row in the widget's colours, as wide as the widget."""
        segments = [Segment(run.text, self.style_of(f"pane--{run.role}")) for run in row]
        return Strip([one for one in segments if one.text]).adjust_cell_length(
            self.size.width, self.style_of("")
        )


class Pane(Painted):
    """Rows painted for its size; a row that stays the same is not drawn again."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {f"pane--{role}" for role in ROLES}

    def __init__(self, id: str | None = None) -> None:  # noqa: A002 - textual's word
        super().__init__(id=id)
        self._paint: Callable[[int, int], Rows] = _nothing
        self._rows: Rows = ()

    def show(self, paint: Callable[[int, int], Rows]) -> None:
        """Take a new picture and mark the rows in which it differs."""
        self._paint = paint
        if not self.size:
            return  # not laid out yet; it is painted when it gets its size
        before, self._rows = self._rows, paint(*self.size)
        for y in changed(before, self._rows):
            self.refresh(Region(0, y, self.size.width, 1))

    def on_resize(self) -> None:
        """Paint for the new size."""
        self._rows = self._paint(*self.size)
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """One row, as wide as the widget."""
        return self.strip(self._rows[y] if y < len(self._rows) else ())


class Board(Painted):
    """The whole live picture as one widget, the bar of the breath within it.

    One widget, because each one that is visible costs time whenever the bar moves (measured).
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {f"pane--{role}" for role in ROLES} | {
        f"bar--{kind}{part}" for kind in ("rising", "falling", "own") for part in ("", "-full")
    }

    def __init__(self, id: str | None = None) -> None:  # noqa: A002 - textual's word
        super().__init__(id=id)
        self._paint: Callable[[int, int], Picture] = _empty
        self._picture = Picture((), 0, 0)
        self._bar = (0, "own")

    def show(self, paint: Callable[[int, int], Picture]) -> None:
        """Take a new picture and mark the rows in which it differs."""
        self._paint = paint
        if not self.size:
            return
        before, self._picture = self._picture, paint(*self.size)
        for y in changed(before.rows, self._picture.rows):
            self.refresh(Region(0, y, self.size.width, 1))

    def move(self, fraction: int, breath: str) -> None:
        """Set the part of the half breath that is done, per mille; only what moved is drawn."""
        kind = {"INHALE": "rising", "EXHALE": "falling"}.get(breath, "own")
        if not self.size:
            return
        full = 1000 - fraction if kind == "falling" else fraction
        steps = (full * STEPS + 500) // 1000
        before, self._bar = self._bar, (steps * self.size.width * 8 // STEPS, kind)
        if before == self._bar:
            return
        low, high = sorted((before[0] // 8, self._bar[0] // 8 + 1))
        if before[1] != kind:
            low, high = 0, self.size.width
        top, rows = self._picture.bar_top, self._picture.bar_height
        self.refresh(Region(low, top, high - low, rows))

    def on_resize(self) -> None:
        """Paint for the new size."""
        self._picture = self._paint(*self.size)
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """One row, as wide as the widget."""
        picture = self._picture
        if picture.bar_top <= y < picture.bar_top + picture.bar_height:
            return self._bar_strip()
        return self.strip(picture.rows[y] if y < len(picture.rows) else ())

    def _bar_strip(self) -> Strip:
        """From edge to edge: full columns as blanks on colour, one in eighths, then none."""
        eighths, kind = self._bar
        width = self.size.width
        full, part = divmod(min(eighths, width * 8), 8)
        rest = EIGHTHS[part] if part else ""
        filled = Segment(" " * full, self.style_of(f"bar--{kind}-full"))
        empty = Segment(rest.ljust(width - full), self.style_of(f"bar--{kind}"))
        return Strip([one for one in (filled, empty) if one.text], width)


def changed(before: Rows, after: Rows) -> list[int]:
    """The rows in which two pictures differ."""
    rows = range(max(len(before), len(after)))
    return [y for y in rows if before[y : y + 1] != after[y : y + 1]]


def _empty(_width: int, _height: int) -> Picture:
    return Picture((), 0, 0)
