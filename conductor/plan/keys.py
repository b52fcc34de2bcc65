"""Which keys may stand where, and which other words people are likely to write for them."""

from __future__ import annotations

from collections.abc import Iterable

from conductor.plan import rules
from conductor.plan.reading import Node, Reading, Scalar, Table, quoted
from conductor.values import Struct

MOVES = ("come to", "in", "out")
BLOCKS = ("flow", "rounds", "each side", "steps")
SINGLES = (*MOVES, "stay", "free", "bell")
VERBS = frozenset((*SINGLES, *BLOCKS))

_WORDS = ("say", "short", "say again", "note", "speak")
LEVELS = ("ease", "more", "or")
_WAYS = (*LEVELS, "variants")
MODIFIERS = frozenset(
    (
        *(*_WORDS, *_WAYS, "side", "with", "through", "turn", "over", "settle", "breath"),
        *("breath may stretch", "may stretch", "may drop", "least", "only"),
    )
)
_OWN = frozenset(("of", "to", "between", "alternate", "may repeat"))  # each of one verb alone
STEP = VERBS | MODIFIERS | _OWN


class Place(Struct, frozen=True):
    """A kind of mapping: what to call it and the keys that may stand in it."""

    name: str
    keys: frozenset[str]
    of_steps: bool = False  # a step, or what holds steps: modifiers of other steps are known here


def _place(name: str, *keys: Iterable[str], of_steps: bool = True) -> Place:
    return Place(name, frozenset(key for some in keys for key in some), of_steps)


_OF_A_STEP = frozenset(("through", "turn", "over", "with", "note", "short", "say again"))
_SHARED = MODIFIERS - _OF_A_STEP
_STEP = MODIFIERS - {"breath may stretch"}
_ROOM = _SHARED - {"only", "least", *_WAYS}
MOVE = _place("a movement", MOVES, _STEP - {"least", "may stretch", "settle"})
STAY = _place(
    "a stay",
    ["stay", "with", "breath", "may stretch", "may drop", "least", "only"],
    ["say", "say again", "note", "speak"],
    _WAYS,
)
FREE = _place("free time", ["free", "of", "to"], _STEP - {"over", "settle"})
SAY = _place("words of their own", ["say", "only"])
BELL = _place("a bell", ["bell", "only"])
BLOCK = _place("a block", BLOCKS, ["between", "alternate", "may repeat"], _SHARED)
PART = _place("a part", ["part", "steps", "length", "share"], _ROOM)
FLOW = _place("a flow", ["steps"], _ROOM - {"say"})
ANY = Place("a step", STEP)
WAY = Place("another way", frozenset(("text", "shape", "say", "steps")))
TOP = _place(
    "the top of a plan",
    ["plan", "title", "kind", "for", "length", "breath", "breath may stretch", "first side"],
    ["speak", "props", "flows", "parts", "shapes", "shapes from", "voice", "check", "view"],
    of_steps=False,
)

SLIPS = {
    "inhale": "in", "breathe in": "in", "on inhale": "in",
    "exhale": "out", "breathe out": "out", "on exhale": "out",
    "hold": "stay", "stay for": "stay", "hold for": "stay", "wait": "stay", "pause": "stay",
    "breaths": "stay", "rest": "stay", "start": "come to", "begin": "come to", "go to": "come to",
    "pose": "come to", "posture": "come to", "move to": "come to",
    "free time": "free", "own breath": "free", "repeat": "rounds", "times": "rounds",
    "round": "rounds", "loop": "rounds", "both sides": "each side", "two sides": "each side",
    "sides": "each side", "mirror": "each side", "each sides": "each side",
    "sequence": "flow", "use": "flow", "call": "flow", "passage": "flow",
    "chime": "bell", "gong": "bell", "ring": "bell", "cue": "say", "speech": "say", "words": "say",
    "tell": "say", "easier": "ease", "gentler": "ease", "modification": "ease", "harder": "more",
    "fuller": "more", "option": "or", "instead": "or", "comment": "note", "remember": "note",
    "arms": "with", "prop": "with", "via": "through", "facing": "turn", "stretch": "may stretch",
    "flexible": "may stretch", "optional": "may drop", "drop": "may drop", "when": "only",
    "variant": "variants", "ways": "variants", "options": "variants", "versions": "variants",
    "rounds may stretch": "may repeat", "may vary": "may repeat", "portion": "share",
    "proportion": "share", "percent": "share", "breath limits": "breath may stretch",
    "levels": "variants", "minimum": "least", "at least": "least", "switch": "between",
    "moves": "steps",
    "poses": "steps", "movements": "steps", "name": "part", "section": "part",
    "duration": "length", "time": "length", "minutes": "length", "tempo": "breath",
    "pace": "breath", "version": "plan", "class": "title", "level": "for", "sections": "parts",
    "sequences": "flows", "passages": "flows", "poses of my own": "shapes", "own shapes": "shapes",
    "side": "first side", "start side": "first side", "type": "kind", "needs": "props",
    "equipment": "props",
}  # fmt: skip
_TOP_SLIPS = {"name": "title", "poses": "shapes"}


def nearest(word: str, choices: Iterable[str]) -> str:
    """The choice spelled most like the word, or "" when none is near."""
    from rapidfuzz import fuzz, process  # noqa: PLC0415 - loads only when something is misspelt

    found = process.extractOne(word.lower(), list(choices), scorer=fuzz.ratio, score_cutoff=66)
    return str(found[0]) if found else ""


def meant(word: str, place: Place) -> str:
    """The key of this place that was probably meant, or ""."""
    lower = " ".join(word.lower().replace("_", " ").replace("-", " ").split())
    if lower in place.keys:
        return lower
    slip = (_TOP_SLIPS.get(lower) if place is TOP else None) or SLIPS.get(lower, "")
    return slip if slip in place.keys else nearest(lower, sorted(place.keys))


def known(reading: Reading, table: Table, place: Place) -> dict[str, tuple[Scalar, Node]]:
    """The pairs whose keys may stand here; the others are told, and read as what was meant."""
    pairs = table.pairs
    if pairs.keys() <= place.keys:
        return pairs
    kept: dict[str, tuple[Scalar, Node]] = {}
    for name, (key, node) in pairs.items():
        if name in place.keys:
            kept[name] = (key, node)
            continue
        meaning = "" if reading.full else _tell_unknown(reading, key, place)
        if meaning and meaning not in pairs and meaning not in kept:
            kept[meaning] = (key, node)
    return kept


def _tell_unknown(reading: Reading, key: Scalar, place: Place) -> str:
    if place.of_steps and key.value in STEP:
        words = f"{quoted(key.value)} takes no effect on {place.name}"
        reading.tell(rules.MISPLACED, words, reading.span(key), _elsewhere(key.value, place))
        return ""
    if not key.value and not key.plain:
        return ""  # a list or mapping in place of a key, told already
    meaning = meant(key.value, place) if key.value else ""
    listed = ", ".join(sorted(place.keys))
    hint = f"Write '{meaning}'. " if meaning else ""
    reading.tell(
        rules.KEY,
        f"{quoted(key.value)} is no key of {place.name}",
        reading.span(key),
        f"{hint}Here may stand: {listed}.",
    )
    return meaning


def _elsewhere(key: str, place: Place) -> str:
    if key == "between":
        return "It belongs to a block with 'each side: yes'."
    if key == "may stretch":
        return "Put it on the stay that may be longer or shorter."
    if place in {STAY, BLOCK} and key in MOVE.keys:
        return "Put it on the movement it belongs to."
    return f"On {place.name} may stand: {', '.join(sorted(place.keys))}."
