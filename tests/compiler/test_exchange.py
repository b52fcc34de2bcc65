import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.compiler.exchange import ends, placed, sides, unknown_marks


@pytest.mark.parametrize(
    ("written", "exchanged"),
    [
        ("Step your right foot between your palms.", "Step your left foot between your palms."),
        ("Lean to the right, left arm over the ear.", "Lean to the left, right arm over the ear."),
        ("Cross right over left.", "Cross left over right."),
        ("Lift the right up high.", "Lift the left up high."),
        ("Turn right.", "Turn left."),
        ("Look right, then left.", "Look left, then right."),
        ("RIGHT KNEE, Left toes", "LEFT KNEE, Right toes"),
        ("Press the right back foot.", "Press the left back foot."),
    ],
)
def test_a_plainly_named_side_is_exchanged(written: str, exchanged: str) -> None:
    assert sides(written) == (exchanged, ())


@pytest.mark.parametrize(
    "idiom",
    [
        "Right now there is nowhere to be.",
        "Come right away.",
        "All right, and breathe.",
        "All right, then rest.",
        "Hold it right there.",
        "What is left is the breath.",
        "With the breath left over.",
        "Find the right amount of effort.",
        "A right angle in the knee.",
        "Sit upright, the outright best.",
        "Come right back to mountain.",
    ],
)
def test_an_idiom_is_never_exchanged(idiom: str) -> None:
    assert sides(idiom) == (idiom, ())


def test_what_is_neither_is_said_to_be_unclear() -> None:
    assert sides("Something sounds right to me") == ("Something sounds right to me", ("right",))


@pytest.mark.parametrize(
    ("written", "exchanged"),
    [
        ("Face the back of the mat.", "Face the front of the mat."),
        ("Step to the top of the mat.", "Step to the far end of the mat."),
        ("The front wall, the back body.", "The back wall, the back body."),
    ],
)
def test_ends_of_the_mat_are_exchanged(written: str, exchanged: str) -> None:
    assert ends(written) == exchanged


@pytest.mark.parametrize(
    "body", ["Back knee down.", "Hands behind your back.", "Step back.", "The front of the thigh."]
)
def test_front_and_back_of_the_body_stay(body: str) -> None:
    assert ends(body) == body


def test_placeholders_are_filled() -> None:
    said = placed("<side> foot, <other> hand, to the <end> of the mat", "left", "right", "back")
    assert said == "left foot, right hand, to the back of the mat"


WORDS = st.sampled_from(
    "left right the your to foot knee now away over and all hand back front top of mat room far "
    "end step is , . turn way Left RIGHT this lift up Front wall".split()
)


# "reading right for left and left for right" (Iyengar, Light on Yoga, p. 314): twice is the same
@given(st.lists(WORDS, max_size=12).map(" ".join))
def test_exchanging_twice_gives_the_words_back(words: str) -> None:
    once, unclear = sides(words)
    again, still = sides(once)
    assert again == words
    assert len(still) == len(unclear)
    assert ends(ends(words)) == words


def test_marks_are_filled_whatever_their_case_and_unknown_ones_are_named() -> None:
    assert placed("<Side> foot, <OTHER> hand", "left", "right", "back") == "Left foot, RIGHT hand"
    assert unknown_marks("<sid> foot, <Side>, 3 < 4 > 2") == ("sid",)
