"""A figure as text: any width from 60 columns, blocks or plain ASCII, colour only if painted."""

from collections.abc import Callable, Iterator
from itertools import groupby

from conductor.figure.cells import drawable, fit, width, wrapped
from conductor.figure.model import FULL, Figure, Form, Kind, Lane, Stretch, Timeline
from conductor.figure.windows import Window, covered, ticks, windows, within
from conductor.plan.show import Paint, plain
from conductor.values import Struct, replace

LEAST_COLUMNS = 60
_ROOM = 7  # columns between two times on the axis
_LONG_LABEL = 4  # columns below which a cut name says nothing
_NAME = 9
_WHOSE = 16  # columns of a timeline's name, at most


class Signs(Struct, frozen=True):
    """The signs of a drawing: `rising` from nothing to full, the others by what they mark."""

    rising: str
    above: str
    below: str
    shade: str
    edge: str
    many: str
    bell: str
    own: str
    cut: str
    fills: tuple[tuple[Kind, str], ...]


BLOCKS = Signs(
    rising=" ▁▂▃▄▅▆▇█",
    above=" ▁▄█",
    below=" ▔▀█",
    shade=" ░▒▓█",
    edge="│",
    many="·",
    bell="●",
    own="~",
    cut="…",
    fills=(
        (Kind.REST, "░"),
        (Kind.FRONT, "›"),
        (Kind.BACK, "‹"),
        (Kind.LONG, "^"),
        (Kind.HELD, "="),
        (Kind.STOPPED, "▒"),
        (Kind.SKIPPED, "-"),
        (Kind.ADDED, "+"),
        (Kind.LEFT_OUT, "-"),
    ),
)
ASCII = Signs(
    rising=" .:-=+*#@",
    above=" .:#",
    below=" ':#",
    shade=" .:+#",
    edge="|",
    many=":",
    bell="o",
    own="~",
    cut=".",
    fills=(
        (Kind.REST, "_"),
        (Kind.FRONT, ">"),
        (Kind.BACK, "<"),
        (Kind.LONG, "^"),
        (Kind.HELD, "="),
        (Kind.STOPPED, "x"),
        (Kind.SKIPPED, "-"),
        (Kind.ADDED, "+"),
        (Kind.LEFT_OUT, "-"),
    ),
)


class Page(Struct, frozen=True):
    """How a figure is drawn: columns, ms a row (0: all in one), signs, colours."""

    columns: int = 80
    row_ms: int = 0
    ascii_only: bool = False
    paint: Paint = plain

    @property
    def signs(self) -> Signs:
        """The signs that may be used."""
        return ASCII if self.ascii_only else BLOCKS


Cell = tuple[str, Kind | None]
Draw = Callable[[Lane, tuple[Stretch, ...], Window, Signs, Page], list[list[Cell]]]


def text(figure: Figure, page: Page | None = None) -> str:
    """The whole figure: title, words, the lanes over time, and what each lane comes to."""
    page = page or Page()
    lines = [drawable(figure.title, page.ascii_only)]
    for words in figure.words:
        lines += _wrapped(words, page)
    lines += [""] if figure.words else []
    lines += pictured(figure, page)
    lines += sums(figure, page)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def pictured(figure: Figure, page: Page, only: tuple[str, ...] = ()) -> list[str]:
    """The lanes over time, rows of the class beneath each other; `only` names lanes."""
    page = replace(page, columns=max(page.columns, LEAST_COLUMNS))
    gutter = _gutter(figure)
    cells = page.columns - gutter - 1
    lines: list[str] = []
    for window in windows(figure.length, page.row_ms or figure.length, cells):
        lines.append(" " * gutter + _axis(window))
        for name, several in by_lane(figure):
            if only and name not in only:
                continue
            going = (one for one in several if one[0].length > window.start)
            for number, (timeline, lane) in enumerate(going):
                whose = timeline.name if len(figure.timelines) > 1 else ""
                heads = _heads(name if not number else "", whose, lane, gutter, page)
                rows = _rows(lane, window, page.signs, page)
                lines += [head + row for head, row in zip(heads, rows, strict=True)]
        lines.append("")
    return lines


def sums(figure: Figure, page: Page) -> list[str]:
    """What each lane comes to, in words."""
    lines: list[str] = []
    for name, whose, words in summed(figure):
        lines += _wrapped(f"{whose}{words}", page, f"{name:<{_NAME}}")
    return lines


def summed(figure: Figure) -> Iterator[tuple[str, str, str]]:
    """Lane, whose it is where there are several, and its sum; what is alike is said once."""
    for name, several in by_lane(figure):
        alike = len({lane.words for _, lane in several}) == 1
        for number, (timeline, lane) in enumerate(several):
            if lane.words and not (alike and number):
                yield name, "" if alike else f"{timeline.name}: ", lane.words


def _wrapped(words: str, page: Page, head: str = "") -> list[str]:
    columns = max(page.columns, LEAST_COLUMNS)
    return wrapped(head + drawable(words, page.ascii_only), columns, _NAME if head else 2)


def by_lane(figure: Figure) -> Iterator[tuple[str, list[tuple[Timeline, Lane]]]]:
    """Lanes of one name together, so that two classes can be compared line by line."""
    names = dict.fromkeys(lane.name for one in figure.timelines for lane in one.lanes)
    for name in names:
        yield (
            name,
            [(one, lane) for one in figure.timelines for lane in one.lanes if lane.name == name],
        )


