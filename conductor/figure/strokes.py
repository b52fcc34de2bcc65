"""Lanes of a figure as the elements of an SVG, within one row of it."""

from collections.abc import Callable, Sequence
from itertools import pairwise

from conductor.figure.ink import box, fitted, reach, tag, words
from conductor.figure.model import FULL, Form, Kind, Lane, Stretch
from conductor.figure.windows import Window, within
from conductor.values import Struct

NAME, THIN, PART = 10.0, 8.5, 12.5  # sizes of letters, as the style has them
TALLEST = 82.0  # of names written upright
_HATCHED = {
    Kind.REST: "rest",
    Kind.BACK: "back",
    Kind.LONG: "long",
    Kind.HELD: "held",
    Kind.STOPPED: "held",
    Kind.SKIPPED: "gone",
    Kind.LEFT_OUT: "gone",
    Kind.ADDED: "rest",
}
_HIGH = {Form.BANNERS: 22.0, Form.BANDS: 13.0, Form.SIDES: 36.0, Form.MARKS: 11.0}
_MARKS = {Kind.ADDED: "+ ", Kind.LEFT_OUT: "− "}
_ARROWS = {Kind.FRONT: "→ ", Kind.BACK: "← ", Kind.LONG: "↕ "}


class Row(Struct, frozen=True):
    """One row of a drawing: a window of time from `left` on, `wide` units."""

    window: Window
    left: float
    wide: float

    def x(self, at: int) -> float:
        """Where a time stands."""
        return self.left + (at - self.window.start) * self.wide / self.window.width

    def room(self, one: Stretch) -> float:
        """How wide a stretch is."""
        return one.length * self.wide / self.window.width


def height(lane: Lane, row: Row) -> float:
    """How high a lane is drawn in a row, the space below it not counted."""
    if lane.form is Form.CURVE:
        return 30.0 if _eased(lane) else 13.0
    if lane.form is not Form.BOXES:
        return _HIGH[lane.form]
    upright = [
        reach(one.label, THIN) for one in within(lane.stretches, row.window) if _up(one, row)
    ]
    return min(max([18.0, *(each + 8 for each in upright)]), TALLEST)


def drawn(lane: Lane, row: Row, top: float) -> str:
    """A lane's stretches in a row, from `top` down."""
    stretches = within(lane.stretches, row.window)
    return _FORMS[lane.form](lane, stretches, row, top)


def _eased(lane: Lane) -> bool:
    return any(one.kind is Kind.EFFORT for one in lane.stretches)


def _flat(one: Stretch, row: Row, size: float = NAME) -> bool:
    return reach(_labelled(one), size) + 6 <= row.room(one)


def _up(one: Stretch, row: Row) -> bool:
    return not _flat(one, row) and row.room(one) >= THIN + 0.5


def _labelled(one: Stretch) -> str:
    return _ARROWS.get(one.kind, "") + one.label


def _boxes(lane: Lane, stretches: Sequence[Stretch], row: Row, top: float) -> str:
    high = height(lane, row)
    found = ""
    for one in stretches:
        x, wide = row.x(one.start), row.room(one)
        found += box("cell", (x, top, wide, high), one.note)
        found += _hatched(one, (x, top, wide, high))
        found += _name(one, row, top, high, upright=lane.form is Form.BOXES)
    return found


def _hatched(one: Stretch, place: tuple[float, float, float, float]) -> str:
    """The lines by which a kind is known without colour."""
    hatch = _HATCHED.get(one.kind)
    x, y, wide, high = place
    values = {"x": x, "y": y, "width": max(wide, 0.5), "height": high}
    return tag("rect", **values, fill=f"url(#hatch-{hatch})") if hatch else ""


def _name(one: Stretch, row: Row, top: float, high: float, *, upright: bool) -> str:
    x, wide = row.x(one.start), row.room(one)
    label = _labelled(one)
    if _flat(one, row):
        return words(label, x + 4, top + high / 2 + 3.5, "name")
    if upright and _up(one, row):
        middle = x + wide / 2 + THIN * 0.34
        shown = fitted(one.label, THIN, high - 6)
        bottom = top + high - 4
        turn = f"rotate(-90 {middle:.2f} {bottom:.2f})"
        return words(shown, middle, bottom, "thin", transform=turn) if shown else ""
    return ""


