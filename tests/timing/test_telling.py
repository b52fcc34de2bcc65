"""What a refit changes, in the words of one line."""

import pytest

from conductor.score.model import Score, ShapeInfo
from conductor.timing.model import Change, Refit
from conductor.timing.refit import refit
from conductor.timing.telling import span, told
from conductor.values import replace
from tests.support import plan_of
from tests.support import score_of as compiled
from tests.timing.building import hold, score_of


def shaped(*shapes: str) -> Score:
    """Stays of five breaths, each in a shape of its own, and a final rest of a minute."""
    score = score_of(
        *(hold(shape, 5, 1, 9) for shape in shapes),
        hold("rest", 60_000, 30_000, 90_000, timed=True, rest=True, keep=True),
    )
    moments = tuple(replace(one, shape=one.hold) for one in score.moments)
    return replace(score, moments=moments, shapes={s: ShapeInfo(s, s) for s in shapes})


def changed(score: Score, **by: int) -> str:
    changes = (Change(name, score.holds[name].amount, amount) for name, amount in by.items())
    return told(score, Refit(score, tuple(changes), 0))


@pytest.mark.parametrize(
    ("by", "words"),
    [
        ({}, ""),
        ({"dog": 4}, "dog a breath shorter"),
        ({"dog": 7, "tree": 7}, "dog and tree 2 breaths longer"),
        ({"dog": 4, "tree": 4, "boat": 4}, "3 stays a breath shorter"),
        ({"dog": 4, "tree": 2}, "tree 3 breaths shorter, and dog a breath shorter"),
        ({"dog": 4, "tree": 3, "boat": 1}, "3 stays up to 4 breaths shorter"),
        ({"dog": 4, "rest": 57_000}, "dog a breath shorter"),
        ({"rest": 57_000}, "the rest 3 s shorter"),
        ({"dog": 4, "rest": 40_000}, "dog a breath shorter, and the rest 20 s shorter"),
    ],
)
def test_stays_are_named_or_counted_and_a_remainder_is_not_told(
    by: dict[str, int], words: str
) -> None:
    assert changed(shaped("dog", "tree", "boat"), **by) == words


def test_where_there_is_room_every_amount_is_told() -> None:
    score = shaped("dog", "tree", "boat")
    changes = tuple(Change(name, 5, 4 - k) for k, name in enumerate(("dog", "tree", "boat")))
    words = "boat 3 breaths shorter, tree 2 breaths shorter, and dog a breath shorter"
    assert told(score, Refit(score, changes, 0), brief=False) == words


def test_both_sides_of_a_stay_are_one() -> None:
    steps = """
    - come to: mountain
    - each side: yes
      steps:
        - in: tree
        - stay: 4 breaths
          may stretch: 2 to 6 breaths
        - out: mountain
    - stay: 1 min
    """
    score = compiled(plan_of(steps))
    assert told(score, refit(score, 0, score.length - 16_000, 0)) == "tree a breath shorter"


GOES = """
    - come to: mountain
    - rounds: 3
      least: 1 round
      steps:
        - in: arms overhead
        - out: mountain
    - steps:
        - in: chair
        - out: standing fold
        - in: arms overhead
        - out: mountain
      may drop: yes
    - stay: 1 min
"""


@pytest.mark.parametrize(
    ("less", "words"),
    [
        (8000, "a round of One goes"),
        (16_000, "the chair passage goes"),
        (24_000, "the chair passage goes, and a round of One goes"),
        (32_000, "the chair passage goes, and 2 rounds of One go"),
    ],
)
def test_a_passage_is_told_by_the_shape_it_is_known_by_and_rounds_are_counted(
    less: int, words: str
) -> None:
    score = compiled(plan_of(GOES))
    assert told(score, refit(score, 0, score.length - less, 0)) == words


def test_lengths_of_time_are_told_in_minutes_and_seconds() -> None:
    assert [span(ms) for ms in (900, 45_000, 120_000, 125_400)] == [
        "1 s",
        "45 s",
        "2 min",
        "2 min 5 s",
    ]
