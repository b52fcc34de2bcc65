"""Findings as a good compiler shows them: the place, the words, the line itself, the way on."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Mapping

from conductor.findings import Finding
from conductor.patterns import pattern
from conductor.spans import Span

Paint = Callable[[str, str], str]
"""Given a text and what it is (error, warning, remark, place, caret, hint), the text in colour."""

_WIDTH = 96
_GONE = pattern(
    "[\x00-\x08\x0a-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]"
)


def plain(text: str, _: str) -> str:
    """No colour."""
    return text


def show(
    findings: Iterable[Finding], sources: Mapping[str, str] | None = None, paint: Paint = plain
) -> str:
    """All findings as text, a blank line between them.

    `sources` holds each file's text, so that its lines can be shown.
    """
    lines = {name: _lines(text) for name, text in (sources or {}).items()}
    return "\n".join(f"{_one(finding, lines, paint)}\n" for finding in findings)


def _lines(text: str) -> list[str]:
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _one(finding: Finding, sources: Mapping[str, list[str]], paint: Paint) -> str:
    weight = paint(finding.weight.value, finding.weight.value)
    times = f" ({finding.times} times)" if finding.times > 1 else ""
    place = f"{paint(_safe(str(finding.span)), 'place')}: " if finding.span else ""
    rows = [f"{place}{weight}: {_safe(finding.words)}{times} [{finding.rule}]"]
    rows += _quote(finding.span, sources, paint)
    if finding.hint:
        rows.append(paint(f"  = {_safe(finding.hint)}", "hint"))
    for span, words in finding.also:
        rows.append(f"  {paint(_safe(str(span)), 'place')}: {_safe(words)}")
        rows += _quote(span, sources, paint)
    return "\n".join(rows)


def _quote(span: Span | None, sources: Mapping[str, list[str]], paint: Paint) -> list[str]:
    """The line of a span and a line of carets under it; nothing when the line is not at hand."""
    lines = sources.get(span.file, []) if span else []
    if span is None or not 1 <= span.line <= len(lines):
        return []
    line = lines[span.line - 1]
    start = min(span.column - 1, len(line))
    stop = max(min(span.end - 1, len(line)), start + 1)
    begin = _window(line, start)
    shown = line[begin : begin + _WIDTH]
    head = "…" if begin else ""
    tail = "…" if begin + _WIDTH < len(line) else ""
    pad = " " * len(head) + "".join(map(_pad, line[begin:start]))
    width = sum(len(_pad(char)) for char in line[start : min(stop, begin + _WIDTH)])
    number = f"{span.line:>5} | "
    return [
        f"{number}{head}{_safe(shown)}{tail}",
        f"      | {pad}{paint('^' * max(width, 1), 'caret')}",
    ]


def _window(line: str, start: int) -> int:
    """Where to begin a long line so that the place is seen."""
    return 0 if len(line) <= _WIDTH or start < _WIDTH * 2 // 3 else start - _WIDTH // 3


def _pad(char: str) -> str:
    """Blanks as wide as a character is shown."""
    if char == "\t":
        return "\t"
    if _GONE.match(char) or unicodedata.combining(char):
        return ""
    return "  " if unicodedata.east_asian_width(char) in "WF" else " "


def _safe(text: str) -> str:
    """Without signs that steer a terminal."""
    return _GONE.sub("", text)