def _banners(_: Lane, stretches: Sequence[Stretch], row: Row, top: float) -> str:
    found = ""
    for one in stretches:
        x, wide = row.x(one.start), row.room(one)
        found += box("band", (x + 0.5, top, wide - 1, 20), one.note, r=3)
        found += _hatched(one, (x + 0.5, top, wide - 1, 20))
        marked = _MARKS.get(one.kind, "") + one.label
        size, look = (PART, "part") if reach(marked, PART) + 8 <= wide else (NAME, "name")
        if label := fitted(marked, size, wide - 6):
            found += words(label, x + 6 if size == PART else x + 3, top + 14.5, f"{look} bare")
    return found


def _curve(lane: Lane, stretches: Sequence[Stretch], row: Row, top: float) -> str:
    high = height(lane, row)
    base = top + high
    floor = tag("path", d=f"M{row.left:.2f} {base:.2f}h{row.wide:.2f}", class_="grid")
    if _eased(lane):
        return floor + _smooth(stretches, row, top, high)
    found = floor
    for one in stretches:
        up = high * one.level / FULL
        look = "load soft-box" if one.kind is Kind.LOAD else "breath soft-box"
        if up:
            found += box(look, (row.x(one.start), base - up, row.room(one), up), one.note)
        if one.kind is not Kind.LOAD and (label := fitted(one.label, THIN, row.room(one) - 6)):
            found += words(label, row.x(one.start) + 3, base - 2.3, "thin bare")
    return found


def _smooth(stretches: Sequence[Stretch], row: Row, top: float, high: float) -> str:
    """A line through the middle of each stretch, rounded; it never leaves their heights."""
    if not stretches:
        return ""
    points = [
        (row.x(one.start + one.length // 2), top + high - high * one.level / FULL)
        for one in stretches
    ]
    first, last = row.x(stretches[0].start), row.x(stretches[-1].end)
    points = [(first, points[0][1]), *points, (last, points[-1][1])]
    path = f"M{points[0][0]:.2f} {points[0][1]:.2f}"
    for (x, y), (then_x, then_y) in pairwise(points[1:]):
        path += f"Q{x:.2f} {y:.2f} {(x + then_x) / 2:.2f} {(y + then_y) / 2:.2f}"
    path += f"L{points[-1][0]:.2f} {points[-1][1]:.2f}"
    base = top + high
    area = f"{path}L{last:.2f} {base:.2f}L{first:.2f} {base:.2f}Z"
    return tag("path", d=area, class_="effort area") + tag("path", d=path, class_="effort curve")


def _sides(lane: Lane, stretches: Sequence[Stretch], row: Row, top: float) -> str:
    half = height(lane, row) / 2
    axis = top + half
    found = ""
    for one in stretches:
        right = one.kind is Kind.RIGHT
        up = (half - 2) * one.level / FULL
        place = (row.x(one.start), axis - up if right else axis, row.room(one), up)
        found += box(
            "right soft-box" if right else "left soft-box", place, f"{one.label}, {one.note}"
        )
        if label := fitted(one.label, NAME, row.room(one) - 6):
            found += words(label, place[0] + 4, axis - 5.5 if right else axis + 12.5, "name bare")
    line = tag("path", d=f"M{row.left:.2f} {axis:.2f}h{row.wide:.2f}", class_="axis")
    return found + line


def _marks(lane: Lane, stretches: Sequence[Stretch], row: Row, top: float) -> str:
    floor = top + height(lane, row)
    found = tag("path", d=f"M{row.left:.2f} {floor:.2f}h{row.wide:.2f}", class_="grid")
    bells = ""
    for one in stretches:
        x = row.x(one.start)
        if one.kind is Kind.BELL:
            note = tag("title", one.note or "bell")
            bells += tag("circle", note, cx=x + 3, cy=top + 5, r=3.2, class_="bell")
        else:
            found += box("speech", (x, top + 1, row.room(one), 9), one.note)
    return found + bells


Draw = Callable[[Lane, Sequence[Stretch], Row, float], str]
_FORMS: dict[Form, Draw] = {
    Form.BANNERS: _banners,
    Form.BOXES: _boxes,
    Form.BANDS: _boxes,
    Form.CURVE: _curve,
    Form.SIDES: _sides,
    Form.MARKS: _marks,
}