def _gutter(figure: Figure) -> int:
    if len(figure.timelines) < 2:
        return _NAME
    return _NAME + min(max(width(one.name) for one in figure.timelines), _WHOSE) + 3  # and R or L


def _heads(name: str, whose: str, lane: Lane, gutter: int, page: Page) -> list[str]:
    """What stands before each row of a lane."""
    if gutter == _NAME:
        first = fit(name, _NAME)
    else:
        first = (
            fit(name, _NAME)
            + fit(drawable(whose, page.ascii_only), gutter - _NAME - 2, page.signs.cut)
            + "  "
        )
    if lane.form is Form.SIDES:
        return [first[:-2] + "R ", " " * (gutter - 2) + "L "]
    blank = " " * gutter
    return [first] if _height(lane) == 1 else [blank] * (_height(lane) - 1) + [first]


def _height(lane: Lane) -> int:
    if lane.form is Form.SIDES:
        return 2
    return 2 if lane.form is Form.CURVE and any(_eased(one) for one in lane.stretches) else 1


def _eased(stretch: Stretch) -> bool:
    return stretch.kind is Kind.EFFORT


def _axis(window: Window) -> str:
    row = [" "] * (window.cells + 1)
    for at, words in ticks(window, _ROOM):
        column = min(window.cell(at), window.cells + 1 - len(words))
        row[column : column + len(words)] = words
    return "".join(row)


def _rows(lane: Lane, window: Window, signs: Signs, page: Page) -> list[str]:
    """The rows of a lane in one window, painted by kind."""
    stretches = within(lane.stretches, window)
    drawn = _FORMS[lane.form](lane, stretches, window, signs, page)
    return ["".join(_painted(row, page.paint)) for row in drawn]


def _painted(row: list[Cell], paint: Paint) -> Iterator[str]:
    """Neighbours of one kind painted together; blanks need no paint."""
    for kind, cells in groupby(row, lambda cell: cell[1]):
        text = "".join(sign for sign, _ in cells)
        yield paint(text, kind.value) if kind and not text.isspace() else text


def _boxes(
    _: Lane, stretches: tuple[Stretch, ...], window: Window, signs: Signs, page: Page
) -> list[list[Cell]]:
    row: list[Cell] = [(" ", None)] * window.cells
    fills = dict(signs.fills)
    for one in stretches:
        first, last = window.cell(one.start), window.cell(one.end)
        if last - first < 2:
            sign = fills.get(one.kind, signs.many)
            row[min(first, window.cells - 1)] = (sign, one.kind)
            continue
        room = last - first - 1
        label = drawable(one.label, page.ascii_only)
        if width(label) > room and room < _LONG_LABEL:
            label = ""
        shown = fit(label, room, signs.cut)
        filled = shown.rstrip() + fills.get(one.kind, " ") * (room - width(shown.rstrip()))
        row[first] = (signs.edge, one.kind)
        row[first + 1 : last] = _spread(filled, one.kind)
    return [row]


def _spread(text: str, kind: Kind) -> list[Cell]:
    """A cell for each sign; a wide sign takes its second cell with nothing, marks join theirs."""
    cells: list[Cell] = []
    for sign in text:
        wide = width(sign)
        if not wide and cells:
            cells[-1] = (cells[-1][0] + sign, kind)
        else:
            cells += [(sign, kind), ("", None)][: max(wide, 1)]
    return cells


def _curve(
    lane: Lane, stretches: tuple[Stretch, ...], window: Window, signs: Signs, _: Page
) -> list[list[Cell]]:
    height = _height(lane)
    steps = len(signs.rising) - 1
    rows: list[list[Cell]] = [[] for _ in range(height)]
    for cell in covered(stretches, window):
        kind = max(cell, key=lambda one: cell[one]) if cell else None
        level = min(sum(cell.values()), FULL)
        amount = -(-level * steps * height // FULL)
        for number, row in enumerate(reversed(rows)):
            sign = signs.rising[min(max(amount - number * steps, 0), steps)]
            row.append((signs.own if kind is Kind.OWN and not number else sign, kind))
    return rows


def _sides(
    _: Lane, stretches: tuple[Stretch, ...], window: Window, signs: Signs, _page: Page
) -> list[list[Cell]]:
    above: list[Cell] = []
    below: list[Cell] = []
    for cell in covered(stretches, window):
        for row, kind, ramp in (
            (above, Kind.RIGHT, signs.above),
            (below, Kind.LEFT, signs.below),
        ):
            amount = -(-min(cell.get(kind, 0), FULL) * (len(ramp) - 1) // FULL)
            row.append((ramp[amount], kind))
    return [above, below]


def _marks(
    _: Lane, stretches: tuple[Stretch, ...], window: Window, signs: Signs, _page: Page
) -> list[list[Cell]]:
    row: list[Cell] = []
    for cell in covered(stretches, window):
        if Kind.BELL in cell:
            row.append((signs.bell, Kind.BELL))
            continue
        kind = next(iter(cell), None)
        amount = -(-min(sum(cell.values()), FULL) * (len(signs.shade) - 1) // FULL)
        row.append((signs.shade[amount], kind))
    return [row]


_FORMS: dict[Form, Draw] = {
    Form.BANNERS: _boxes,
    Form.BOXES: _boxes,
    Form.BANDS: _boxes,
    Form.CURVE: _curve,
    Form.SIDES: _sides,
    Form.MARKS: _marks,
}
