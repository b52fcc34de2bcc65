"""One file being read: its lines, its nodes, and the findings made on the way."""

from __future__ import annotations

from typing import Protocol

from conductor.findings import Finding, Weight
from conductor.patterns import pattern
from conductor.plan import limits, rules
from conductor.plan.model import Text
from conductor.rules import Rule
from conductor.spans import Span

HIDDEN = "\ue000"  # takes the place of a control character, so that columns stay true

_CONTROLS = (
    "\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff"
)
_SILENT = (
    "\u061c\u200b\u200e\u200f\ufeff\ue000"  # harmless marks of direction and width: no finding
)
_TOLD = pattern(f"[{_CONTROLS}]")
_GONE = pattern(f"[{_CONTROLS}{_SILENT}]")


class Mark(Protocol):
    """A place as yaml counts: line and column from 0."""

    @property
    def line(self) -> int:
        """The line, from 0."""
        ...

    @property
    def column(self) -> int:
        """The column, from 0, in characters."""
        ...


class Scalar:
    """A text, with its own key's or list's place; `plain` means it is not in quotes."""

    __slots__ = ("plain", "start", "stop", "value")

    def __init__(self, value: str, start: Mark, stop: Mark, plain: bool) -> None:
        self.value = value
        self.start = start
        self.stop = stop
        self.plain = plain


class Items:
    """A list; `stop` is just past its bracket, where it has one."""

    __slots__ = ("items", "start", "stop")

    def __init__(self, start: Mark) -> None:
        self.items: list[Node] = []
        self.start = self.stop = start


class Table:
    """A mapping; its keys are texts, in the order written; `stop` as of a list."""

    __slots__ = ("pairs", "start", "stop")

    def __init__(self, start: Mark) -> None:
        self.pairs: dict[str, tuple[Scalar, Node]] = {}
        self.start = self.stop = start


Node = Scalar | Items | Table


class Reading:
    """Holds a file's name and lines, gives places, and collects findings up to the limit."""

    def __init__(self, text: str, name: str) -> None:
        self.name = name
        self.findings: list[Finding] = []
        self.unlisted = 0
        self.exact = True  # False once a line was mended in memory: its columns may be too far
        text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
        self.lines = text.split("\n")
        if not all(map(str.isprintable, self.lines)):
            self._tell_controls()
            text = _GONE.sub(HIDDEN, text)
        self.text = text

    def _tell_controls(self) -> None:
        for number, line in enumerate(self.lines):
            if found := _TOLD.search(line):
                span = Span(self.name, number + 1, found.start() + 1, found.start() + 2)
                self.control(found.group(), span)

    def control(self, character: str, span: Span) -> None:
        """Tell of a control character that is left out."""
        words = f"a control character (U+{ord(character):04X}) stands here; it is left out"
        self.tell(rules.CONTROL, words, span, "Delete it; it is often pasted along with words.")

    def clean(self, value: str, start: Mark, stop: Mark) -> str:
        """The text of a scalar without control characters, on one line, with single spaces."""
        if len(value) < 200 and value.isprintable() and "  " not in value:
            return value if value[0] != " " and value[-1] != " " else value.strip()
        if not value.isprintable():
            told = _TOLD.search(value)
            if told:
                self.control(told.group(), self.between(start, stop))
            value = _GONE.sub("", value)
        value = " ".join(value.split())
        if len(value) > limits.TEXT_CHARS:
            words = f"this text has {len(value)} characters; at most {limits.TEXT_CHARS} are read"
            self.tell(rules.SIZE, words, self.between(start, stop), "Share it among several steps.")
            value = value[: limits.TEXT_CHARS]
        return value

    def between(self, start: Mark, stop: Mark) -> Span:
        """The span from one mark to another, or to the end of the first line."""
        line, column = start.line, start.column
        if stop.line == line and self.exact:
            return Span(self.name, line + 1, column + 1, stop.column + 1)
        if line >= len(self.lines):
            line, column = len(self.lines) - 1, len(self.lines[-1])
        width = len(self.lines[line])
        column = min(column, width)
        end = stop.column if stop.line == line else len(self.lines[line].rstrip())
        return Span(self.name, line + 1, column + 1, min(max(end, column), width) + 1)

    def at(self, line: int, column: int, length: int = 1) -> Span:
        """A span from a line and column counted from 0, kept within the file."""
        line = min(max(line, 0), len(self.lines) - 1)
        width = len(self.lines[line])
        column = min(max(column, 0), width)
        return Span(self.name, line + 1, column + 1, min(column + length, width) + 1)

    def span(self, node: Node) -> Span:
        """Where a node stands; a list or mapping is marked by its first sign or key."""
        if type(node) is Scalar:
            return self.between(node.start, node.stop)
        if type(node) is Table and node.pairs:
            key = next(iter(node.pairs.values()))[0]
            if (key.start.line, key.start.column) == (node.start.line, node.start.column):
                return self.between(key.start, key.stop)
        return self.at(node.start.line, node.start.column)

    def value_span(self, key: Scalar, node: Node) -> Span:
        """Where a value stands; an empty one is shown at its key."""
        if type(node) is Scalar and not node.value:
            return self.between(key.start, key.stop)
        return self.span(node)

    def step_span(self, key: Scalar, node: Node) -> Span:
        """From a verb to the end of its value, where both stand on one line."""
        stop = node.stop if type(node) is Scalar and node.value else key.stop
        return self.between(key.start, stop)

    def text_of(self, node: Scalar) -> Text:
        """A scalar with its place."""
        return Text(node.value, self.between(node.start, node.stop))

    def line_of(self, mark: Mark) -> str:
        """The line as written."""
        return self.lines[mark.line] if mark.line < len(self.lines) else ""

    @property
    def full(self) -> bool:
        """Whether no more findings are listed, so that making them is work for nothing."""
        return len(self.findings) >= limits.FINDINGS

    def tell(
        self,
        rule: Rule,
        words: str,
        span: Span,
        hint: str = "",
        also: tuple[tuple[Span, str], ...] = (),
    ) -> None:
        """Add a finding, or only count it when there are too many."""
        if self.full:
            self.unlisted += 1
        else:
            self.findings.append(Finding(rule.name, rule.weight, words, span, hint, also))

    def tell_unlisted(self) -> None:
        """Say how many findings were not listed."""
        if self.unlisted:
            words = f"{self.unlisted} more findings are not listed"
            last = self.at(len(self.lines) - 1, 0)
            hint = "Mend those above and check again."
            self.findings.append(
                Finding(rules.SIZE.name, Weight.REMARK, words, last, hint, (), self.unlisted)
            )


def quoted(value: str, room: int = 50) -> str:
    """A value as shown inside a finding: in quotes and never long."""
    return f"'{value}'" if len(value) <= room else f"'{value[: room - 1]}…'"
