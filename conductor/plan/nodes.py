"""YAML's events become our own nodes: every scalar is text and every node knows its place.

Building them from events, not from YAML's own tree, is what lets depth, size, anchors, tags and
duplicates be refused where they stand. This module alone knows yaml.
"""

from __future__ import annotations

from typing import Any, Protocol, cast

import yaml
from yaml import events as ev

from conductor.plan import limits, quoting, rules
from conductor.plan.reading import Items, Node, Reading, Scalar, Table, quoted

try:
    from yaml._yaml import CParser
except ImportError:  # a yaml without its C library reads the same, about ten times slower
    CParser = None  # type: ignore[misc, assignment]


class Events(Protocol):
    """What both of yaml's parsers offer."""

    def get_event(self) -> Any:
        """The next event, or None after the last; yaml leaves the types of its marks open."""
        ...


class _PureParser(yaml.reader.Reader, yaml.scanner.Scanner, yaml.parser.Parser):
    def __init__(self, text: str) -> None:
        yaml.reader.Reader.__init__(self, text)
        yaml.scanner.Scanner.__init__(self)
        yaml.parser.Parser.__init__(self)


class _TooMuchError(Exception):
    """The file is beyond the limits; the finding is made, reading stops."""


def parser(text: str, pure: bool = False) -> Events:
    """The quickest parser there is; `pure` asks for the one in Python."""
    if pure or CParser is None:
        return cast("Events", _PureParser(text))
    return cast("Events", CParser(text))


def read_nodes(reading: Reading, pure: bool = False) -> tuple[Node | None, int]:
    """The file's one node and the line (from 0) at which its YAML broke off, or -1.

    A line of words that YAML trips over is told, mended in memory and read on, so that one colon
    does not hide the faults below it.
    """
    text, mended = reading.text, 0
    while True:
        before = len(reading.findings)
        builder = _Builder(reading)
        try:
            builder.build(parser(text, pure))
        except _TooMuchError:
            return builder.root, builder.place()[0]
        except (yaml.YAMLError, ValueError, OverflowError) as error:  # ValueError: \UFFFFFFFF, pure
            places, told = _places(error, builder.place())
        else:
            return builder.root, -1
        lines = text.split("\n")
        repaired = quoting.repair(lines, places) if _may_mend(mended, len(text)) else None
        if repaired is None:
            return builder.root, quoting.tell_layout(reading, told, places)
        del reading.findings[before:]
        quoting.tell_quotes(reading, *repaired)
        number, line = repaired
        lines[number] = line
        text, mended = "\n".join(lines), mended + 1
        reading.exact = False


def _may_mend(mended: int, chars: int) -> bool:
    return mended < limits.REPAIRS and mended * chars < 2 * limits.FILE_CHARS


def _places(error: Exception, last: tuple[int, int]) -> tuple[list[tuple[int, int]], str]:
    marks = [getattr(error, which, None) for which in ("problem_mark", "context_mark")]
    places = [(mark.line, mark.column) for mark in marks if mark is not None]
    return places or [last], str(getattr(error, "problem", None) or error)


