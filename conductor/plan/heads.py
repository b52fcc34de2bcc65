"""The top of a plan: title, flows, parts, shapes and options."""

from __future__ import annotations

import re
from pathlib import PurePosixPath, PureWindowsPath

from conductor.plan import keys, limits, rules, values
from conductor.plan.choices import FIRST_SIDES, KINDS
from conductor.plan.model import Flow, Mods, OwnShape, PartOf, Plan, Tempo, Text
from conductor.plan.mods import Pairs
from conductor.plan.reading import Items, Node, Reading, Scalar, Table, quoted
from conductor.plan.steps import block_mods, steps

_PARTS = "Write: parts:, and under it - part: Name with steps: under that."
_OPTIONS = ("voice", "check", "view")


def plan(reading: Reading, root: Node | None) -> Plan | None:
    """The whole plan as far as it can be read."""
    table = _table(reading, root)
    if table is None:
        return None
    pairs = keys.known(reading, table, keys.TOP)
    _version(reading, table, pairs)
    title = values.spoken(reading, *pairs["title"]) if "title" in pairs else None
    parts = _parts(reading, *pairs["parts"]) if "parts" in pairs else ()
    flows = _flows(reading, *pairs["flows"]) if "flows" in pairs else {}
    if "parts" not in pairs and "flows" not in pairs:
        reading.tell(rules.MISSING, "this plan has no parts", reading.span(table), _PARTS)
    kind = _one_of(reading, pairs, "kind", KINDS)
    _tell_shares(reading, parts)
    return Plan(
        file=reading.name,
        title=title or Text(_stem(reading.name), reading.at(0, 0)),
        parts=parts,
        flows=flows,
        shapes=shapes(reading, *pairs["shapes"]) if "shapes" in pairs else {},
        kind=kind.value if kind else "class",
        for_=values.text(reading, *pairs["for"]) if "for" in pairs else None,
        length=values.duration(reading, *pairs["length"]) if "length" in pairs else None,
        breath=_breath(reading, pairs),
        first_side=_one_of(reading, pairs, "first side", FIRST_SIDES),
        speak=values.forms(reading, *pairs["speak"]) if "speak" in pairs else (),
        props=values.texts(reading, *pairs["props"]) if "props" in pairs else (),
        options=_options(reading, pairs),
    )


def _table(reading: Reading, root: Node | None) -> Table | None:
    if type(root) is Table:
        return root
    if root is None or (type(root) is Scalar and not root.value):
        words = "this file holds no plan; it is empty"
        reading.tell(rules.MISSING, words, reading.at(0, 0), "Begin it with 'plan: 1'.")
    else:
        words = "a plan begins with keys, such as 'plan: 1' and 'title: ...'"
        reading.tell(rules.FORM, words, reading.span(root), _PARTS)
    return None


def _breath(reading: Reading, pairs: Pairs) -> Tempo | None:
    breath = values.tempo(reading, *pairs["breath"]) if "breath" in pairs else None
    if "breath may stretch" not in pairs:
        return breath
    limits = values.limits_of_breath(reading, *pairs["breath may stretch"])
    return values.stretched(reading, breath, limits) if limits else breath


def _tell_shares(reading: Reading, parts: tuple[PartOf, ...]) -> None:
    """Tell of parts that together wish for more than the class, or for less when all of them do."""
    wishes = [part.share for part in parts if part.share]
    total = sum(wish.of for wish in wishes)
    every = len(wishes) == len(parts)
    if not wishes or (total == 10_000 if every else total < 10_000):
        return
    told = f"{total / 100:g} %"
    words = f"the shares make {told}, and nothing is left for the parts that have none"
    hint = "Give smaller shares, or every part one."
    if every or total > 10_000:
        words = f"the shares of the parts make {told}, not 100 %"
        hint = "Change them, or take away the share of a part that may have the rest."
    also = tuple((wish.span, f"{wish.of / 100:g} %") for wish in wishes[:-1])
    reading.tell(rules.SHARES, words, wishes[-1].span, hint, also)


def _stem(name: str) -> str:
    return re.split(r"[/\\]", name)[-1].rsplit(".", 1)[0]


def _version(reading: Reading, table: Table, pairs: Pairs) -> None:
    if "plan" not in pairs:
        words = "the file does not say in which version of the plan language it is written"
        hint = "Write 'plan: 1' as its first line."
        reading.tell(rules.VERSION, words, reading.span(table), hint)
        return
    found = values.text(reading, *pairs["plan"], hint="Write 'plan: 1'.")
    if found and found.value != "1":
        words = f"this plan is written in version {quoted(found.value)}; only 1 can be read"
        reading.tell(rules.VERSION, words, found.span, "Write 'plan: 1'.")


def _one_of(reading: Reading, pairs: Pairs, name: str, words: tuple[str, ...]) -> Text | None:
    return values.one_of(reading, *pairs[name], words) if name in pairs else None


def _parts(reading: Reading, key: Scalar, node: Node) -> tuple[PartOf, ...]:
    if type(node) is not Items or not node.items:
        rule = rules.FORM if type(node) is Table or (type(node) is Scalar and node.value) else None
        words = "'parts' takes a list of parts" if rule else "there are no parts under 'parts'"
        reading.tell(rule or rules.MISSING, words, reading.span(key), _PARTS)
        return ()
    read = (_part(reading, item) for item in node.items)
    return tuple(part for part in read if part)


