"""Props: what a class uses stands in its list, so that people bring it."""

import re
from collections.abc import Iterator

from conductor.checks.case import Case, Check, finding
from conductor.findings import Finding, Weight
from conductor.patterns import pattern
from conductor.rules import Rule
from conductor.score.model import Moment
from conductor.shapes.model import Shape
from conductor.spans import Span

SAME = {
    "brick": "block", "belt": "strap", "cushion": "bolster", "pillow": "bolster",
    "towel": "blanket",
}  # fmt: skip
_WORDS = "blocks?|bricks?|straps?|belts?|bolsters?|blankets?|cushions?|pillows?|towels?"
_STEMS = _WORDS.replace("s?", "") + "|chair"
_IN_TEXT = pattern(
    rf"\b({_WORDS}|walls?)\b|\b(?:an?|the|your) (chairs?)\b", re.IGNORECASE, f"{_STEMS}|wall"
)
_SAID = pattern(
    rf"\b(?:an?|the|your|one|two|both|take|with|under|on) ({_WORDS})\b"
    r"|\b(?:take|sit on|use) (?:an?|the|your) (chairs?)\b",
    re.IGNORECASE,
    _STEMS,
)

LISTED = Rule(
    "prop-not-listed",
    Weight.WARNING,
    "care",
    "What a class needs is named under `props`.",
    "Nobody fetches a bolster from the other end of the room in the middle of a breath. A prop "
    "that is only offered (in `ease`, `more`, `or` or in words) is a remark.",
    bad="- come to: constructive rest\n- in: supported bridge  # here\n- stay: 6 breaths",
    good="- come to: constructive rest\n- in: bridge\n- stay: 3 breaths",
)


def prop(word: str) -> str:
    """One name for one prop: "two bricks" is a block."""
    word = word.lower().strip()
    single = word[:-1] if word.endswith("s") and not word.endswith("ss") else word
    return SAME.get(single, single)


def needed(shape: Shape) -> tuple[str, ...]:
    """The props without which a shape is another one, any of them; () for all other shapes."""
    if shape.id.startswith("supported-"):
        return shape.props
    return ("wall",) if shape.id.endswith("-the-wall") else ()


def _listed(case: Case) -> set[str]:
    words = " ".join(case.score.meta.props).lower()
    return {prop(word) for word in re.findall(r"[a-z]+", words)}


def _offered(moment: Moment) -> Iterator[str]:
    for way in moment.variants:
        for hit in _IN_TEXT.finditer(way.text):
            yield prop(hit[1] or hit[2])
    for text in (moment.words.full if moment.words.written else "", *_lines(moment)):
        for hit in _SAID.finditer(text):
            yield prop(hit[1] or hit[2])


def _lines(moment: Moment) -> tuple[str, ...]:
    return tuple(line.saying.text for line in moment.lines)


def _used(moment: Moment) -> Iterator[str]:
    for hit in _IN_TEXT.finditer(moment.with_):
        yield prop(hit[1] or hit[2])


def _steps(case: Case) -> tuple[Moment, ...]:
    """The first moment of every line written; its props are those of each time it is led."""
    first: dict[tuple[Span, bool], Moment] = {}
    for moment in case.score.moments:
        first.setdefault((moment.origin, bool(moment.lines)), moment)
    return tuple(first.values())


def _props(case: Case) -> Iterator[Finding]:
    listed, told = _listed(case), set[str]()
    steps = _steps(case)
    for moment in steps:
        for shape, wants in _wanting(case, moment):
            if not (listed | told) & set(wants):
                told.update(wants)
                words = f"{shape.name} needs a {' or '.join(wants)}, which is not under `props`"
                yield finding(LISTED, words, moment.origin, f"props: {wants[0]}")
        for name in _used(moment):
            if name not in listed | told:
                told.add(name)
                words = f"a {name} is used and is not under `props`"
                yield finding(LISTED, words, moment.origin, f"props: {name}")
    yield from _offers(steps, listed | told)


def _wanting(case: Case, moment: Moment) -> Iterator[tuple[Shape, tuple[str, ...]]]:
    shape = case.shapes[moment.shape]
    if moment.arriving and needed(shape):
        yield shape, needed(shape)


def _offers(steps: tuple[Moment, ...], known: set[str]) -> Iterator[Finding]:
    """What is only offered, or only spoken of; a wall is in most rooms."""
    found: dict[str, Moment] = {}
    for moment in steps:
        for name in _offered(moment):
            if name not in known and name != "wall":
                found.setdefault(name, moment)
    if found:
        first = next(iter(found.values()))
        verb = "is" if len(found) == 1 else "are"
        words = f"{' and '.join(found)} {verb} offered and not under `props`"
        hint = f"props: {', '.join(found)}"
        yield finding(LISTED, words, first.origin, hint, weight=Weight.REMARK)


PROPS: tuple[Check, ...] = (Check(LISTED, _props),)