class _Builder:
    """One pass over the events."""

    def __init__(self, reading: Reading) -> None:
        self.reading = reading
        self.root: Node | None = None
        self.stack: list[Items | Table] = []
        self.keys: list[Scalar | None] = []  # for each open node: the key waiting for its value
        self.count = 0
        self.last: Node | None = None

    def build(self, events: Events) -> None:
        """Read to the end; yaml's own errors pass through."""
        get = events.get_event
        while (event := get()) is not None:
            kind = type(event)
            if kind is ev.ScalarEvent:
                self._scalar(event)
            elif kind is ev.MappingEndEvent or kind is ev.SequenceEndEvent:
                self._close(event)
            elif kind is ev.MappingStartEvent:
                self._open(event, Table(event.start_mark))
            elif kind is ev.SequenceStartEvent:
                self._open(event, Items(event.start_mark))
            elif kind is ev.AliasEvent:
                self._refuse(event, "an alias", "*")
                self._add(Scalar(f"*{event.anchor}", event.start_mark, event.end_mark, True))
            elif kind is ev.DocumentStartEvent:
                self._document(event)

    def place(self) -> tuple[int, int]:
        """Line and column (from 0) of the last node read."""
        return (self.last.start.line, self.last.start.column) if self.last else (0, 0)

    def _scalar(self, event: Any) -> None:
        start, stop, value, style = event.start_mark, event.end_mark, event.value, event.style
        if event.anchor is not None or event.tag is not None:
            self._refuse_marks(event)
        if value:
            value = self.reading.clean(value, start, stop)
        self._add(Scalar(value, start, stop, style is None or not style))

    def _open(self, event: Any, node: Items | Table) -> None:
        if event.anchor is not None or event.tag is not None:
            self._refuse_marks(event)
        self._add(node)
        self.stack.append(node)
        self.keys.append(None)
        if len(self.stack) > limits.DEPTH:
            self._stop(node, f"this is more than {limits.DEPTH} levels deep")

    def _close(self, event: Any) -> None:
        self.stack.pop().stop = event.end_mark
        self.keys.pop()

    def _add(self, node: Node) -> None:
        self.count += 1
        self.last = node
        if self.count > limits.NODES:
            self._stop(node, f"the file has more than {limits.NODES} keys and values")
        if not self.stack:
            self.root = self.root or node
            return
        top = self.stack[-1]
        if type(top) is Items:
            top.items.append(node)
            return
        key = self.keys[-1]
        self.keys[-1] = None if key else self._as_key(node)
        if key:
            pairs = cast("Table", top).pairs
            if key.value in pairs:
                self._tell_twice(pairs[key.value][0], key)
            else:
                pairs[key.value] = (key, node)

    def _as_key(self, node: Node) -> Scalar:
        if type(node) is Scalar:
            return node
        words = "a list or a mapping stands where a key is asked for"
        self.reading.tell(
            rules.FORM, words, self.reading.span(node), "Write a plain word before the colon."
        )
        return Scalar("", node.start, node.start, False)

    def _tell_twice(self, first: Scalar, key: Scalar) -> None:
        self.reading.tell(
            rules.TWICE,
            f"{quoted(key.value)} stands twice in the same place",
            self.reading.span(key),
            "Keep one of the two, or begin a new step with '- '.",
            ((self.reading.span(first), "the first one"),),
        )

    def _document(self, event: Any) -> None:
        start = event.start_mark
        line = self.reading.line_of(start)
        if event.version or event.tags or line.startswith("%"):
            span = self.reading.at(start.line, 0, len(line))
            self.reading.tell(
                rules.PLAIN, "a plan has no YAML directives", span, "Delete this line."
            )
        if self.root is not None:
            span = self.reading.at(start.line, start.column, 3)
            words = "a second document begins here; a plan is one document"
            self.reading.tell(rules.PLAIN, words, span, "Put it into a file of its own.")

    def _refuse_marks(self, event: Any) -> None:
        if event.anchor is not None:
            self._refuse(event, "an anchor", "&")
        if event.tag is not None:
            self._refuse(event, "a tag", "!")

    def _refuse(self, event: Any, what: str, sign: str) -> None:
        start = event.start_mark
        hint = quoting.quoted_line(self.reading.line_of(start), start.column)
        hint = f"If these are words, write: {hint}" if hint else "Use a flow for what comes often."
        span = self.reading.between(start, event.end_mark)
        words = f"{what} ({sign}) stands here; a plan has none"
        self.reading.tell(rules.PLAIN, words, span, hint)

    def _stop(self, node: Node, words: str) -> None:
        hint = "Make flows of what comes often, and keep steps flat."
        self.reading.tell(rules.SIZE, words, self.reading.span(node), hint)
        raise _TooMuchError
