from types import ModuleType

import pytest

from conductor.score.model import ShapeInfo
from conductor.sides import Side
from conductor.values import replace
from conductor.view.faces import ahead, coming, face, info_of, next_index, same_shape, side_face


@pytest.mark.parametrize(
    ("part", "means", "words", "phrase"),
    [
        ("foot", "front foot", "right foot", "right foot forward"),
        ("foot", "standing foot", "right foot", "right standing foot"),
        ("leg", "leg that is raised", "right leg", "right leg raised"),
        ("hand", "the hand on the floor", "right hand", "right hand on the floor"),
        ("", "the way the chest turns", "right side", "right side"),
    ],
)
def test_a_side_is_a_part_of_the_body(part: str, means: str, words: str, phrase: str) -> None:
    told = side_face(Side.RIGHT, ShapeInfo("x", "x", side_part=part, side_means=means))
    assert told
    assert (told.words, told.phrase, told.sign) == (words, phrase, "R ▶")


def test_the_two_signs_differ_in_letter_and_place() -> None:
    info = ShapeInfo("x", "x", side_part="foot")
    signs = [told.sign for side in Side if (told := side_face(side, info))]
    assert signs == ["R ▶", "◀ L"]
    assert side_face(None, info) is None


def test_a_face_tells_name_arms_turn_side_and_stay(scene: ModuleType) -> None:
    one = face(scene.build(), 6)
    assert one.phrase == ("warrior two, arms wide, right foot forward, turn to the long side")
    assert (one.breath, one.sign, one.stay) == ("EXHALE", "▼", "5 breaths")


def test_a_level_shows_its_own_way(scene: ModuleType) -> None:
    score = scene.build()
    assert face(score, 5, "ease").detail == "back knee down"
    assert face(score, 5).detail == ""


def test_a_cycle_names_its_shapes_and_a_timed_stay_its_time(scene: ModuleType) -> None:
    score = scene.build()
    assert face(score, 33).name == "cow and cat"
    assert face(score, 36).stay == "5 min"


@pytest.mark.parametrize(("amount", "words"), [(5, "5 and a half breaths"), (0, "half a breath")])
def test_a_stay_of_half_breaths_is_told_with_its_half(
    scene: ModuleType, amount: int, words: str
) -> None:
    score = scene.build()
    name = score.moments[7].hold
    holds = {**score.holds, name: replace(score.holds[name], amount=amount, half=True)}
    assert face(replace(score, holds=holds), 6).stay == words


def test_a_way_in_at_ones_own_breath_tells_the_whole_stay(scene: ModuleType) -> None:
    score = scene.build()
    assert [face(score, at).stay for at in (34, 35, 36)] == ["8 s", "5 min 20 s", "5 min"]


def test_an_unknown_shape_keeps_its_name(scene: ModuleType) -> None:
    assert info_of(scene.build(), "keel").name == "keel"


def test_what_comes_is_where_something_moves(scene: ModuleType) -> None:
    score = scene.build()
    assert next_index(score, 6) == 17
    assert next_index(score, 36) is None
    assert list(coming(score, 0))[:6] == [1, 2, 3, 4, 5, 6]
    assert same_shape(score.moments[7], score.moments[8])
    assert not same_shape(score.moments[5], score.moments[6])


def test_ahead_is_told_only_around_what_cannot_be_seen(scene: ModuleType) -> None:
    score = scene.build()
    assert [one.name for one in ahead(score, 1)] == ["plank"]
    assert [one.name for one in ahead(score, 3)] == ["crescent lunge"]
    assert ahead(score, 5) == ()
    assert [one.name for one in ahead(score, 17)] == ["crescent lunge"]
