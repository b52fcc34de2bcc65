"""A JSON Schema (2020-12) of the plan language, made from its grammar: editors complete and check.

The keys come from the tables that the reader reads by, so a new key is in the schema by itself;
where nobody has said which form its value has, any value will do.
"""

from collections.abc import Iterable, Mapping

from conductor.checks.limits import LIMITS
from conductor.compiler.options import KNOWN, NUMBERS, SWITCHES
from conductor.plan import forms, keys, limits
from conductor.plan.keys import Place
from conductor.plan.model import LEFT_OUT
from conductor.report.language import MODIFIERS, TOP, VERBS, Key
from conductor.rules import Rule
from conductor.shapes.model import Shape
from conductor.shapes.own import FIELDS
from conductor.values import Struct

Form = dict[str, object]
DIALECT = "https://json-schema.org/draft/2020-12/schema"
ID = "urn:conductor:plan:1"

_TEXT: Form = {"type": ["string", "number", "boolean"], "minLength": 1}
_ANYTHING: Form = {"not": {"type": "null"}}
_DROP = "yes, no or left out"
_LEVEL = r"^[^\s\d_'-][^_.:,;/]{0,23}$"

_MEANS = {key.name: key for key in (*TOP, *VERBS, *MODIFIERS)}
_ALSO = {
    "part": "the name of the part",
    "text": "another way in words",
    "shape": "another shape that is taken instead",
    "first": "words at the beginning of the stay; they stay there when it is stretched",
    "last": "words before the end of the stay; they stay there when it is stretched",
}


def _ref(name: str) -> Form:
    return {"$ref": f"#/$defs/{name}"}


def _list(item: Form, most: int = 0) -> Form:
    return {"type": "array", "items": item, "minItems": 1, **({"maxItems": most} if most else {})}


def _either(*choices: Form) -> Form:
    return {"anyOf": list(choices)}


def _choice(name: str) -> Form:
    """A few words: listed, so that editors offer them, and taken in capitals too."""
    words = forms.CHOICES[name]
    return _either({"enum": list(words)}, {"type": "string", "pattern": forms.words(words)})


def _count(most: int) -> Form:
    return _either({"type": "integer", "minimum": 1, "maximum": most}, _ref("a count"))


_FLAG = _either({"type": "boolean"}, {"enum": ["yes", "no"]}, _ref("yes or no"))
_TEXTS = _either(_TEXT, _list(_TEXT, limits.LIST_ITEMS))
_SHAPES = _either(_ref("shape"), _list(_ref("shape"), limits.LIST_ITEMS))
_SPEAK = _either(_ref("how much is said"), _list(_ref("how much is said")))

# What the value of a key looks like, wherever the key stands.
_FORMS: Mapping[str, Form] = {
    "plan": {"enum": [1, "1"]},
    "kind": _choice("kind"),
    "length": _ref("a time"),
    "breath": _ref("a tempo"),
    "first side": _choice("first side"),
    "speak": _SPEAK,
    "props": _TEXTS,
    "flows": {"type": "object", "additionalProperties": _ref("flow")},
    "parts": _list(_ref("part")),
    "shapes": {"type": "object", "additionalProperties": _ref("own shape"), "minProperties": 1},
    "voice": _ref("voice"),
    "check": _ref("check"),
    "view": _ref("view"),
    "come to": _ref("shape"),
    "in": _ref("shape"),
    "out": _ref("shape"),
    "stay": _ref("breaths or a time"),
    "free": _ref("a time"),
    "of": _SHAPES,
    "to": _ref("shape"),
    "rounds": _count(limits.ROUNDS),
    "each side": _FLAG,
    "steps": _ref("steps"),
    "between": _ref("steps"),
    "alternate": _FLAG,
    "bell": _count(limits.STROKES),
    "side": _choice("side"),
    "with": _TEXTS,
    "through": _SHAPES,
    "turn": _choice("turn"),
    "over": _ref("breaths"),
    "settle": _ref("breaths"),
    "ease": _ref("way"),
    "more": _ref("way"),
    "or": _ref("way"),
    "variants": {
        "type": "object",
        "minProperties": 1,
        "propertyNames": {"pattern": _LEVEL},
        "additionalProperties": _ref("way"),
    },
    "may stretch": _either({"type": "boolean"}, _ref("bounds")),
    "may drop": _either({"type": "boolean"}, {"enum": ["yes", "no", LEFT_OUT]}, _ref(_DROP)),
    "may repeat": _ref("bounds of a count"),
    "breath may stretch": _ref("bounds of a breath"),
    "share": _ref("a share"),
    "least": _ref("breaths or a time"),
    "only": _ref("when it is led"),
    "shape": _ref("shape"),
    **dict.fromkeys(
        ("title", "for", "shapes from", "part", "flow", "short", "say again", "note", "text"), _TEXT
    ),
}


class _Kind(Struct, frozen=True):
    """A kind of mapping: the keys it takes, those it must have, and forms of its own."""

    place: Place
    needs: tuple[str, ...] = ()
    own: Mapping[str, Form] = {}
    more: Mapping[str, object] = {}


def _needs(*names: str) -> Form:
    return {"required": list(names)}


