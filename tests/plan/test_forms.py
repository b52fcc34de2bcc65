"""The patterns of values against the reader itself: what it takes they take, and hardly more."""

import json
import re
import shutil
import subprocess
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.plan import amounts
from conductor.plan.forms import PATTERNS, any_case, pattern, words
from conductor.plan.reader import read
from tests.plan.conftest import wrapped

NUMBERS = st.one_of(
    st.integers(1, 99).map(str),
    st.sampled_from(["1.5", "2,5", "0.5", *amounts.WORDS, "A", "Three"]),
)
UNITS = st.sampled_from(
    ["", " breath", " breaths", "s", " s", " min", "min.", " h", " Sec", " hours"]
)
JOINS = st.sampled_from([" ", ", ", " and ", " to ", " - ", "-", "–", "", " half ", " and a half"])
EXTRAS = st.sampled_from(
    [
        "in",
        "out",
        "inhale",
        "exhale",
        "a minute",
        "/min",
        "half",
        "yes",
        "no",
        "1:30",
        "rounds",
        "x",
    ]
)
PIECES = st.lists(
    st.one_of(st.tuples(NUMBERS, UNITS).map("".join), JOINS, EXTRAS), min_size=1, max_size=6
)


@st.composite
def texts(draw: st.DrawFn) -> str:
    """Something like an amount, a tempo or bounds, as the reader gets it: single blanks."""
    return " ".join("".join(draw(PIECES)).split())


def _amount(at: int) -> Callable[[str], bool]:
    """Whether a text is an amount in half breaths (0) or in ms (1)."""
    return lambda text: bool((amounts.amount(text) or (0, 0))[at])


def _bounds(text: str) -> bool:
    return amounts.yes(text) is not None or amounts.bounds(text) is not None


TAKEN: dict[str, Callable[[str], object]] = {
    "breaths or a time": amounts.amount,
    "breaths": _amount(0),
    "a time": _amount(1),
    "a tempo": amounts.tempo,
    "bounds": _bounds,
    "bounds of a breath": amounts.breath_bounds,
    "a count": lambda text: amounts.count(text) is not None,
    "bounds of a count": amounts.round_bounds,
    "a share": amounts.percent,
    "yes or no": lambda text: amounts.yes(text) is not None,
}


def taken(name: str, text: str) -> bool:
    """Whether the reader takes a text for a form."""
    return bool(TAKEN[name](text))


KNOWN = {
    "breaths or a time": [
        "5 breaths",
        "half a breath",
        "1:30",
        "5 min",
        "1 h 5 min",
        "90s",
        "An hour",
    ],
    "breaths": ["3 and a half breaths", "2 breaths", "a breath and a half", "Half breath"],
    "a time": ["40 s", "1:02:03", "2 min and 5 s", "half a minute", "1.5 min"],
    "a tempo": [
        "4 s in, 6 s out",
        "6 a minute",
        "4 in and 5 out",
        "5.5/min",
        "4 counts in 4 counts out",
    ],
    "bounds": ["yes", "3 to 8 breaths", "5 – 15 min", "30 s to 2 min", "No", "1:00-2:00"],
    "a count": ["3", "three", "3 rounds", "Twelve", "2 strokes"],
    "yes or no": ["yes", "No", "TRUE"],
    "bounds of a count": ["2 to 4", "two to four rounds", "2-4", "3 rounds to 5 rounds"],
    "bounds of a breath": [
        "7 to 10 s",
        "6 to 8 a minute",
        "7 s – 10 s",
        "6 a minute to 8 a minute",
    ],
    "a share": ["20 %", "12.5%", "Five percent", "20 per cent"],
}
STRANGE = {
    "breaths or a time": [
        "5",
        "breaths",
        "five",
        "5 parsecs",
        "",
        "5 breathsx",
        "x5 breaths",
        "1:75",
    ],
    "breaths": ["5 min", "5"],
    "a time": ["5 breaths", "5"],
    "a tempo": ["4 s in", "fast", "6 an hour", "in 4, out 4"],
    "bounds": ["3 breaths", "3 to", "to 8 breaths", "perhaps", "3 to 8"],
    "a count": ["3.5", "many", "-1", "3 breaths"],
    "yes or no": ["perhaps", "y", ""],
    "bounds of a count": ["2", "many to few", "2 to"],
    "bounds of a breath": ["7 s", "slow to fast", "3 to 8 breaths"],
    "a share": ["20", "half", "20 % of it"],
}


@pytest.mark.parametrize("name", TAKEN)
def test_whatever_the_reader_takes_the_pattern_takes(name: str) -> None:
    whole = re.compile(pattern(name))

    @given(texts())
    def holds(text: str) -> None:
        if taken(name, text):
            assert whole.match(text), text

    holds()


@pytest.mark.parametrize("name", KNOWN)
def test_what_people_write_is_taken_and_what_is_none_is_not(name: str) -> None:
    whole = re.compile(pattern(name))
    for text in KNOWN[name]:
        assert taken(name, text), text
        assert whole.match(text), text
    for text in STRANGE[name]:
        assert not taken(name, text), text
        assert not whole.match(text), text


@pytest.mark.parametrize(
    ("key", "name", "good", "bad"),
    [
        (
            "speak",
            "how much is said",
            ["full", "full, then short, then breath", "Full then short", "full,short", "nothing"],
            ["loud", "full short", "full, then"],
        ),
        (
            "only",
            "when it is led",
            ["round 1", "first round", "Last Round", "second side", "round two"],
            ["round", "third side", "never"],
        ),
    ],
)
def test_words_of_a_key_as_the_reader_takes_them(
    key: str, name: str, good: list[str], bad: list[str]
) -> None:
    whole = re.compile(pattern(name))
    for text in (*good, *bad):
        steps = f"- rounds: 3\n  steps:\n    - come to: mountain\n      {key}: {text}"
        told = [one for one in read(wrapped(steps), "p")[1] if one.rule != "unused-flow"]
        assert bool(whole.match(text)) is (text in good), text
        assert (told == []) is (text in good), (text, told)


def test_letters_large_and_small_and_blanks_of_any_number() -> None:
    assert any_case(r"a\d[bc]") == r"[aA]\d[bc]"
    assert re.match(pattern("a time"), "  5   MIN ")
    assert re.match(words(("other end",)), "Other  End")
    assert set(PATTERNS) >= set(KNOWN)


@pytest.mark.skipif(shutil.which("node") is None, reason="no node on this machine")
@pytest.mark.slow
def test_the_dialect_of_editors_reads_the_patterns_the_same() -> None:
    """Editors are written in JavaScript, mostly: its own engine must take and refuse alike."""
    asked = [
        [pattern(name), text]
        for name in KNOWN
        for text in (*KNOWN[name], *STRANGE[name], "5 Ärzte")
    ]
    code = (
        f"const asked = {json.dumps(asked)};"
        "console.log(JSON.stringify(asked.map(([p, t]) => new RegExp(p, 'u').test(t))))"
    )
    done = subprocess.run(["node", "-"], input=code, capture_output=True, text=True, check=True)
    ours = [re.search(expression, text) is not None for expression, text in asked]
    assert json.loads(done.stdout) == ours
    assert any(ours)
