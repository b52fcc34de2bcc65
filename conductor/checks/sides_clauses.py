"""Clauses: what written words say about a side, where they plainly say it.

Only phrases that can mean one thing are read. Words may speak of the arms, the gaze or the other
leg as they please: what is not understood is not judged.
"""

import re
from collections.abc import Iterable, Iterator

from conductor.body.moves import Do, Way
from conductor.patterns import pattern
from conductor.score.model import Moment
from conductor.shapes.model import Shape
from conductor.sides import Side
from conductor.stance import Base
from conductor.values import Struct

_YOUR = r"(?:(?:your|the|that|up|back|forward|long|high|out|in|down|straight)\s+){0,2}"
_LR = r"(?P<side>left|right)"
_TO = r"(?:to|toward|towards)\s+(?:the\s+|your\s+)?"
_CUT = pattern(
    r"[.,;:!?…–—]|\s-\s|\b(?:and|then|while|as|so|with)\b",
    re.IGNORECASE,
)
_WORD = pattern(r"\b(?:left|right)\b", re.IGNORECASE, "left|right")
_STEP = pattern(
    r"\b(?:step|lift|raise|float|swing|sweep|send|kick|bring|place|plant|walk|slide|take|set|hop)"
    rf"\s+{_YOUR}{_LR}\s+(?:foot|leg|toes)\b(?!\s+(?:straight|strong|heavy|firm))",
    re.IGNORECASE,
    "step|lift|raise|float|swing|sweep|send|kick|bring|place|plant|walk|slide|take|set|hop",
    "foot|leg|toes",
)
_KNEE_DOWN = pattern(
    rf"\b(?:lower|drop|set|release)\s+{_YOUR}{_LR}\s+knee\b",
    re.IGNORECASE,
    "lower|drop|set|release",
    "knee",
)
_MOVES = frozenset(
    {
        *(Do.STEP_FORWARD, Do.STEP_BACK, Do.LIFT_LEG, Do.LOWER_LEG, Do.LOWER_FOOT),
        *(Do.KNEE_FORWARD, Do.KNEE_BACK),
    }
)
_NOT_TRUNK = pattern(
    r"\b(?:gaze|look|head|eyes?|face|chin|ears?|knees?|hips?|pelvis|palms?|toes|foot|feet|heels?"
    r"|arms?|hands?|fingers?|elbows?)\b",
    re.IGNORECASE,
)
_LEAN = pattern(
    r"\b(?:lean|turn|twist|bend|rotate|revolve|tip|tilt|sway)\b(?:\s+[a-z'-]+){0,3}?\s+"
    rf"{_TO}{_LR}\b",
    re.IGNORECASE,
    "lean|turn|twist|bend|rotate|revolve|tip|tilt|sway",
    "to",
)
_KNEES = pattern(
    r"\bknees?\b(?:\s+[a-z'-]+){0,2}?\s+(?:fall|drop|lower|sink|tip|sway|roll|over)\b"
    rf"(?:\s+(?:over|down|both|slowly|gently)){{0,2}}\s+{_TO}{_LR}\b",
    re.IGNORECASE,
    "knee",
    "fall|drop|lower|sink|tip|sway|roll|over",
    "to",
)
_DROP_KNEES = pattern(
    r"\b(?:drop|lower|sway|take|bring|let)\s+(?:both\s+|your\s+|the\s+){0,2}knees\b"
    rf"(?:\s+(?:over|down|fall|drop|slowly|gently)){{0,2}}\s+{_TO}{_LR}\b",
    re.IGNORECASE,
    "drop|lower|sway|take|bring|let",
    "knees",
    "to",
)
_ROLL = pattern(
    rf"\broll(?:\s+\w+)?\s+(?:on)?to\s+(?:your\s+|the\s+)?{_LR}\b",
    re.IGNORECASE,
    "roll",
    "to",
)
_BEND = pattern(
    rf"\bbend\s+(?:into\s+)?(?:your\s+|the\s+)?{_LR}\s+knee\b"
    r"|\b(?P<also>left|right)\s+knee\s+bends\b",
    re.IGNORECASE,
    "bend",
    "knee",
)
_FRONT = pattern(
    rf"\b{_LR}\s+(?:foot|leg|knee)\s+(?:is\s+|comes\s+)?(?:in front|forward)\b",
    re.IGNORECASE,
    "foot|leg|knee",
    "in front|forward",
)
_STAND = pattern(
    r"\b(?:stand|standing|balance|balancing|weight)\s+(?:strong\s+|firmly\s+)?"
    rf"(?:on|onto|into|in|to)\s+(?:your\s+|the\s+)?{_LR}\s+(?:foot|leg)\b",
    re.IGNORECASE,
    "stand|balanc|weight",
    "foot|leg",
)
_HAND = pattern(
    r"\b(?:press|weight|shift|roll|lean|come)\b(?:\s+[a-z'-]+){0,2}?\s+(?:on|onto|into|to)\s+"
    rf"(?:your\s+|the\s+)?{_LR}\s+(?:hand|palm|arm)\b",
    re.IGNORECASE,
    "press|weight|shift|roll|lean|come",
    "hand|palm|arm",
)
_ANNOUNCE = pattern(
    r"\b(?:now|next|(?:begin|start|beginning|starting|repeat|again|same)(?:\s+it)?"
    r"(?:\s+on|\s+with)?|change to|switch to)\s+(?:the|your)\s+"
    r"(?P<side>left|right)(?:\s+side)?\s*(?=[.,;:!?]|$)",
    re.IGNORECASE,
    "now|next|begin|start|repeat|again|same|change to|switch to",
    "left|right",
)