_LINES = _ref("lines")
_KINDS: Mapping[str, _Kind] = {
    "movement": _Kind(
        keys.MOVE, own={"say": _TEXT}, more={"oneOf": [_needs(verb) for verb in keys.MOVES]}
    ),
    "stay": _Kind(keys.STAY, ("stay",), {"say": _LINES}),
    "free time": _Kind(keys.FREE, ("free",), {"say": _LINES}),
    "words": _Kind(keys.SAY, ("say",), {"say": _LINES}),
    "bell": _Kind(keys.BELL, ("bell",)),
    "block": _Kind(
        keys.BLOCK,
        own={"say": _TEXT, "least": _count(limits.ROUNDS)},
        more={
            "oneOf": [_needs("flow"), _needs("steps")],
            "dependentRequired": {
                "between": ["each side"],
                "alternate": ["rounds"],
                "least": ["rounds"],
                "may repeat": ["rounds"],
            },
        },
    ),
    "part": _Kind(keys.PART, ("part", "steps"), {"say": _TEXT}),
    "way": _Kind(keys.WAY, own={"say": _TEXT}, more={"minProperties": 1}),
}
_STEPS = ("movement", "stay", "free time", "words", "bell", "block")


def schema(rules: Iterable[Rule] = (), shapes: Iterable[Shape] = ()) -> Form:
    """The whole schema; `rules` are those that a plan may switch off, `shapes` are offered."""
    top = _mapping(_Kind(keys.TOP, ("plan",), more={"anyOf": [_needs("parts"), _needs("flows")]}))
    return {
        "$schema": DIALECT,
        "$id": ID,
        "title": "A class plan of Conductor",
        "description": "A breath-linked movement class as text; `conductor language` explains it.",
        **top,
        "$defs": {**_definitions(shapes), **_settings(rules)},
    }


def _mapping(kind: _Kind) -> Form:
    """A mapping of some keys and no others."""
    return {
        "type": "object",
        "properties": {name: _value(name, kind) for name in sorted(kind.place.keys)},
        "additionalProperties": False,
        **({"required": list(kind.needs)} if kind.needs else {}),
        **kind.more,
    }


def _value(name: str, kind: _Kind) -> Form:
    """The form of a key's value, with what the key means and an example."""
    form = kind.own.get(name) or _FORMS.get(name) or _ANYTHING
    key = _MEANS.get(name) or Key(name, _ALSO.get(name, ""))
    described: Form = {"description": _described(key)} if key.means else {}
    return {**described, **form}


def _described(key: Key) -> str:
    return f"{key.means}\n\nFor example:\n{key.example}" if key.example else key.means


def _definitions(shapes: Iterable[Shape]) -> Form:
    kinds = {
        name: {"description": kind.place.name, **_mapping(kind)} for name, kind in _KINDS.items()
    }
    kinds["way"] = _either(_TEXT, kinds["way"])
    names = sorted({name for shape in shapes for name in shape.names})
    offered: list[Form] = [{"enum": ["same", *names]}] if names else []
    flow = _Kind(keys.FLOW, ("steps",))
    patterns: Form = {
        name: {"type": "string", "pattern": forms.pattern(name)} for name in forms.PATTERNS
    }
    return {
        **patterns,
        **kinds,
        "shape": _either(*offered, _TEXT),
        "step": _either(*(_ref(name) for name in _STEPS)),
        "steps": _list(_ref("step")),
        "flow": _either(_ref("steps"), _mapping(flow)),
        "lines": _either(_TEXT, _ref("anchored"), _list(_either(_TEXT, _ref("anchored")))),
        "anchored": _anchored(),
        "own shape": _either(_ref("shape"), _own_shape()),
    }


def _anchored() -> Form:
    """Words at the beginning or the end of a stay, by `first` and `last`."""
    return {
        "type": "object",
        "minProperties": 1,
        "properties": {name: {"description": _ALSO[name], **_TEXT} for name in ("first", "last")},
        "patternProperties": {forms.words(("first", "last")): _TEXT},
        "additionalProperties": False,
    }


def _own_shape() -> Form:
    """A shape of the teacher's own; its fields are read in capitals and with other blanks too."""
    listed = dict.fromkeys(FIELDS, _TEXTS)
    loose = {forms.words((name.replace(" ", "[ _]+"),)): _TEXTS for name in FIELDS}
    return {
        "type": "object",
        "minProperties": 1,
        "properties": listed,
        "patternProperties": loose,
        "additionalProperties": False,
    }


def _settings(rules: Iterable[Rule]) -> Form:
    """What may stand under `voice`, `view` and `check`."""
    groups: dict[str, Form] = {"voice": {}, "view": {}}
    for name in KNOWN:
        group, _, key = name.partition(".")
        if key:
            groups[group][key] = _setting(name)
    found: Form = {name: _closed(keys_) for name, keys_ in groups.items()}
    off = {rule.name: {"description": rule.sentence, **_TEXT} for rule in rules}
    thresholds: Form = {
        one.name: {"description": f"{one.value:g} {one.unit} ({one.source})", **_TEXT}
        for one in LIMITS
    }
    switched: Form = {
        "description": "rules that are switched off, each with the reason",
        **(_closed(off) if off else {"type": "object", "additionalProperties": _TEXT}),
    }
    found["check"] = _closed({"off": switched, **thresholds})
    return found


def _setting(name: str) -> Form:
    if name in SWITCHES:
        return _either({"type": "boolean"}, {"enum": ["yes", "no", "on", "off"]}, _TEXT)
    if name in NUMBERS:
        low, high, words, hint = NUMBERS[name]
        number: Form = {"type": "number", "minimum": low, "maximum": high}
        measured: Form = {"type": "string", "pattern": r"^ *[0-9]+(?:\.[0-9]*)?[% m]*$"}
        return {"description": f"{words}\n\nFor example:\n{hint}", **_either(number, measured)}
    return dict(_TEXT)


def _closed(properties: Mapping[str, object]) -> Form:
    return {"type": "object", "properties": dict(properties), "additionalProperties": False}
