"""Changes to a plan's text that leave all else as it is: comments, order, quotes, line ends.

Nothing is written anew from values: a change takes out the few signs it replaces. What comes of it
is read again, so a change that would mean anything else is refused.
"""

from __future__ import annotations

import copy
import difflib
from collections.abc import Iterator, Sequence
from typing import Any

from conductor.patterns import pattern
from conductor.plan import amounts
from conductor.plan.reading import Scalar, Table
from conductor.plan.sheet import EditError, Place, Sheet, Spot, written
from conductor.spans import Span
from conductor.values import Struct

__all__ = [
    "Add",
    "Change",
    "EditError",
    "Set",
    "Sheet",
    "amount_set",
    "changed",
    "difference",
    "edited",
    "put",
    "stay_edit",
]

_LINE = pattern(r"[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+")
_COMMENT = pattern(r"[|>][^\s#]*(?P<comment>[ \t]+#[^\r\n]*)")


class Set(Struct, frozen=True):
    """Another text for the value at a place, or at the span of the value or of its key."""

    where: Place | Span
    value: str


class Add(Struct, frozen=True):
    """A new key for the mapping at a place, or for the one that has the key at a span.

    It comes behind the key `after`, or behind the last one.
    """

    where: Place | Span
    key: str
    value: str
    after: str = ""


Change = Set | Add


class _Cut(Struct, frozen=True):
    """Signs from `start` to `stop` of the text that give way to others."""

    start: int
    stop: int
    text: str


def edited(text: str, changes: Sequence[Change]) -> str:
    """The text with all these changes; raises EditError when one cannot be made as meant.

    `text` is the file as decoded, byte order mark and line ends as they are.
    """
    return changed(Sheet(text), changes)


def changed(sheet: Sheet, changes: Sequence[Change]) -> str:
    """As `edited`, of a text that has been read already."""
    wanted: Any = copy.deepcopy(sheet.data())
    cuts = []
    for change in changes:
        _checked(change)
        if isinstance(change, Set):
            spot = sheet.spot(change.where)
            cuts.append(_set(sheet, spot, change.value))
            wanted = _with(wanted, spot.place, change.value)
        else:
            spot = sheet.table(change.where)
            cuts.append(_add(sheet, spot, change))
            wanted = _with(wanted, (*spot.place, change.key), change.value)
    new = _cut(sheet.text, cuts)
    if Sheet(new).data() != wanted:
        raise EditError("these words cannot be written there without changing something else")
    return new


def put(sheet: Sheet, where: Place, key: str, value: str, after: str = "") -> Change:
    """The change that gives a mapping this key with this value, whether it has the key or not."""
    node = sheet.table(where).node
    if type(node) is Table and key in node.pairs:
        return Set((*where, key), value)
    there = type(node) is Table and after in node.pairs
    return Add(where, key, value, after if there else "")


def stay_edit(text: str, span: Span, *, halves: int = 0, ms: int = 0) -> str:
    """The text with another amount for the stay (or free time) whose verb begins at a span.

    `span` is a moment's origin. The amount is half breaths or milliseconds; a time that stood
    there as 1:30 stays in that form.
    """
    sheet = Sheet(text)
    return changed(sheet, [amount_set(sheet, span, halves=halves, ms=ms)])


def amount_set(sheet: Sheet, span: Span, *, halves: int = 0, ms: int = 0) -> Set:
    """The change of `stay_edit`, for one among several."""
    node = sheet.spot(span).node
    clock = type(node) is Scalar and ":" in node.value
    return Set(span, amounts.written(halves, ms, clock=clock))


def difference(old: str, new: str, name: str) -> str:
    """What changes, as a unified difference of lines that `patch` takes; "" when nothing does."""
    lines = difflib.unified_diff(_LINE.findall(old), _LINE.findall(new), name, name, n=2)
    return "".join(_ended(lines))


def _ended(lines: Iterator[str]) -> Iterator[str]:
    for line in lines:
        yield line
        if not line.endswith(("\n", "\r")):
            yield "\n\\ No newline at end of file\n"


def _checked(change: Change) -> None:
    for text in (change.value, *((change.key,) if isinstance(change, Add) else ())):
        if not text or text != " ".join(text.split()) or not text.isprintable():
            raise EditError("a plan's keys and values are words on one line")


def _set(sheet: Sheet, spot: Spot, value: str) -> _Cut:
    node = spot.node
    if type(node) is not Scalar:
        raise EditError("a list or a mapping stands there, not one value")
    start, stop, style = sheet.offset(node.start), sheet.end(node), sheet.style(node)
    text = written(value, style, spot.inline)
    if style in {"|", ">"}:  # a block becomes one line; its comment stays on it
        found = _COMMENT.match(sheet.text, start)
        text += found["comment"] if found else ""
    if start == stop and sheet.text[start - 1 : start] in {":", "-"}:
        text = f" {text}"
    return _Cut(start, stop, text)


def _add(sheet: Sheet, spot: Spot, change: Add) -> _Cut:
    table = spot.node
    assert type(table) is Table  # noqa: S101 -- the sheet gave a mapping
    if change.key in table.pairs:
        raise EditError(f"{change.key!r} stands there already")
    if change.after and change.after not in table.pairs:
        raise EditError(f"there is no {change.after!r} to put {change.key!r} behind")
    inline = spot.inline or sheet.bracketed(table)
    key = written(change.key, "", inline)
    text = f"{key}: {written(change.value, '', inline)}"
    if not table.pairs:
        at = sheet.offset(table.start) + 1
        return _Cut(at, at, text)
    before, value = table.pairs[change.after or next(reversed(table.pairs))]
    end = max(sheet.end(value), sheet.offset(before.stop))
    if inline:
        return _Cut(end, end, f", {text}")
    at = sheet.line_end(end)
    indent = " " * next(iter(table.pairs.values()))[0].start.column
    return _Cut(at, at, f"{sheet.line_break(end)}{indent}{text}")


def _with(data: Any, place: Place, value: str) -> Any:
    """The data with one value changed or added in place."""
    if not place:
        return value
    inner = data
    for step in place[:-1]:
        inner = inner[step]
    inner[place[-1]] = value
    return data


def _cut(text: str, cuts: Sequence[_Cut]) -> str:
    done, at = [], 0
    for cut in sorted(cuts, key=lambda one: (one.start, one.stop)):  # stable: keys in their order
        if cut.start < at:
            raise EditError("two changes are to be made in the same place")
        done += [text[at : cut.start], cut.text]
        at = cut.stop
    return "".join((*done, text[at:]))
