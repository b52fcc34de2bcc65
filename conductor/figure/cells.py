"""Text in cells of a terminal: its width, cut to fit, and in plain ASCII where that is wanted."""

import textwrap
import unicodedata

from conductor.patterns import pattern
from conductor.view.clean import clean

_UNIT = pattern(r"(?<=\d) (?=(?:min|s|%)(?!\w))")
_JOINED = "\N{NO-BREAK SPACE}"


def wrapped(text: str, columns: int, hang: int = 0) -> list[str]:
    """Lines of so many letters; a number stays with its unit, later lines hang in."""
    lines = textwrap.wrap(_UNIT.sub(_JOINED, text), columns, subsequent_indent=" " * hang)
    return [line.replace(_JOINED, " ") for line in lines] or [""]


def width(text: str) -> int:
    """How many cells a text takes."""
    return sum(_cell(sign) for sign in text)


def _cell(sign: str) -> int:
    if unicodedata.combining(sign):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def fit(text: str, room: int, cut: str = "…") -> str:
    """The text in `room` cells, filled with blanks; cut off with a sign when it is longer."""
    if width(text) <= room:
        return text + " " * (room - width(text))
    kept, left = "", room - len(cut)
    for sign in text:
        if _cell(sign) > left:
            break
        kept += sign
        left -= _cell(sign)
    if left < 0:
        return " " * room
    kept = kept.rstrip() + cut
    return kept + " " * (room - width(kept))


def drawable(text: str, ascii_only: bool = False) -> str:
    """A text without signs that steer a terminal; in plain letters where others cannot be shown."""
    text = clean(text)
    if not ascii_only or text.isascii():
        return text
    plain = unicodedata.normalize("NFKD", text.replace("–", "-").replace("’", "'"))
    kept = (sign for sign in plain if not unicodedata.combining(sign))
    return "".join(sign if sign.isascii() else "?" for sign in kept)
