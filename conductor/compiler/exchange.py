"""Words read for the other side or the other end of the mat: left and right, front and back.

Whether a word is exchanged depends on its neighbours only, never on which of the two it is, so
exchanging twice gives the words back ("reading right for left and left for right").
"""

import re

from conductor.patterns import pattern

_BODY = (
    "foot feet toe toes heel ankle shin calf knee knees thigh leg legs hip hips buttock glute rib "
    "ribs waist flank shoulder arm arms elbow forearm wrist hand hands palm thumb finger fingers "
    "fingertips ear eye cheek temple collarbone armpit side sides half nostril sitting-bone "
    "hamstring quad groin kneecap instep sole bicep tricep"
).split()
_ADJECTIVES = (
    "big little inner outer front back top bottom upper lower straight bent standing raised lifted"
    " supporting free first own"
).split()
_NEVER_BEFORE = frozenset({"all", "that's", "thats", "feels", "feel", "is", "are", "was", "what's"})
_NOUNS = frozenset("angle angles time way place amount moment thing word degree distance".split())
_ADVERBS = frozenset(
    "now away here there after before at as in when where until till along ahead behind off "
    "through up down on over out alone aside unsaid open around round back".split()
)
_ARTICLES = frozenset("your the their this same".split())
_TOWARD = frozenset(
    "onto toward towards to from into with cross thread step bring turn look gaze roll lean reach "
    "twist bend sway face kick swing".split()
)
_PAIRED = r",?\s+(?:and|over|or|then|to)\s+(?:the\s+|your\s+)?"
_PAIR_AFTER = pattern(_PAIRED + r"(?:left|right)\b", re.IGNORECASE)
_PAIR_BEFORE = pattern(r"\b(?:left|right)" + _PAIRED + "$", re.IGNORECASE)
_SIDE_WORD = pattern(r"\b(left|right)\b", re.IGNORECASE)
MARKS = ("side", "other", "end")
_PLACEHOLDER = pattern(r"<(side|other|end)>", re.IGNORECASE)
_MARK = pattern(r"<([^<>\s][^<>]{0,20})>")
_LIMB = pattern(
    rf"\s+(?:(?:{'|'.join(_ADJECTIVES)})\s+){{0,2}}(?:{'|'.join(_BODY)})\b", re.IGNORECASE
)
_ENDS = pattern(
    r"\b(front|back|top|far end)\b(?=(?:\s+(?:end|edge|wall|half|side))?\s+of\s+(?:the|your)\s+"
    r"(?:mat|room|hall|floor|space)\b|\s+wall\b)",
    re.IGNORECASE,
)
_SWAP = {
    "left": "right",
    "right": "left",
    "front": "back",
    "back": "front",
    "top": "far end",
    "far end": "top",
}


def _like(model: str, word: str) -> str:
    if model.isupper():
        return word.upper()
    return word[0].upper() + word[1:] if model[0].isupper() else word


def _word_after(text: str, at: int) -> tuple[str, bool]:
    match = re.match(r"([\s]*)([,.;:!?]?)\s*([\w'-]*)", text[at:])
    if match is None:
        return "", False
    return match.group(3).lower(), bool(match.group(2))


def _word_before(text: str, at: int) -> tuple[str, bool]:
    match = re.search(r"([\w']*)([,.;:!?]?)\s*$", text[:at])
    if match is None:
        return "", False
    return match.group(1).lower(), bool(match.group(2))


def _names_a_side(text: str, start: int, end: int) -> bool | None:
    """Tell whether the word there names a side: yes, no (an idiom), or None when unclear."""
    after, pause_after = _word_after(text, end)
    before, pause_before = _word_before(text, start)
    after = "" if pause_after else after
    before = "" if pause_before else before
    if before == "all":
        return False
    if after in _BODY or (after in _ADJECTIVES and _LIMB.match(text[end:])):
        return True
    if _PAIR_AFTER.match(text, end) or _PAIR_BEFORE.search(text[:start]):
        return True
    if after in _NOUNS or before in _NEVER_BEFORE:
        return False
    if before in _ARTICLES:
        return True
    if after in _ADVERBS:
        return False
    return True if before in _TOWARD else None


def placed(text: str, side: str, other: str, end: str) -> str:
    """Fill <side>, <other> and <end>."""
    words = {"side": side, "other": other, "end": end}
    return _PLACEHOLDER.sub(lambda match: _like(match[1], words[match[1].lower()]), text)


def unknown_marks(text: str) -> tuple[str, ...]:
    """What stands in angle brackets as a mark does, and is none."""
    return tuple(mark for mark in _MARK.findall(text) if mark.lower() not in MARKS)


def sides(text: str) -> tuple[str, tuple[str, ...]]:
    """Exchange left and right where they plainly name a side; give back what was unclear."""
    unclear: list[str] = []

    def swap(match: re.Match[str]) -> str:
        named = _names_a_side(text, match.start(), match.end())
        if named is None:
            unclear.append(match.group())
        if not named:
            return match.group()
        return _like(match.group(), _SWAP[match.group().lower()])

    return _SIDE_WORD.sub(swap, text), tuple(unclear)


def ends(text: str) -> str:
    """Exchange front and back, top and far end, of the mat or the room only, never of the body."""
    return _ENDS.sub(lambda match: _like(match.group(), _SWAP[match.group().lower()]), text)
