"""Names as people write them, made comparable: case, marks, plurals, numbers, Sanskrit."""

import re
import unicodedata
from collections.abc import Callable

from conductor.patterns import pattern
from conductor.sides import Side

Fold = Callable[[str], str]

_MARKS = dict.fromkeys(
    (*range(0x300, 0x370), *range(0x200B, 0x200E), 0xFEFF, *map(ord, "'’‘ʼ`´′"))
)  # accents, joiners and apostrophes, which go
_GAPS = pattern(r"[\W_]+")
_DEVA = pattern(r"[\u0900-\u097f]")
_DEVA_GAPS = pattern(r"[^\u0900-\u097f\w]+")
_DEVA_DIGITS = str.maketrans("०१२३४५६७८९", "0123456789")
_NUMBERS = {"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "eight": "8"}
_ROMAN = {"i": "1", "ii": "2", "iii": "3", "iv": "4"}
_COUNTS = frozenset((*_NUMBERS, *_ROMAN))
_TAILS = frozenset({"pose", "poses", "posture", "postures", "position", "asana"})
_ARTICLES = frozenset({"the", "a", "an"})
_SIDE_AFTER = pattern(
    r"^(.+?) +(?:on |to )?(?:the |your )?(right|left)(?: side)?(?: forward| first)?$",
    0,
    "left|right",
)
# Spellings of one Sanskrit sound fold into one letter: Shvanasana and Svanasana, Vriksha and Vrksa.
_SOUNDS = (
    ("x", "ks"), ("chh", "c"), ("sh", "s"), ("ch", "c"), ("w", "v"), ("th", "t"), ("dh", "d"),
    ("bh", "b"), ("kh", "k"), ("gh", "g"), ("ph", "p"), ("jh", "j"), ("mc", "nc"), ("iy", "y"),
    ("ia", "ya"), ("ri", "r"), ("ru", "r"), ("ou", "au"), ("ee", "i"), ("oo", "u"),
)  # fmt: skip
_DOUBLED = pattern(r"(\D)\1+")
_ASANA = pattern(r"asana(?=\d|$)")


def key(text: str) -> str:
    """The name as plain lower-case words with digits for numbers; Devanagari stays as it is."""
    if text.isascii():
        folded = text.lower().replace("'", "").replace("`", "")
    else:
        folded = unicodedata.normalize("NFKD", text.casefold()).translate(_MARKS)
    if not folded.isascii() and _DEVA.search(folded):
        gaps = _DEVA_GAPS.sub("", folded.translate(_DEVA_DIGITS))
        return re.sub(r"(?<=[\u0900-\u097f])(i{1,3}|iv)$", lambda m: _ROMAN[m[1]], gaps)
    words = (folded if folded.replace(" ", "").isalnum() else _GAPS.sub(" ", folded)).split()
    if len(words) > 1 and words[0] in _ARTICLES:
        del words[0]
    while len(words) > 1 and words[-1] in _TAILS:
        del words[-1]
    if _COUNTS.isdisjoint(words):
        return " ".join(words)
    return " ".join(
        _NUMBERS.get(word) or (_ROMAN.get(word, word) if place else word)
        for place, word in enumerate(words)
    )


def loose(name_key: str) -> str:
    """A key without spaces and plurals, so `down dogs`, `downdog` and `down dog` are one."""
    return "".join(
        word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word
        for word in name_key.split()
    )


def sound(name_key: str) -> str:
    """A key of how Sanskrit sounds, the same for every usual way of writing it in Latin letters."""
    text = name_key.replace(" ", "")
    for written, folded in _SOUNDS:
        text = text.replace(written, folded)
    return _ASANA.sub("asan", _DOUBLED.sub(r"\1", text))


def side_splits(name_key: str) -> tuple[tuple[Side, str], ...]:
    """The ways to read a side word off either end; a name like `side plank` keeps its own words."""
    found: list[tuple[Side, str]] = []
    words = name_key.split()
    for side in Side:
        for lead in ((side,), ("the", side), ("on", "the", side), (side, "side"), ("your", side)):
            if tuple(words[: len(lead)]) == lead and len(words) > len(lead):
                found += [(side, key(" ".join(words[len(lead) :])))]
    if after := _SIDE_AFTER.match(name_key):
        found.append((Side(after[2]), key(after[1])))
    return tuple(found)
