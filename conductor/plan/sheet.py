"""A plan's text as it lies in the file: where each value stands in it, byte order mark included."""

from __future__ import annotations

from collections.abc import Container, Iterator

from conductor.findings import Weight, worst
from conductor.patterns import pattern
from conductor.plan import limits
from conductor.plan.nodes import read_nodes
from conductor.plan.quoting import quote
from conductor.plan.reading import Items, Mark, Node, Reading, Scalar, Table
from conductor.spans import Span
from conductor.values import Struct

Place = tuple[str | int, ...]
"""The way to a value from the top: keys, and numbers from 0 within lists."""

_BREAK = pattern(r"\r\n|\r|\n")


class EditError(ValueError):
    """A change that cannot be made, in words for a person; the text is as it was."""


class Spot(Struct, frozen=True):
    """A value in the text: the way to it, and whether it stands within brackets or braces."""

    place: Place
    node: Node
    key: Scalar | None = None
    inline: bool = False


class Sheet:
    """The text with its nodes; refuses what YAML reads only after it was mended."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.starts = [int(text.startswith("\ufeff")), *(it.end() for it in _BREAK.finditer(text))]
        self.root = _root(text)
        self._by_place: dict[Place, Spot] = {}
        self._by_mark: dict[tuple[int, int], Spot] = {}
        for spot in self._within(Spot((), self.root, None, self.bracketed(self.root))):
            self._by_place[spot.place] = spot
            begins = [spot.key.start] if spot.key else []
            begins += [spot.node.start] if type(spot.node) is Scalar else []
            for mark in begins:
                self._by_mark.setdefault((mark.line + 1, mark.column + 1), spot)

    def data(self) -> object:
        """Everything that is written, as lists, mappings and texts."""
        return _data(self.root)

    def spots(self) -> Iterator[Spot]:
        """Every value, each before those within it."""
        yield from self._by_place.values()

    def __contains__(self, place: Place) -> bool:
        return place in self._by_place

    def is_table(self, place: Place) -> bool:
        """Whether a mapping stands there."""
        return place in self and type(self._by_place[place].node) is Table

    def text_at(self, where: Place | Span) -> str | None:
        """The text that stands there, or None."""
        if isinstance(where, tuple) and where not in self:
            return None
        node = self.spot(where).node
        return node.value if type(node) is Scalar else None

    def texts_below(self, place: Place, keys: Container[str]) -> list[str]:
        """The texts of these keys, wherever they stand within a value, in their order."""
        return [
            spot.node.value
            for spot in self.spots()
            if spot.place[: len(place)] == place
            and spot.place[-1:]
            and spot.place[-1] in keys
            and type(spot.node) is Scalar
        ]

    def spot(self, where: Place | Span) -> Spot:
        """The value at a place, or the one whose key (or else whose own text) begins at a span."""
        if isinstance(where, Span):
            found = self._by_mark.get((where.line, where.column))
        else:
            found = self._by_place.get(where)
        if found is None:
            raise EditError(f"there is nothing to change at {_told(where)}")
        return found

    def table(self, where: Place | Span) -> Spot:
        """The mapping at a place, or the one that has the key that begins at a span."""
        spot = self.spot(where)
        if isinstance(where, Span) and spot.key is not None:
            spot = self.spot(spot.place[:-1])
        if type(spot.node) is not Table:
            raise EditError(f"a key can be added to a mapping only, not at {_told(where)}")
        return spot

    def offset(self, mark: Mark) -> int:
        """Where a mark stands in the text, in characters from its very beginning."""
        if mark.line >= len(self.starts):
            return len(self.text)
        return min(self.starts[mark.line] + mark.column, len(self.text))

    def bracketed(self, node: Node) -> bool:
        """Whether a list or mapping stands within brackets or braces."""
        return type(node) is not Scalar and self.text[self.offset(node.start)] in "[{"

    def style(self, node: Scalar) -> str:
        """How a text is written: a quotation mark, "|" or ">" for a block, "" for plain."""
        return "" if node.plain else self.text[self.offset(node.start)]

    def end(self, node: Node) -> int:
        """Just past the last sign of a value, whatever its form; comments after it are left."""
        if type(node) is Scalar:
            stop = self.offset(node.stop)
            if self.style(node) in {"|", ">"}:
                start = self.offset(node.start)
                return start + len(self.text[start:stop].rstrip())
            return stop
        if self.bracketed(node):
            return self.offset(node.stop)
        inner = node.items if type(node) is Items else [pair[1] for pair in _pairs(node)]
        return self.end(inner[-1])

    def line_end(self, offset: int) -> int:
        """Where the line of an offset ends, before its line break."""
        found = _BREAK.search(self.text, offset)
        return found.start() if found else len(self.text)

    def line_break(self, offset: int) -> str:
        """The line break that ends the line of an offset, or else the first one of the file."""
        found = _BREAK.search(self.text, offset) or _BREAK.search(self.text)
        return found.group() if found else "\n"

    def _within(self, spot: Spot) -> Iterator[Spot]:
        yield spot
        inline = spot.inline or self.bracketed(spot.node)
        if type(spot.node) is Items:
            for index, node in enumerate(spot.node.items):
                yield from self._within(Spot((*spot.place, index), node, None, inline))
        elif type(spot.node) is Table:
            for key, node in _pairs(spot.node):
                yield from self._within(Spot((*spot.place, key.value), node, key, inline))


def _pairs(node: Node) -> list[tuple[Scalar, Node]]:
    return list(node.pairs.values()) if type(node) is Table else []


def _root(text: str) -> Node:
    if len(text) > limits.FILE_CHARS:
        raise EditError("this file is too long for a plan")
    reading = Reading(text, "the plan")
    root, broke = read_nodes(reading)
    if root is None or broke >= 0 or worst(reading.findings) is Weight.ERROR:
        raise EditError("this plan cannot be changed before its faults are mended")
    return root


def _data(node: Node) -> object:
    if type(node) is Scalar:
        return node.value
    if type(node) is Items:
        return [_data(item) for item in node.items]
    return {key.value: _data(value) for key, value in _pairs(node)}


def _told(where: Place | Span) -> str:
    if isinstance(where, Span):
        return f"line {where.line}, column {where.column}"
    return " > ".join(str(step + 1 if isinstance(step, int) else step) for step in where)


def written(value: str, style: str, inline: bool) -> str:
    """A text as YAML takes it, in the quotes it had; plain where that reads as the same text."""
    if style == "'":
        return "'" + value.replace("'", "''") + "'"
    if style == '"':
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return value if _reads(value, inline) else quote(value)


def _reads(value: str, inline: bool) -> bool:
    """Whether a plain text is read as it stands."""
    try:
        return Sheet(f"[{value}, 0]" if inline else f"k: {value}\n").data() in (
            [value, "0"],
            {"k": value},
        )
    except EditError:
        return False
