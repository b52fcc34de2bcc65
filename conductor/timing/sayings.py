"""What can be said in a class: cues put together from words, and the fixed phrases of leading."""

import re
from collections.abc import Callable
from functools import lru_cache

from conductor.patterns import pattern
from conductor.score.model import Line, Moment, Saying, Score, Words
from conductor.values import replace

_BREATH_WORD = pattern(
    r"\b(?:in|ex)hal(?:e|es|ed|ing|ations?)\b|\bbreath(?:e|ing)? (?:in|out)\b",
    re.IGNORECASE,
    "hal|breath",
)
_LEADING = pattern(r"^(?:inhale|exhale|breathe (?:in|out))\s*[,;:]\s*", re.IGNORECASE)
_END_OF_SENTENCE = (".", "!", "?", "…")

Form = tuple[str, Saying]
"""A form (full, short or breath) and what is said in it."""


@lru_cache(maxsize=8192)
def compose(breath: str, text: str) -> Saying:
    """A cue as a sentence, the breath word first; words that name a breath already stand alone.

    With neither breath nor words the saying is empty and nothing is to be said.
    """
    text = text.strip().rstrip(",;: ")
    if breath and text and not _BREATH_WORD.search(text):
        text = f"{breath}, {_lowered(text)}"
    text = text or breath
    if not text:
        return Saying("")
    closed = text.rstrip("\"'”’)").endswith(_END_OF_SENTENCE)
    return Saying(text[0].upper() + text[1:] + ("" if closed else "."))


def _lowered(text: str) -> str:
    """Begin in lower case after the breath word, save for "I" and for capitals meant as such."""
    word = text.split(maxsplit=1)[0]
    for mark in ",;:.'’":
        word = word.partition(mark)[0]
    return text if word == "I" or word[1:] != word[1:].lower() else text[0].lower() + text[1:]


@lru_cache(maxsize=8192)
def forms(words: Words) -> tuple[Form, ...]:
    """The forms in which a moment can be said this time, the one wanted first, shorter ones after.

    Written words that have no short form are never replaced by less: nobody but the author knows
    what may be left out.
    """
    if words.form == "nothing":
        return ()
    found: list[Form] = []
    if words.form == "full" and words.full:
        found.append(("full", compose(words.breath, words.full)))
    if words.form in {"full", "short"} and words.short:
        found.append(("short", compose(words.breath, words.short)))
    if words.form == "short" and not found and words.full:
        found.append(("full", compose(words.breath, words.full)))
    kept = words.written and not words.short and found
    if words.breath and not kept:
        found.append(("breath", compose(words.breath, "")))
    return tuple(found)


@lru_cache(maxsize=8192)
def ahead_forms(words: Words) -> tuple[Form, ...]:
    """What is said ahead of a breath, without the breath word; () when it cannot be parted.

    Words that open with their breath word lose it; those that name a breath further on must be
    heard on their own time.
    """
    texts = [("full", words.full)] if words.form == "full" else []
    texts.append(("short", words.short or words.full))
    if words.form not in {"full", "short"} or not words.breath:
        return ()
    found = []
    for form, text in texts:
        bare = _LEADING.sub("", text)
        if bare and not _BREATH_WORD.search(bare):
            found.append((form, compose("", bare)))
    return tuple(dict.fromkeys(found))


@lru_cache(maxsize=8192)
def terse_forms(words: Words) -> tuple[Form, ...]:
    """The prompting voice: the short words alone, or the breath word where no more is wanted."""
    if words.form in {"full", "short"} and (words.short or words.full):
        bare = _LEADING.sub("", words.short or words.full)
        return (("short", compose("", bare)),)
    return forms(words)


def words_of(moment: Moment, level: str) -> Words:
    """The words of a moment at a level; as written where the level has none of its own."""
    for variant in moment.variants:
        own = variant.words
        spoken = own.full or own.short or (own.breath and own.form != "nothing")
        if variant.level == level and spoken:
            words = variant.words
            breath = words.breath or moment.words.breath
            return Words(words.full, words.short, breath, words.form, words.written)
    return moment.words


def lines_of(moment: Moment, level: str) -> tuple[Line, ...]:
    """The lines of a moment at a level; as written where the level has none of its own."""
    own = (one.lines for one in moment.variants if one.level == level)
    return next((lines for lines in own if lines is not None), moment.lines)


def speaks(moment: Moment, rest: bool = False) -> bool:
    """Whether a moment has a cue of its own: within a stay only words that were given for it."""
    if moment.hold and not moment.arriving:
        return not rest and moment.words.form in {"full", "short"} and bool(moment.words.full)
    return True


def taken_up(shape: str) -> Saying:
    """Said when the class is taken up again after a stop, in a shape, or "" for the beginning."""
    where = f"in {shape}" if shape else "from the beginning"
    return Saying(f"We take it up again {where}.")


def coming_down(shape: str) -> Saying:
    """Said for a shape that the shortest way down passes."""
    return compose("", f"come to {shape}")


def phrases(score: Score) -> tuple[Saying, ...]:
    """The fixed phrases this class may need, so that they are rendered before it begins."""
    used = {moment.shape for moment in score.moments}
    landing = [info.name for key, info in score.shapes.items() if info.landing and key in used]
    return (
        Saying("Hold here."),
        Saying("And on."),
        taken_up(""),
        *(taken_up(name) for name in dict.fromkeys(landing)),
    )


def wanted(score: Score, prompting: bool = False) -> frozenset[Saying]:
    """All that may have to be said: every form of every way, lines, and the fixed phrases.

    The full and the short form count even where a round asks for less. Words are gathered before
    they are put together, since rounds repeat them.
    """
    found = set(phrases(score))
    spoken: set[Words] = set()
    early: set[Words] = set()
    for index, moment in enumerate(score.moments):
        found.update(line.saying for line in moment.lines)
        found.update(line.saying for one in moment.variants for line in one.lines or ())
        words = {words_of(moment, variant.level) for variant in moment.variants}
        if speaks(moment):
            words.add(moment.words)
        spoken |= words
        if moment.early or not index:
            early |= words
    for one in spoken:
        found.update(saying for _, saying in _most(forms, one))
        if prompting:
            found.update(saying for _, saying in terse_forms(one))
    for one in early:
        found.update(saying for _, saying in _most(ahead_forms, one))
    found.discard(Saying(""))
    return frozenset(found)


def _most(kind: Callable[[Words], tuple[Form, ...]], words: Words) -> tuple[Form, ...]:
    """All forms there are, not only those up to the one spoken this time."""
    full = words if words.form in {"full", "nothing"} else replace(words, form="full")
    alone = (("breath", compose(words.breath, "")),) if words.form != "nothing" else ()
    return (*kind(words), *kind(full), *alone)
