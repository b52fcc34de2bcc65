"""Large letters out of half blocks: the largest that fit, broken at spaces, never cut off."""

import unicodedata
from collections.abc import Iterator
from functools import lru_cache

from conductor.values import Struct
from conductor.view.glyphs import ABOVE, BELOW, LARGE, NARROW, SAME, SMALL, TALL, Bitmap, Font

PLAIN_INK = 0.6  # rows of ink of an ordinary capital: 0.55 to 0.63 of a cell (measured from fonts)


class Drawn(Struct, frozen=True):
    """Letters as rows of text. `ink` is the height of a capital in rows of the terminal."""

    rows: tuple[str, ...]
    size: str  # the name of its font, or "plain"
    scale: int
    ink: float

    @property
    def width(self) -> int:
        """Columns of the widest row."""
        return max((cells(row) for row in self.rows), default=0)

    @property
    def height(self) -> int:
        """Rows."""
        return len(self.rows)


def _ink(font: Font, scale: int) -> float:
    """Rows of a capital; a row of the terminal holds two pixels."""
    return font.pixels * scale / 2


SIZES: tuple[tuple[Font, int], ...] = tuple(
    sorted(
        (
            *((font, scale) for font in (LARGE, NARROW) for scale in range(1, 6)),
            *((TALL, scale) for scale in range(1, 4)),
            (SMALL, 1),
        ),
        key=lambda size: -_ink(*size),
    )
)
"""Fonts and scales, the largest first; of those as high as each other the broad one first."""

INKS: tuple[float, ...] = tuple(dict.fromkeys(_ink(*size) for size in SIZES))
"""The heights of a capital that there are, in rows, the largest first."""

MOST, LARGE_INK, SMALL_INK = INKS[0], _ink(LARGE, 1), _ink(SMALL, 1)


@lru_cache(maxsize=1024)
def draw(text: str, width: int, height: int, most: float = MOST) -> Drawn:
    """The largest letters in which `text` fits into `width` columns and `height` rows.

    `most` bounds the height of a capital, in rows. Where no size fits, or a character is
    not in the fonts, the words stand as plain text: all of them, even if that takes more rows.
    """
    text = " ".join(text.split())
    for font, scale in SIZES:
        if _ink(font, scale) > most:
            continue
        drawn = _fitted(text, font, scale, width, height)
        if drawn:
            return drawn
    return Drawn(wrapped(text, max(width, 1)), "plain", 1, PLAIN_INK)