def _part(reading: Reading, node: Node) -> PartOf | None:
    if type(node) is not Table:
        words = "a part is a mapping with 'part' and 'steps'"
        reading.tell(rules.FORM, words, reading.span(node), _PARTS)
        return None
    pairs = keys.known(reading, node, keys.PART)
    name = values.text(reading, *pairs["part"]) if "part" in pairs else None
    if "part" not in pairs:
        words, hint = "this part has no name", "Begin it with '- part: Name'."
        reading.tell(rules.MISSING, words, reading.span(node), hint)
    if "steps" not in pairs:
        words, hint = "this part has no steps", "Write 'steps:' with a list under it."
        reading.tell(rules.MISSING, words, reading.span(node), hint)
        return None
    found = steps(reading, *pairs["steps"])
    length = values.duration(reading, *pairs["length"]) if "length" in pairs else None
    mods = block_mods(reading, pairs, keys.PART) if len(pairs) > 2 else Mods()
    share = values.share(reading, *pairs["share"]) if "share" in pairs else None
    if share and length:
        words, hint = "this part has a length as well as a share", "Keep one of the two."
        reading.tell(rules.MISPLACED, words, share.span, hint, ((length.span, "the length"),))
    return PartOf(name or Text("", reading.span(node)), found, mods, length, share)


def _flows(reading: Reading, key: Scalar, node: Node) -> dict[str, Flow]:
    if type(node) is not Table:
        hint = "Write each flow's name and a colon, and its steps as a list under it."
        if type(node) is Scalar and not node.value:
            values.missing(reading, key, hint)
        else:
            words = "'flows' takes names with steps under them"
            reading.tell(rules.FORM, words, reading.span(key), hint)
        return {}
    return {name: _flow(reading, *pair) for name, pair in node.pairs.items()}


def _flow(reading: Reading, key: Scalar, node: Node) -> Flow:
    name = reading.text_of(key)
    if type(node) is not Table:
        return Flow(name, steps(reading, key, node))
    if not (node.pairs.keys() & keys.FLOW.keys) and node.pairs.keys() & keys.STEP:
        return Flow(name, steps(reading, key, node))  # steps without dashes: told there
    pairs = keys.known(reading, node, keys.FLOW)
    if "steps" not in pairs:
        words = f"the flow {quoted(key.value)} has no steps"
        hint = "Write its steps as a list under its name, or under 'steps:'."
        reading.tell(rules.MISSING, words, reading.span(key), hint)
        return Flow(name, ())
    return Flow(name, steps(reading, *pairs["steps"]), block_mods(reading, pairs, keys.FLOW))


def shapes(reading: Reading, key: Scalar, node: Node) -> dict[str, OwnShape]:
    """The teacher's own shapes; a text alone after a name means `like`.

    Which fields there are is known where shapes are made, and told there.
    """
    hint = "Write each shape's name, and under it fields: keel: {like: boat}."
    if type(node) is not Table or not node.pairs:
        if type(node) is Scalar and node.value:
            reading.tell(rules.FORM, "'shapes' takes names with fields", reading.span(node), hint)
        else:
            values.missing(reading, key, hint)
        return {}
    return {name: _shape(reading, *pair) for name, pair in node.pairs.items()}


def _shape(reading: Reading, key: Scalar, node: Node) -> OwnShape:
    name = reading.text_of(key)
    if type(node) is not Table:
        like = values.text(reading, key, node, f"Write: {key.value}: {{like: boat}}.")
        return OwnShape(name, {"like": like} if like else {})
    fields = {}
    for field, (field_key, value) in node.pairs.items():
        if text := _joined(reading, field_key, value):
            fields[field] = text
    if not node.pairs:
        values.missing(reading, key, "Say what it is like: {like: boat}.")
    return OwnShape(name, fields)


def _joined(reading: Reading, key: Scalar, node: Node) -> Text | None:
    """A text, or a list of texts joined by commas."""
    if type(node) is not Items:
        return values.text(reading, key, node)
    found = values.texts(reading, key, node)
    return Text(", ".join(text.value for text in found), found[0].span) if found else None


def _options(reading: Reading, pairs: Pairs) -> dict[str, Text]:
    options: dict[str, Text] = {}
    for name in _OPTIONS:
        if name in pairs:
            _flatten(reading, name, *pairs[name], options)
    if "shapes from" in pairs and (path := values.text(reading, *pairs["shapes from"])):
        if _inside(path.value):
            options["shapes from"] = path
        else:
            words = f"{quoted(path.value)} leads out of the plan's folder"
            hint = "Put the file beside the plan and write its name alone."
            reading.tell(rules.PATH, words, path.span, hint)
    return options


def _inside(path: str) -> bool:
    """Whether a path is relative and never climbs, on any system."""
    posix, windows = PurePosixPath(path), PureWindowsPath(path)
    if posix.is_absolute() or windows.drive or windows.root or path.startswith("~"):
        return False
    return ".." not in posix.parts and ".." not in windows.parts


def _flatten(reading: Reading, path: str, key: Scalar, node: Node, into: dict[str, Text]) -> None:
    if type(node) is Table:
        for name, (inner, value) in node.pairs.items():
            _flatten(reading, f"{path}.{name}", inner, value, into)
        return
    if path in _OPTIONS:
        hint = f"Write settings under it, such as {path}: {{...}}."
        words = f"'{path}' takes a mapping of settings"
        reading.tell(rules.FORM, words, reading.span(key), hint)
        return
    hint = "Say why: rule-name: the reason." if path.startswith("check.off") else ""
    if path == "check.off":
        words = "'off' takes rules by name, each with a reason"
        reading.tell(rules.FORM, words, reading.span(key), "Write: off: {rule-name: the reason}.")
    elif (text := values.text(reading, key, node, hint)) and len(into) < limits.LIST_ITEMS:
        into[path] = text