class Named(Struct, frozen=True):
    """A side named wrongly: the words, the side they name, and what is the case instead."""

    text: str
    side: Side
    fact: str


def _read(
    words: re.Pattern[str], clauses: Iterable[str], unless: re.Pattern[str] | None
) -> Iterator[tuple[str, Side]]:
    for clause in filter(names_side, clauses):
        for match in words.finditer(clause):
            if unless and unless.search(clause):
                break
            found = match.groupdict()
            side = found.get("side") or found.get("also")
            if side:
                yield match.group().strip(), Side(side.lower())


def clauses(texts: Iterable[str]) -> tuple[str, ...]:
    """Words cut at pauses and conjunctions, so that each piece speaks of one thing."""
    return tuple(piece.strip() for text in texts for piece in _CUT.split(text) if piece.strip())


def says(text: str, *parts: str) -> bool:
    """Whether one of these is there in either case; asked first, as it takes no pattern to tell."""
    folded = text.casefold()
    return any(part in folded for part in parts)


def names_side(text: str) -> bool:
    """Whether a side can be named there."""
    return says(text, "left", "right")


def named_sides(text: str) -> set[Side]:
    """The sides that a text names in any sense."""
    return {Side(word.lower()) for word in _WORD.findall(text)} if names_side(text) else set()


def _against(
    words: re.Pattern[str],
    clauses: Iterable[str],
    true: Side,
    fact: str,
    unless: re.Pattern[str] | None = None,
) -> Named | None:
    """The first wrong name, unless the right one is given as well; most name no wrong one.

    A clause in which `unless` is found speaks of something else.
    """
    heard = tuple(clauses)
    if not any(says(clause, true.other) for clause in heard):
        return None
    said = list(_read(words, heard, unless))
    if not said or any(side is true for _, side in said):
        return None
    text, side = said[0]
    return Named(text, side, fact)


def passing(moment: Moment, texts: Iterable[str]) -> Named | None:
    """Words that announce a side of a passage: "now the left side"."""
    if moment.pass_side is None or moment.side not in {None, moment.pass_side}:
        return None
    fact = f"the {moment.pass_side} side is led"
    return _against(_ANNOUNCE, texts, moment.pass_side, fact)


def legs(
    ways: Iterable[Way], texts: Iterable[str], shape: Shape, side: Side | None
) -> Named | None:
    """Words that move a leg which neither moves nor is up in the end."""
    pieces = clauses(texts)
    up = {lifted} if (lifted := _raised(shape, side)) else set[Side | None]()
    actions = [action for way in ways for action in way.actions]
    for words, kinds, fact in (
        (_STEP, _MOVES, "it is the {side} one that moves"),
        (_KNEE_DOWN, frozenset({Do.KNEE_DOWN}), "it is the {side} knee that comes down"),
    ):
        sides = {action.side for action in actions if action.kind in kinds}
        if words is _STEP:
            sides |= up
        true = sides.pop() if len(sides) == 1 else None
        wrong = true and _against(words, pieces, true, fact.format(side=true))
        if wrong:
            return wrong
    return None


def _raised(shape: Shape, side: Side | None) -> Side | None:
    """The leg that is up in a shape named by the leg that stands, or by the one that is up."""
    if side is None or not shape.side_means.startswith(("standing leg", "raised leg")):
        return None
    return side.other if shape.side_means.startswith("standing") else side


def shaped(shape: Shape, moment: Moment, texts: Iterable[str]) -> Named | None:
    """Words that speak of the side which names the shape, by the shape's own convention."""
    side = moment.side
    if side is None:
        return None
    pieces = tuple(filter(names_side, clauses(texts)))
    for words, true, trunk in _readings(shape, side):
        fact = f"{shape.name} is led on the {side} ({shape.side_means})"
        wrong = _against(words, pieces, true, fact, _NOT_TRUNK if trunk else None)
        if wrong:
            return wrong
    return None


def _readings(shape: Shape, side: Side) -> Iterator[tuple[re.Pattern[str], Side, bool]]:
    """What may be said of a shape, the side that is true of it, and whether of the trunk alone."""
    means, base = shape.side_means, shape.place.base
    if means.startswith("direction of the") or "chest turns" in means:
        yield _LEAN, side, True
    if "chest turns" in means or "knees fall" in means:
        knees = side if "knees fall" in means else side.other
        yield _KNEES, knees, False
        yield _DROP_KNEES, knees, False
    if base is Base.LYING_SIDE:
        yield _ROLL, side, False
    if means.startswith("front") and base is Base.FEET:
        yield _BEND, side, False
        yield _FRONT, side, False
    if means.startswith("bent leg"):
        yield _BEND, side, False
    if means.startswith(("standing leg", "raised leg")) and base in {Base.FOOT, Base.FOOT_HAND}:
        yield _STAND, side if means.startswith("standing") else side.other, False
    if means.startswith("supporting arm"):
        yield _HAND, side, False
