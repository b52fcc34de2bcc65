"""Modifiers: what a step, a block, a part or a flow may carry beside its verb."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from conductor.plan import keys, rules, values
from conductor.plan.choices import SIDES, TURNS
from conductor.plan.model import Line, Mods, Step, Text, Way
from conductor.plan.quoting import quote
from conductor.plan.reading import Items, Node, Reading, Scalar, Table, quoted

Pairs = Mapping[str, tuple[Scalar, Node]]
Steps = Callable[[Reading, Scalar, Node], tuple[Step, ...]]
NONE = Mods()

_NAME = re.compile(r"[^\W\d_][\w '-]{0,23}")
_LISTS = frozenset((keys.STAY, keys.FREE, keys.SAY))


def modifiers(reading: Reading, pairs: Pairs, place: keys.Place, steps: Steps) -> Mods:
    """The modifiers among the pairs; `steps` reads the steps of another way."""
    found: dict[str, Any] = {}
    for name, (key, node) in pairs.items():
        if name not in place.keys:
            continue
        if reader := _READERS.get(name):
            field, read = reader
            value = read(reading, key, node)
        elif name == "say":
            field, value = "say", say(reading, key, node, place in _LISTS)
        else:
            continue
        if value is not None:
            found[field] = value
    if "breath may stretch" in pairs and "breath may stretch" in place.keys:
        limits = values.limits_of_breath(reading, *pairs["breath may stretch"])
        if limits:
            found["breath"] = values.stretched(reading, found.get("breath"), limits)
    if ways := _ways(reading, pairs, place, steps):
        found["ways"] = ways
    return Mods(**found) if found else NONE


def _ways(
    reading: Reading, pairs: Pairs, place: keys.Place, steps: Steps
) -> tuple[tuple[str, Way], ...]:
    """The other ways, by name: those of three fixed names, then those named under `variants`."""
    found: dict[str, Way] = {}
    for name in (*keys.LEVELS, "variants"):
        if name in pairs and name in place.keys:
            key, node = pairs[name]
            named = _variants(reading, key, node) if name == "variants" else [(name, key, node)]
            for level, own, value in named:
                way = _way(reading, own, value, steps)
                if way is not None and _untaken(reading, level, own, found):
                    found[level] = way
    return tuple(found.items())


def _variants(reading: Reading, key: Scalar, node: Node) -> list[tuple[str, Scalar, Node]]:
    """The names under `variants` that can be asked for in class, each with what it stands for."""
    hint = "Write names with their ways, like: variants: {gentle: knee down, full: eyes closed}."
    if type(node) is not Table:
        words = "names with their ways are asked for here"
        reading.tell(rules.FORM, words, reading.value_span(key, node), hint)
        return []
    if not node.pairs:
        values.missing(reading, key, hint)
    named = []
    for name, (own, value) in node.pairs.items():
        level = " ".join(name.lower().split())
        if _NAME.fullmatch(level) and level != AS_WRITTEN:
            named.append((level, own, value))
            continue
        words = f"{quoted(name)} cannot be the name of a way"
        hint = "Name it in a few letters, like: gentle, full, with a block."
        reading.tell(rules.WORD, words, reading.span(own), hint)
    return named


def _untaken(reading: Reading, level: str, key: Scalar, found: Mapping[str, Way]) -> bool:
    """Whether a name is not taken yet on this step."""
    if level not in found:
        return True
    hint = "Give each way of a step a name of its own."
    reading.tell(rules.WORD, f"there are two ways called {level} here", reading.span(key), hint)
    return False


def say(reading: Reading, key: Scalar, node: Node, many: bool = True) -> tuple[Line, ...]:
    """What is said: one text, or a list of lines where there is time for several."""
    if type(node) is Scalar:
        text = values.spoken(reading, key, node)
        return (Line("", text),) if text else ()
    if not many:
        hint = "Write one line here; several lines belong to a stay or to free time."
        values.text(reading, key, node, hint)
        return ()
    if type(node) is Table:
        return _anchored(reading, key, node)
    lines: list[Line] = []
    for item in node.items if type(node) is Items else ():
        lines += _line(reading, key, item)
    if not lines and type(node) is Items and not node.items:
        values.missing(reading, key, "Write the words, one line for each breath.")
    return tuple(lines)


def _line(reading: Reading, key: Scalar, item: Node) -> tuple[Line, ...]:
    if type(item) is Table:
        return _anchored(reading, key, item)
    text = values.spoken(reading, key, item)
    return (Line("", text),) if text else ()


def _anchored(reading: Reading, key: Scalar, table: Table) -> tuple[Line, ...]:
    lines = []
    for name, (anchor, node) in table.pairs.items():
        if name.lower() in {"first", "last"}:
            if text := values.spoken(reading, anchor, node):
                lines.append(Line(name.lower(), text))
        else:
            _tell_colon(reading, anchor, node)
    if not table.pairs:
        values.missing(reading, key)
    return tuple(lines)


def _tell_colon(reading: Reading, anchor: Scalar, node: Node) -> None:
    """A spoken line with a colon reads as a mapping: show it in quotes."""
    value = node.value if type(node) is Scalar else ""
    reading.tell(
        rules.QUOTES,
        f"YAML takes {quoted(anchor.value)} for a key, because of the colon after it",
        reading.span(anchor),
        f"If these are words, write: {quote(f'{anchor.value}: {value}'.strip())}; "
        "as keys 'first' and 'last' may stand here.",
    )


def _way(reading: Reading, key: Scalar, node: Node, steps: Steps) -> Way | None:
    span = reading.value_span(key, node)
    if type(node) is not Table:
        hint = "Write words, or a mapping with 'shape' and 'say', or with 'steps'."
        text = values.text(reading, key, node, hint)
        if text and type(node) is Scalar and node.plain:
            values.warn_eaten(reading, node)
        return Way(span, text=text) if text else None
    pairs = keys.known(reading, node, keys.WAY)
    if not pairs:
        values.missing(reading, key, "Write words, a shape or steps.")
    found: dict[str, Text | None] = {}
    for name in ("text", "shape", "say"):
        if name in pairs:
            read = values.text if name == "shape" else values.spoken
            found[name] = read(reading, *pairs[name])
    return Way(span, steps=steps(reading, *pairs["steps"]) if "steps" in pairs else (), **found)


def _side(reading: Reading, key: Scalar, node: Node) -> Text | None:
    return values.one_of(reading, key, node, SIDES)


def _turn(reading: Reading, key: Scalar, node: Node) -> Text | None:
    return values.one_of(reading, key, node, TURNS)


def _with(reading: Reading, key: Scalar, node: Node) -> Text | None:
    if type(node) is not Items:
        return values.text(reading, key, node)
    found = values.texts(reading, key, node)
    return Text(", ".join(text.value for text in found), found[0].span) if found else None


AS_WRITTEN = "as written"
_READERS: dict[str, tuple[str, Callable[[Reading, Scalar, Node], Any]]] = {
    "short": ("short", values.spoken),
    "say again": ("say_again", values.spoken),
    "side": ("side", _side),
    "with": ("with_", _with),
    "through": ("through", values.texts),
    "turn": ("turn", _turn),
    "over": ("over", values.breaths),
    "settle": ("settle", values.breaths),
    "note": ("note", values.spoken),
    "breath": ("breath", values.tempo),
    "speak": ("speak", values.forms),
    "may stretch": ("may_stretch", values.stretch),
    "may drop": ("may_drop", values.may_drop),
    "least": ("least", values.amount),
    "only": ("only", values.only),
}
