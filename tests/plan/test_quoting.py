from collections.abc import Callable

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from conductor.findings import Finding
from conductor.plan import quoting
from conductor.plan.reader import read
from conductor.spans import Span

Told = Callable[..., tuple[Finding, ...]]


@pytest.mark.parametrize(
    "words",
    [
        "Reach: long arms",
        "Remember:",
        "{Reach up",
        "{Reach} up",
        "[deep] breath",
        "[deep breath",
        "'Tis time",
        '"Hello" she said',
        '"Hello',
        "*Reach* up",
        "& so on",
        "% of you",
        "@home",
        "`now`",
        "- reach",
        "? who",
        "> reach up",
        "| stand",
        "}",
        ", and",
    ],
)
def test_words_yaml_trips_over_are_shown_in_quotes(told: Told, words: str) -> None:
    (finding,) = told(f"- say: {words}\n- in: plank")
    assert finding.rule == "quotes"
    assert finding.span == Span("p.yaml", 5, 14, 14 + len(words))
    shown = finding.hint.split("quotes: ")[1]
    assert yaml.safe_load(shown) == [{"say": words}]


@pytest.mark.parametrize("words", ["*Reach", "&reach up", "!important words"])
def test_anchors_aliases_and_tags_that_were_meant_as_words(told: Told, words: str) -> None:
    (finding,) = told(f"- say: {words}")
    assert finding.rule == "plain-yaml"
    assert yaml.safe_load(finding.hint.split("write: ")[1]) == [{"say": words}]


def test_an_apostrophe_that_eats_the_following_lines_is_found_where_it_stands(told: Told) -> None:
    first, second = told("- say: 'Tis time\n- in: plank\n  say: don't go\n  turn: up")
    assert (first.rule, first.span and first.span.line) == ("quotes", 5)
    assert (second.rule, second.span and second.span.line) == ("known-word", 8)


def test_faults_below_a_broken_line_are_told_too(told: Told) -> None:
    findings = told("- say: One: two\n- stay: 5\n- say: {three\n- inn: plank")
    assert [finding.rule for finding in findings] == ["quotes", "amount", "quotes", "unknown-key"]
    assert [finding.span and finding.span.line for finding in findings] == [5, 6, 7, 8]


def test_a_brace_left_open_where_nothing_is_said_is_no_matter_of_quotes() -> None:
    _, (finding,) = read("plan: 1\nshapes:\n  keel: {like: boat\nparts: []\n", "p.yaml")
    assert (finding.rule, finding.span) == ("layout", Span("p.yaml", 3, 9, 10))


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ("plan: 1\n\ttitle: x\n", (2, 1), "tab"),
        ("plan: 1\ntitle:x\nfor: all\n", (2, 6), "space after this colon"),
        ("plan: 1\n title: x\n", (2, 7), "second colon"),
        ("plan: 1\n- in: x\n", (2, 1), "line up"),
    ],
)
@pytest.mark.parametrize("pure", [False, True])
def test_faults_of_layout_in_our_words(
    text: str, place: tuple[int, int], words: str, pure: bool
) -> None:
    _, findings = read(text, "p.yaml", pure=pure)
    (finding,) = [finding for finding in findings if finding.rule == "layout"]
    assert finding.span
    assert (finding.span.line, finding.span.column) == place
    assert words in finding.words
    assert finding.hint


@given(st.text(st.characters(min_codepoint=32, max_codepoint=126), min_size=1, max_size=60))
def test_quoted_words_are_read_by_yaml_as_written(words: str) -> None:
    assert yaml.safe_load(f"say: {quoting.quote(words)}") == {"say": words}
