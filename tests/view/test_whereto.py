import pytest

from conductor import places as files
from conductor.cli.opening import opened
from conductor.score.model import Score
from conductor.view.whereto import found, likeliest, matching, places


@pytest.fixture(scope="module")
def score() -> Score:
    found = opened(files.plan("lighthouse-morning")).score
    assert found is not None
    return found


def test_every_part_and_every_change_of_shape_is_a_place(score: Score) -> None:
    those = places(score)
    assert [one.name for one in those if one.heads] == [part.name for part in score.parts]
    assert [one.index for one in those] == sorted(one.index for one in those)
    assert all(score.moments[one.index].id == one.moment for one in those)


@pytest.mark.parametrize("text", ["warrior two", "Warrior II", "WARRIOR 2", "virabhadrasana ii"])
def test_a_shape_is_found_by_any_of_its_names(score: Score, text: str) -> None:
    place = found(score, text, -1)
    assert place is not None
    assert score.moments[place.index].shape == "warrior-two"


def test_the_next_one_is_meant_and_after_the_last_the_first(score: Score) -> None:
    there = [one.index for one in places(score) if one.name == "warrior two"]
    seen = [found(score, "warrior two", at) for at in (-1, there[0], there[-1])]
    assert [one.index for one in seen if one] == [there[0], there[1], there[0]]


def test_a_whole_name_comes_before_names_it_is_a_part_of(score: Score) -> None:
    place = found(score, "plank", -1)
    assert place is not None
    assert place.name == "plank"


def test_words_may_begin_names_sides_and_where_it_is(score: Score) -> None:
    left = matching(places(score), "war left")
    assert {one.name for one in left} == {"warrior two", "reverse warrior"}
    assert all("left foot" in one.words for one in left)
    told = matching(places(score), "cross plank")
    assert {one.where.split(",")[0] for one in told} == {"Cross over"}


def test_a_part_is_found_and_nothing_where_there_is_nothing(score: Score) -> None:
    rest = found(score, "rest", -1)
    assert rest is not None
    assert rest.heads
    assert found(score, "keel of a ship", -1) is None
    assert likeliest((), "anything", 0) is None
