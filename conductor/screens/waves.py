"""The picture of a breath as it is tapped: a wave of the last minute, and the figures settling."""

from conductor.breathing.model import Half
from conductor.screens.rows import MARGIN, Row, Rows, Run, padded
from conductor.sides import Breath
from conductor.view.breath import FEW_KEYS, KEYS, BreathView
from conductor.view.letters import Drawn, cells, draw, wrapped

SHOWN_MS = 60_000  # of the wave, at most
COLUMN_MS = 400  # at least a column
EIGHTHS = " ▁▂▃▄▅▆▇█"


def picture(view: BreathView, now: int, width: int, height: int) -> Rows:
    """The whole page for its size: title, wave, figures, what to know, keys."""
    room = width - 2 * MARGIN
    figures = _figures(view, room, 6 if height >= 34 else 3 if height >= 20 else 1)
    said = [line for words in view.told if words for line in wrapped(words, room)]
    spare = height - 3 - len(figures)
    told = said[: max(spare * 2 // 3 if not view.halves else spare // 2, 1)]
    tall = max(spare - len(told) - 1, 2)
    rows: list[Row] = [
        _head(view, room, width),
        *(padded(row, MARGIN, width) for row in wave(view, now, room, tall)),
        (),
        *(padded(row, MARGIN, width) for row in figures),
        (),
        *(padded((Run(line),), MARGIN, width) for line in told),
    ]
    rows = rows[: height - 1]
    rows += [()] * (height - 1 - len(rows))
    keys = KEYS if cells(KEYS) <= room else FEW_KEYS
    return (*rows, padded((Run(keys, "soft"),), MARGIN, width))


def _head(view: BreathView, room: int, width: int) -> Row:
    title = "Your breath"
    right = view.time if cells(title) + cells(view.time) + 2 <= room else ""
    gap = room - cells(title) - cells(right)
    return padded((Run(title, "rising"), Run(" " * gap), Run(right, "soft")), MARGIN, width)


def wave(view: BreathView, now: int, width: int, height: int) -> Rows:
    """Inhales rise, exhales fall; the present stands at the right edge."""
    step = max(COLUMN_MS, SHOWN_MS // max(width, 1))
    columns = [_level(view, now - (width - 1 - x) * step) for x in range(width)]
    rows = []
    for y in range(height):
        below = height - 1 - y
        row: list[Run] = []
        for level, role in columns:
            eighths = min(max(round(level * height * 8) - below * 8, 0), 8)
            sign = EIGHTHS[eighths]
            if row and row[-1].role == role:
                row[-1] = Run(row[-1].text + sign, role)
            else:
                row.append(Run(sign, role))
        rows.append(tuple(row))
    return tuple(rows)


def _level(view: BreathView, at: int) -> tuple[float, str]:
    """How full the breath is at a time, 0 to 1, and the half it belongs to."""
    for half in reversed(view.halves):
        if half.at <= at:
            last = half is view.halves[-1]
            if at > half.at + half.ms and not last:
                return 0.0, "soft"  # a pause
            return _full(half, at, view.usual[half.breath is Breath.OUT] if last else half.ms)
    return 0.0, "soft"


def _full(half: Half, at: int, length: int) -> tuple[float, str]:
    share = min((at - half.at) / max(length, 1), 1.0)
    rising = half.breath is Breath.IN
    return (share if rising else 1 - share), "rising" if rising else "falling"


def _figures(view: BreathView, room: int, height: int) -> Rows:
    """Both halves side by side: name, length, and between which bounds it surely lies."""
    wide = room // 2
    sides = [
        _figure("inhale", view.inhale, view.inhale_sure, "rising", wide, height, view),
        _figure("exhale", view.exhale, view.exhale_sure, "falling", wide, height, view),
    ]
    tall = max(len(side) for side in sides)
    rows = []
    for y in range(tall):
        left, right = (side[y] if y < len(side) else Run("") for side in sides)
        space = Run(" " * max(wide - cells(left.text), 0))
        rows.append((left, space, right))
    return (*rows, (Run(view.rate, "text"),)) if view.rate else tuple(rows)


def _figure(
    name: str, length: str, sure: str, role: str, width: int, height: int, view: BreathView
) -> list[Run]:
    drawn: Drawn = draw(length, width - 2, height)
    now = "▶ " if view.phase == name.upper() else ""
    heading = Run(f"{now}{name}", role)
    return [heading, *(Run(row, role) for row in drawn.rows), Run(sure, "soft")]
