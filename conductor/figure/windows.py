"""Windows: a class wrapped into rows of equal time, and what of a lane falls into a cell of one."""

from collections.abc import Iterable, Iterator, Sequence

from conductor.figure.model import Kind, Stretch
from conductor.values import Struct, replace

MINUTE_MS = 60_000
_TICKS = (15, 30, 60, 120, 300, 600, 900, 1800, 3600)  # s between times written on an axis


class Window(Struct, frozen=True):
    """One row of a drawing: from `start` to `end` ms, `cells` wide (columns or units)."""

    start: int
    end: int
    cells: int

    def cell(self, at: int) -> int:
        """The cell that a time falls into, 0 to `cells`; the nearest edge for what lies outside."""
        inside = min(max(at, self.start), self.end) - self.start
        return (inside * self.cells * 2 + self.width) // (self.width * 2)

    @property
    def width(self) -> int:
        """How long it is, in ms; never 0."""
        return max(self.end - self.start, 1)

    def edges(self, cell: int) -> tuple[int, int]:
        """From when to when a cell lasts."""
        begin = self.start + cell * self.width // self.cells
        return begin, self.start + (cell + 1) * self.width // self.cells


def windows(length: int, row_ms: int, cells: int) -> tuple[Window, ...]:
    """The rows of a class: all on one scale, the last one as long as the others."""
    row_ms = max(row_ms, 1)
    rows = max(-(-length // row_ms), 1)
    return tuple(Window(row * row_ms, (row + 1) * row_ms, cells) for row in range(rows))


def within(stretches: Iterable[Stretch], window: Window) -> tuple[Stretch, ...]:
    """What of the stretches lies in a window, cut at its edges."""
    found = []
    for one in stretches:
        begin, end = max(one.start, window.start), min(one.end, window.end)
        if begin < end or (begin == end == one.start and not one.length and end < window.end):
            found.append(replace(one, start=begin, length=end - begin))
    return tuple(found)


def covered(stretches: Sequence[Stretch], window: Window) -> Iterator[dict[Kind, int]]:
    """For each cell, how much of it each kind takes, times its level: 0 to FULL."""
    cells: list[dict[Kind, int]] = [{} for _ in range(window.cells)]
    for one in stretches:
        first = max((one.start - window.start) * window.cells // window.width, 0)
        last = -(-(one.end - window.start) * window.cells // window.width)
        for index in range(first, min(max(last, first + 1), window.cells)):
            begin, end = window.edges(index)
            part = min(one.end, end) - max(one.start, begin)
            if part > 0 or not one.length:
                share = one.level * max(part, 0) // max(end - begin, 1)
                cells[index][one.kind] = cells[index].get(one.kind, 0) + share
    return iter(cells)


def ticks(window: Window, room: int) -> Iterator[tuple[int, str]]:
    """Times to be written over a row, each with its words, no nearer than `room` cells.

    Where that can be, they are such that every row begins with one.
    """
    least = room * window.width // max(window.cells, 1)
    wide = [one * 1000 for one in _TICKS if one * 1000 >= least] or [_TICKS[-1] * 1000]
    step = next((one for one in wide[:3] if not window.width % one), wide[0])
    first = -(-window.start // step) * step
    for at in range(first, window.end + 1, step):
        whole, rest = divmod(at, MINUTE_MS)
        yield at, f"{whole}:{rest // 1000:02}" if step % MINUTE_MS else f"{whole}"
