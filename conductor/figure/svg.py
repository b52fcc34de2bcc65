"""A figure as SVG: one file that needs nothing, to be printed or looked at, text as text."""

from conductor.figure.cells import wrapped
from conductor.figure.ink import box, hatches, reach, safe, style, tag, words
from conductor.figure.model import Figure, Form, Lane, Timeline
from conductor.figure.strokes import Row, drawn, height
from conductor.figure.text import by_lane, summed
from conductor.figure.windows import MINUTE_MS, Window, ticks, windows

WIDE = 900.0
_MARGIN = 26.0
_GUTTER = 66.0
_WHOSE = 92.0  # more of a gutter where several timelines have their names in it
_GAP = 5.0  # between lanes
_ROWS = (2, 5, 10, 15, 20, 30, 60)  # minutes that one row may show
_FEW = 4  # rows that fit on a page
_LETTERS = 132  # of a line of words across the page
_HALF = 61  # of a sum that stands beside another
_KEY = (
    "Sides: right above the axis, left below. Voice: a bar is speech, a ring a bell, and what is "
    "empty is silence. Slanted lines are rest. Effort compares stretches of one class by the "
    "levels of their shapes, more where they load or move with the breath; it says nothing about "
    "what anybody should do. Breath: the longer a breath, the higher."
)


def row_of(length: int) -> int:
    """How long a row is, in ms, so that a class fits on a page."""
    wanted = (one * MINUTE_MS for one in _ROWS)
    return next((one for one in wanted if one * _FEW >= length), -(-length // _FEW))


def svg(figure: Figure, row_ms: int = 0) -> str:
    """The whole picture; `row_ms` is how much time a row shows, 0 for what fits on a page."""
    parts: list[str] = []
    top = _header(figure, parts)
    many = len(figure.timelines) > 1
    for window in windows(figure.length, row_ms or row_of(figure.length), 1):
        left = _MARGIN + _GUTTER + (_WHOSE if many else 0)
        row = Row(window, left, WIDE - left - _MARGIN)
        top = _system(figure, row, top, parts, many) + 14
    for line in wrapped(_KEY, _LETTERS + 25):
        parts.append(words(line, _MARGIN, top, "who"))
        top += 12
    return _document(figure, top + 14, "\n".join(parts))


def _document(figure: Figure, high: float, body: str) -> str:
    said = [*figure.words]
    said += [f"{whose}{name}: {text}" for name, whose, text in summed(figure)]
    head = tag("title", safe(figure.title), id="figure-title")
    head += "\n" + tag("desc", safe(". ".join(said)), id="figure-words")
    ground = box("ground", (0, 0, WIDE, high), r=0)
    inner = f"{head}\n{style()}\n{hatches()}\n{ground}\n{body}\n"
    size = f"{WIDE:.0f}", f"{high:.0f}"
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size[0]} {size[1]}" '
        f'width="{size[0]}" height="{size[1]}" role="img" '
        f'aria-labelledby="figure-title" aria-describedby="figure-words">\n{inner}</svg>\n'
    )


def _header(figure: Figure, parts: list[str]) -> float:
    """Title, words, and what each lane comes to; gives where the rows may begin."""
    top = 46.0
    parts.append(words(figure.title, _MARGIN, top, "title"))
    top += 4
    for one in figure.words:
        for line in wrapped(one, _LETTERS):
            top += 18
            parts.append(words(line, _MARGIN, top, "lead"))
    return _summed(figure, parts, top + 12) + 26


def _summed(figure: Figure, parts: list[str], top: float) -> float:
    """What each lane comes to, short ones side by side; gives where they end."""
    beside = False
    for name, whose, text in summed(figure):
        lines = wrapped(f"{whose}{text}", _LETTERS - 12)
        short = len(lines[0]) <= _HALF and len(lines) == 1
        beside = short and not beside
        top += 15 if beside or not short else 0
        x = _MARGIN if beside or not short else _MARGIN + WIDE / 2
        parts.append(words(name, x, top, "lane"))
        for number, line in enumerate(lines):
            top += 15 if number else 0
            parts.append(words(line, x + 52, top, "sum"))
    return top


def _system(figure: Figure, row: Row, top: float, parts: list[str], many: bool) -> float:
    """One row of the class: its axis of time, and every lane; gives where it ends."""
    lanes: list[str] = []
    at = top + 8
    for name, several in by_lane(figure):
        going = [one for one in several if one[0].length > row.window.start]
        for number, (timeline, lane) in enumerate(going):
            high = height(lane, row)
            lanes.append(
                _names(
                    name if not number else "",
                    timeline.name if many else "",
                    lane,
                    (row.left, at, high),
                )
            )
            lanes.append(drawn(lane, row, at))
            at += high + (_GAP if number + 1 == len(going) else 2)
    parts.append(_axis(row.window, row, top, at))
    if not many:
        parts += [_cuts(one, row, top + 30, at) for one in figure.timelines]
    parts += lanes
    return at


def _names(name: str, whose: str, lane: Lane, place: tuple[float, float, float]) -> str:
    """What stands before a lane: its name, whose it is, and which side is which."""
    left, at, high = place
    middle = at + min(high, 40.0) / 2 + 3.5
    x = left - 8
    marks = ""
    if lane.form is Form.SIDES:
        rows = ("right", at + high / 2 - 6), ("left", at + high / 2 + 13)
        marks = "".join(words(side, x, y, "who end") for side, y in rows)
        x -= 28
    if not whose:
        return marks + words(name, x, middle, "lane end")
    shown = whose if reach(whose, 9.5) <= _WHOSE else f"{whose[:15].rstrip()}…"
    return marks + words(name, _MARGIN, middle, "lane") + words(shown, x, middle, "who end")


def _axis(window: Window, row: Row, top: float, bottom: float) -> str:
    wide = Window(window.start, window.end, int(row.wide))
    found = ""
    for at, text in ticks(wide, 46):
        x = row.x(at)
        found += tag("path", d=f"M{x:.2f} {top + 6:.2f}V{bottom:.2f}", class_="grid")
        unit = " min" if at == window.start else ""
        found += words(f"{text}{unit}", x, top + 2, "tick mid")
    return found


def _cuts(timeline: Timeline, row: Row, top: float, bottom: float) -> str:
    """Where parts begin, drawn through the other lanes."""
    inside = (
        one.start
        for lane in timeline.lanes
        if lane.form is Form.BANNERS
        for one in lane.stretches
        if row.window.start < one.start < row.window.end
    )
    return "".join(
        tag("path", d=f"M{row.x(at):.2f} {top:.2f}V{bottom:.2f}", class_="cut") for at in inside
    )
