import importlib
import pkgutil
import re
from collections.abc import Iterable, Iterator
from re import _constants as op  # type: ignore[attr-defined]
from re import _parser as parser  # type: ignore[attr-defined]
from typing import Any

import pytest

import conductor
from conductor.patterns import Pattern, folded, pattern

GAP = "\0"  # stands for any text, or for none


def test_a_pattern_finds_what_the_compiled_one_finds_each_time() -> None:
    words = pattern(r"\b(left|right)\b", re.IGNORECASE)
    for _ in range(2):
        assert words.findall("Left over right") == ["Left", "right"]
        assert words.sub("that", "Left over right") == "that over that"
    assert words.groups == 1


def test_a_fault_in_a_pattern_is_raised_when_it_is_used() -> None:
    broken = pattern("(")
    with pytest.raises(re.error):
        broken.search("a")


def test_nothing_is_found_or_built_where_what_is_needed_is_missing() -> None:
    broken = pattern("(", re.IGNORECASE, "knee|shin", "left")
    for text in ("", "the left foot", "one knee"):
        assert broken.search(text) is broken.match(text) is broken.fullmatch(text) is None
        assert broken.findall(text) == [*broken.finditer(text)] == []
    with pytest.raises(re.error):
        broken.search("LEFT knee")


def test_what_is_needed_is_seen_in_every_letter_that_a_pattern_takes_for_it() -> None:
    letters = pattern("[a-z]", re.IGNORECASE)
    taken = [chr(code) for code in range(0x110000) if letters.match(chr(code))]
    assert {"A", "ſ", "K", "ı", "İ"} <= set(taken)
    for letter in taken:
        assert re.search(folded(letter), letter, re.IGNORECASE)
        assert folded(letter).isascii()
    assert pattern("hip", re.IGNORECASE, "hip").search("hİp")


def _ways(items: Iterable[Any], needs: tuple[str, ...]) -> set[str]:
    """What a pattern can match, unknown text as a gap, cut short where a need is met."""
    ways = {""}
    for kind, value in items:
        tails = _tails(kind, value, needs)
        ways = {
            way if any(need in way for need in needs) else way + tail
            for way in ways
            for tail in tails
        }
    return ways


def _tails(kind: Any, value: Any, needs: tuple[str, ...]) -> set[str]:
    if kind is op.LITERAL:
        return {chr(value).lower()}
    if kind is op.BRANCH:
        return {way for branch in value[1] for way in _ways(branch, needs)}
    if kind is op.SUBPATTERN:
        return _ways(value[3], needs)
    if kind is op.IN and all(one is op.LITERAL for one, _ in value):
        return {chr(code).lower() for _, code in value}
    if kind in {op.MAX_REPEAT, op.MIN_REPEAT} and value[0]:
        return {way + GAP for way in _ways(value[2], needs)}
    return {""} if kind is op.AT else {GAP}


def _lacking(one: Pattern) -> Iterator[str]:
    """What a pattern may match although it lacks one of its needs."""
    for need in one.needs:
        needs = tuple(need.split("|"))
        for way in _ways(parser.parse(one.text, one.flags), needs):
            if not any(part in way for part in needs):
                yield f"{one.text} needs {need}, and yet takes {way!r}"


def _in(value: Any) -> Iterator[Pattern]:
    if isinstance(value, Pattern):
        yield value
    elif isinstance(value, (tuple, list, dict)):
        for one in value.values() if isinstance(value, dict) else value:
            yield from _in(one)


def _needing() -> dict[str, Pattern]:
    """Every pattern of the program that needs something, by its text."""
    names = [each.name for each in pkgutil.walk_packages(conductor.__path__, "conductor.")]
    modules = [importlib.import_module(name) for name in names if not name.endswith("__main__")]
    found = (one for module in modules for one in _in(list(vars(module).values())))
    return {one.text: one for one in found if one.needs}


def test_no_pattern_of_the_program_matches_what_lacks_its_needs() -> None:
    needing = _needing()
    assert len(needing) > 40
    assert [told for one in needing.values() for told in _lacking(one)] == []


@pytest.mark.parametrize(
    ("text", "needs"),
    [
        (r"knees?|shins?", "knee"),
        (r"(?:bend )?knee", "bend"),
        (r"\w+ foot", "feet"),
        (r"(?:knee)*", "knee"),
    ],
)
def test_a_need_that_is_none_is_told(text: str, needs: str) -> None:
    assert [*_lacking(Pattern(text, 0, (needs,)))]


def test_a_need_that_is_one_is_not_told() -> None:
    for text, needs in ((r"\b(?:step|stand)s?\b", "step|stand"), (r"dis[ck]s?", "disc|disk")):
        assert [*_lacking(Pattern(text, 0, (needs,)))] == []