def _fitted(text: str, font: Font, scale: int, width: int, height: int) -> Drawn | None:
    """The text in one size, in as few lines as the width allows; None when it does not fit."""
    marks = [_marked(character, font) for character in text.upper()]
    if not text or any(mark is None for mark in marks):
        return None
    lines = list(_broken(text.upper(), font, width // scale))
    least = len(lines) * -(-font.pixels * scale // 2)  # rows without marks and gaps
    if not lines or least > height or max(_measure(line, font) for line in lines) * scale > width:
        return None
    rows: list[str] = []
    for line in lines:
        rows += [""] if rows and scale > 1 else []
        rows += _cells(_scaled(_line(line, font), scale))
    while rows and not rows[-1].strip():
        rows.pop()
    fits = len(rows) <= height
    return Drawn(tuple(rows), font.name, scale, _ink(font, scale)) if fits else None


def _broken(text: str, font: Font, width: int) -> Iterator[str]:
    """Lines of at most `width` pixels, broken at spaces and after hyphens."""
    line = ""
    for piece in _pieces(text):
        if line and _measure((line + piece).rstrip(), font) > width:
            yield line.strip()
            line = piece
        else:
            line += piece
    if line.strip():
        yield line.strip()


def _pieces(text: str) -> list[str]:
    """Words with the space or hyphen that ends them."""
    pieces, piece = [], ""
    for character in text:
        piece += character
        if character in " -":
            pieces.append(piece)
            piece = ""
    return [*pieces, piece] if piece else pieces


def _measure(text: str, font: Font) -> int:
    return sum(len(_glyph(character, font)[0]) + 1 for character in _bare(text)) - 1


def _bare(text: str) -> str:
    """The text without marks above and below its letters."""
    return "".join(c for c in unicodedata.normalize("NFD", text) if not unicodedata.combining(c))


def _glyph(character: str, font: Font) -> Bitmap:
    return font.glyphs[SAME.get(character, character)]


def _marked(character: str, font: Font) -> tuple[str, ...] | None:
    """The marks of a character, or None when the font cannot draw it."""
    base, *marks = tuple(unicodedata.normalize("NFD", character)) or (" ",)
    known = SAME.get(base, base) in font.glyphs
    return tuple(marks) if known and all(m in ABOVE or m in BELOW for m in marks) else None


def _line(text: str, font: Font) -> list[str]:
    """One line as rows of pixels, with room for marks only where there are any."""
    glyphs = [(_glyph(_bare(c), font), _marked(c, font) or ()) for c in _composed(text)]
    above = any(mark in ABOVE for _, marks in glyphs for mark in marks)
    below = any(mark in BELOW for _, marks in glyphs for mark in marks)
    columns = [_column(glyph, marks, above, below) for glyph, marks in glyphs]
    return [" ".join(rows) for rows in zip(*columns, strict=True)]


def _composed(text: str) -> Iterator[str]:
    """Characters together with the marks that follow them."""
    cluster = ""
    for character in unicodedata.normalize("NFD", text):
        if cluster and not unicodedata.combining(character):
            yield cluster
            cluster = ""
        cluster += character
    if cluster:
        yield cluster


def _column(glyph: Bitmap, marks: tuple[str, ...], above: bool, below: bool) -> list[str]:
    """A letter with its marks, in rows of one width."""
    width = len(glyph[0])
    top: tuple[str, ...] = next((ABOVE[m] for m in marks if m in ABOVE), ("", ""))
    low: tuple[str, ...] = next((BELOW[m] for m in marks if m in BELOW), ("",))
    head = [_centred(row, width) for row in top] if above else []
    foot = ["".ljust(width), _centred(low[0], width)] if below else []
    return head + list(glyph) + foot


def _centred(row: str, width: int) -> str:
    return row.replace(".", " ").center(width)[:width]


def _scaled(rows: list[str], scale: int) -> list[str]:
    """Larger pixels, with the corner filled where two of them touch only by their corners.

    Nothing is cut away, so that a D keeps its corners and is not taken for an O.
    """
    if scale == 1:
        return rows
    width = max(len(row) for row in rows) + 2
    grid = [" " * width, *(f" {row}".ljust(width) for row in rows), " " * width]
    return [
        "".join(_pixel_row(grid, y, x, dy, scale) for x in range(1, width - 1))
        for y in range(1, len(grid) - 1)
        for dy in range(scale)
    ]


def _pixel_row(grid: list[str], y: int, x: int, dy: int, scale: int) -> str:
    """One row of a pixel drawn larger: a blank one joins neighbours that meet at its corner."""
    corner = max(scale // 2 - min(dy, scale - 1 - dy), 0)
    beside = y - 1 if dy < scale / 2 else y + 1
    if grid[y][x] != " " or grid[beside][x] == " " or not corner:
        return grid[y][x] * scale
    start = grid[y][x - 1] if grid[beside][x - 1] == " " else " "
    end = grid[y][x + 1] if grid[beside][x + 1] == " " else " "
    return start * corner + " " * (scale - 2 * corner) + end * corner


def _cells(rows: list[str]) -> list[str]:
    """Two rows of pixels to a row of half blocks."""
    width = max(len(row) for row in rows)
    even = [row.ljust(width) for row in rows] + [" " * width] * (len(rows) % 2)
    pairs = zip(even[::2], even[1::2], strict=True)
    return ["".join(_half(u, d) for u, d in zip(*pair, strict=True)) for pair in pairs]


def _half(upper: str, lower: str) -> str:
    if upper == "#":
        return "█" if lower == "#" else "▀"
    return "▄" if lower == "#" else " "


@lru_cache(maxsize=512)
def cells(text: str) -> int:
    """Columns a text takes: two for wide characters, none for marks on top of others."""
    return len(text) if text.isascii() else sum(_columns(character) for character in text)


def _columns(character: str) -> int:
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def wrapped(text: str, width: int) -> tuple[str, ...]:
    """Plain lines of at most `width` columns; only a word wider than that is divided."""
    lines: list[str] = []
    for word in text.split():
        for piece in _divided(word, width):
            if lines and cells(lines[-1]) + 1 + cells(piece) <= width:
                lines[-1] += f" {piece}"
            else:
                lines.append(piece)
    return tuple(lines)


def _divided(word: str, width: int) -> Iterator[str]:
    """A word in pieces no wider than the width; one character is the least."""
    piece = ""
    for character in word:
        if piece and cells(piece + character) > width:
            yield piece
            piece = ""
        piece += character
    if piece:
        yield piece
