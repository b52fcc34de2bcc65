"""Wishes: what is understood, and what is refused with what is possible."""

import pytest

from conductor.draft.tree import Tempo
from conductor.draft.wish import (
    CannotError,
    Focus,
    Wish,
    focus_of,
    length_of,
    people_of,
    tempo_of,
    title_of,
    usual_tempo,
)


@pytest.mark.parametrize(
    ("people", "level"),
    [
        ("beginners", 1),
        ("gentle, new to it", 1),
        ("mixed level", 2),
        ("people who come every week", 2),
        ("experienced", 3),
        ("teachers", 3),
    ],
)
def test_the_words_for_the_people_say_how_strong_shapes_may_be(people: str, level: int) -> None:
    assert Wish(people=people).level == level


@pytest.mark.parametrize(
    ("ms", "words"),
    [
        (5 * 60_000, "5 min is too short.*give 10 to 90 min"),
        (91 * 60_000, "longer than.*give 10 to 90 min"),
        (20 * 60_000 + 1, "whole minutes: 20 min or 21 min"),
    ],
)
def test_a_length_without_a_class_is_refused(ms: int, words: str) -> None:
    with pytest.raises(CannotError, match=words):
        length_of(ms)


def test_lengths_breaths_and_focuses_are_understood() -> None:
    assert length_of(45 * 60_000) == 45
    assert tempo_of(4_000, 6_000) == Tempo(4_000, 6_000)
    assert focus_of(" Hips ") is Focus.HIPS
    assert usual_tempo(Focus.SLOW).breath > usual_tempo(Focus.HIPS).breath


@pytest.mark.parametrize(
    ("inhale", "exhale", "words"),
    [
        (2_000, 4_000, "each half from 3 to 7 s"),
        (4_000, 9_000, "each half"),
        (3_000, 7_000, "twice"),
    ],
)
def test_a_breath_that_no_class_moves_in_is_refused(inhale: int, exhale: int, words: str) -> None:
    with pytest.raises(CannotError, match=words):
        tempo_of(inhale, exhale)


def test_an_unknown_focus_is_told_what_there_is() -> None:
    with pytest.raises(CannotError, match="hips, backbend, balance, slow"):
        focus_of("arms")


@pytest.mark.parametrize("people", ["prenatal", "people with high blood pressure", "knee trouble"])
def test_people_whom_a_caution_concerns_are_left_to_somebody_trained_for_it(people: str) -> None:
    with pytest.raises(CannotError, match="medical or licensed advice"):
        people_of(people)


def test_words_for_people_and_titles_are_one_clean_line() -> None:
    assert people_of("  mixed\n level ") == "mixed level"
    assert people_of("") == "mixed level"
    assert title_of("Low\x1b[31m Tide\n") == "Low[31m Tide"
