"""Spoken words that YAML trips over: found, told, and shown as they should be written."""

from __future__ import annotations

import re
from collections.abc import Sequence

from conductor.patterns import pattern
from conductor.plan import limits, rules
from conductor.plan.reading import Reading, quoted

_LINE = pattern(r"(?P<head>\s*(?:- +)*(?:[A-Za-z][\w' -]{0,30}: +|(?<=- )))(?P<value>\S.*)")
_GLUED = pattern(r"\s*(?:- +)*[a-z][a-z ]{0,20}:[^\s:]")
_CLOSED = {
    "'": pattern(r"'(?:[^']|'')*'(?:\s+#.*)?"),
    '"': pattern(r'"(?:[^"\\]|\\.)*"(?:\s+#.*)?'),
    "[": pattern(r"\[.*\](?:\s+#.*)?"),
    "{": pattern(r"\{.*\}(?:\s+#.*)?"),
    "|": pattern(r"\|[+-]?\d?[+-]?(?:\s+#.*)?"),
    ">": pattern(r">[+-]?\d?[+-]?(?:\s+#.*)?"),
}
_ENDED = {"'": pattern(r"(?:[^']|'')*'\s*"), '"': pattern(r'(?:[^"\\]|\\.)*"\s*', re.DOTALL)}
SPOKEN = frozenset(
    ("say", "short", "say again", "first", "last", "title", "note", "ease", "more", "or", "text")
)
"""Keys whose value is words to say or show."""
_SIGNS = "]},&*!%@`#?-"
_BACK = 200  # lines looked at above a fault for a quote that was never closed

_LAYOUT = (
    ("mapping values", "a second colon, or one indented wrongly, stands here", ""),
    ("expected ':'", "this line has no colon after its key", "Write key, colon, space, value."),
    (
        "end of stream",
        "a quote is opened here and never closed",
        "Close the quote on its own line.",
    ),
    ("or '}'", "a brace { is opened here and not closed", "Close it with }."),
    ("or ']'", "a bracket [ is opened here and not closed", "Close it with ]."),
    ("escape", "a backslash here makes no sign that YAML knows", "Write two for one backslash."),
    ("start any token", "a line or value cannot begin with this sign", "Put the words in quotes."),
    ("sequence entries", "a dash stands where no list can begin", "Put the list on its own lines."),
    ("'-' indicator", "a key stands where a list goes on", "Write '- ' before it, or indent it."),
    ("expected key", "this does not line up with the keys above", "Indent it like its neighbours."),
    ("block end", "this does not line up with what is above", "Indent it like its neighbours."),
)


def quote(value: str) -> str:
    """A value in quotes, so that YAML reads it as written."""
    if '"' not in value and "\\" not in value:
        return f'"{value}"'
    if "'" not in value:
        return f"'{value}'"
    return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'


def quoted_line(line: str, column: int | None = None) -> str:
    """The line with its value in quotes, or "" when no value begins (at that column)."""
    found = _LINE.match(line.rstrip())
    if not found or (column is not None and found.start("value") != column):
        return ""
    return f"{found['head'].strip()} {quote(found['value'])}".strip()


def repair(lines: Sequence[str], places: Sequence[tuple[int, int]]) -> tuple[int, str] | None:
    """The number of the line that trips YAML, and the line mended; None when there is none."""
    for number, _ in places:
        if number < len(lines) and (mended := _mended(lines[number])):
            return number, mended
    return _unclosed(lines, *places[0])


def _mended(line: str) -> str:
    found = _LINE.match(line.rstrip())
    if not found or not _trips(found["value"]) or _is_open_list(found):
        return ""
    return found["head"] + quote(found["value"])


def _is_open_list(found: re.Match[str]) -> bool:
    """Whether a list or mapping was left open where no words are spoken: quotes do not help."""
    key = found["head"].strip(" -:")
    return found["value"][0] in "[{" and key not in SPOKEN


def _trips(value: str) -> bool:
    """Whether YAML would not take this value as the words it is."""
    first = value[0]
    if first in _CLOSED:
        return _CLOSED[first].fullmatch(value) is None
    return ": " in value or value.endswith(":") or first in _SIGNS


def _unclosed(lines: Sequence[str], line: int, column: int) -> tuple[int, str] | None:
    """The line above whose opening quote was closed by a quote just before the fault.

    An apostrophe at the head of a line eats all words up to the next apostrophe.
    """
    line = min(line, len(lines) - 1)
    rest = lines[line][:column]
    for number in range(line - 1, max(line - _BACK, -1), -1):
        found = _LINE.match(lines[number].rstrip())
        sign = found["value"][0] if found else ""
        if found and sign in _ENDED and _trips(found["value"]):
            inside = f"{found['value'][1:]}\n{rest}"
            if _ENDED[sign].fullmatch(inside):
                return number, found["head"] + quote(found["value"])
        rest = f"{lines[number]}\n{rest}"
    return None


def tell_quotes(reading: Reading, number: int, line: str) -> None:
    """Tell of a line whose words belong in quotes, and show it mended."""
    found = _LINE.match(reading.lines[number].rstrip())
    start, stop = found.span("value") if found else (0, len(line))
    reading.tell(
        rules.QUOTES,
        "YAML takes signs in these words for its own",
        reading.at(number, start, stop - start),
        f"Put the words in quotes: {line.strip()}",
    )


def tell_layout(reading: Reading, told: str, places: Sequence[tuple[int, int]]) -> int:
    """Tell of a fault of layout in our words; gives the line (from 0) where it lies."""
    words, hint = f"YAML cannot be read here ({quoted(told)})", "Compare with the lines above."
    for sign, *ours in _LAYOUT:
        if sign in told:
            words, hint = ours
            break
    opened = any(sign in told for sign in ("end of stream", "or '}'", "or ']'"))
    span = reading.at(*places[-1 if opened else 0])
    text = reading.lines[span.line - 1]
    if text[span.column - 1 : span.column] == "\t":
        words, hint = "a tab stands here; YAML is indented by spaces", "Write spaces instead."
    glued = [n for n in (span.line - 1, span.line - 2) if n >= 0 and _GLUED.match(reading.lines[n])]
    if glued:
        text = reading.lines[glued[0]]
        span = reading.at(glued[0], text.index(":"))
        words, hint = (
            "there is no space after this colon",
            f"Write: {text.strip().replace(':', ': ', 1)}",
        )
    if "depth" in told:  # yaml's own bound, met before ours when all stands on one line
        words, hint = f"this is more than {limits.DEPTH} levels deep", "Keep steps flat."
        reading.tell(rules.SIZE, words, span, hint)
        return span.line - 1
    reading.tell(rules.LAYOUT, words, span, hint or "Put words with a colon in quotes.")
    return span.line - 1
