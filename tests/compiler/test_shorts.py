"""Shorts: the name, with a limb where there is a choice of limbs."""

import pytest

from conductor.body.ways import way
from conductor.compiler.shorts import short
from conductor.shapes.catalogue import load
from conductor.sides import End, Side

CATALOGUE = load()


def said(before: str, after: str, end: End = End.FRONT) -> str:
    first, second = CATALOGUE.find(before), CATALOGUE.find(after)
    assert first is not None
    assert second is not None
    side = second.side or Side.RIGHT
    here = first.shape.place.at(first.side or Side.RIGHT, End.FRONT)
    found = way(here, second.shape.place.at(side, end))
    led = side if second.shape.sided else None
    return short(second.shape, led, found, first.shape, end, turns=False)


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        ("downward dog", "left warrior one", "left warrior one"),  # the leg that moves names it
        ("mountain", "right crescent lunge", "left foot back"),  # the other leg moves
        ("mountain", "left warrior three", "right leg up"),
        ("right crescent lunge", "right warrior three", "warrior three"),  # there is no choice
        ("right triangle", "right half moon", "half moon"),
        ("mountain", "left eagle", "right leg over"),
        ("goddess", "left warrior two", "left warrior two"),
        ("all fours", "left bird dog", "left bird dog"),
        ("all fours", "left thread the needle", "left arm under"),
        ("easy seat", "left seated twist", "turn to the left"),
        ("plank", "left side plank", "left side plank"),
        ("half lift", "plank", "step back, plank"),
        ("half lift", "low plank", "low plank"),
        ("reclined twist", "supported final rest", "knees on the bolster"),  # its name is too long
    ],
)
def test_in_brief(before: str, after: str, words: str) -> None:
    assert said(before, after) == words


def test_a_turn_is_told_by_the_end_of_the_mat() -> None:
    assert said("mountain", "chair", End.BACK) == "turn to the back"
