import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.shapes import names
from conductor.sides import Side


@pytest.mark.parametrize(
    ("written", "key"),
    [
        ("Warrior II", "warrior 2"),
        ("warrior two", "warrior 2"),
        ("WARRIOR-2", "warrior 2"),
        ("Child’s Pose", "childs"),
        ("child's pose", "childs"),
        ("the Tree", "tree"),
        ("Vīrabhadrāsana III", "virabhadrasana 3"),
        ("One-Legged Dog", "1 legged dog"),
        ("  half   moon ", "half moon"),
        ("pose", "pose"),
        ("", ""),
    ],
)
def test_a_name_is_the_same_however_it_is_written(written: str, key: str) -> None:
    assert names.key(written) == key


def test_devanagari_keeps_its_vowels_and_takes_either_kind_of_number() -> None:
    assert names.key("वीरभद्रासन २") == names.key("वीरभद्रासन II") == "वीरभद्रासन2"
    assert names.key("अधो मुख श्वानासन") == names.key("अधोमुख-श्वानासन")


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Svanasana", "Shvanasana"),
        ("Parsva", "Parshva"),
        ("Vrksasana", "Vrikshasana"),
        ("Vrksasana", "Vrukshasana"),
        ("Chaturanga Dandasana", "Caturanga Dandasana"),
        ("Pawanamuktasana", "Pavanamuktasana"),
        ("Upavistha Konasana", "Upavista Konasana"),
        ("Uttana Shishosana", "Uttana Sisosana"),
        ("Camatkarasana", "Chamatkarasana"),
        ("Krounchasana", "Kraunchasana"),
        ("Asva Sanchalanasana", "Ashwa Sanchalanasana"),
        ("Trikonasan", "Trikonasana"),
        ("Pada Hastasana", "Padahastasana"),
    ],
)
def test_spellings_of_one_sanskrit_word_sound_alike(one: str, other: str) -> None:
    assert names.sound(names.key(one)) == names.sound(names.key(other))


@pytest.mark.parametrize(
    ("one", "other"), [("uttanasana", "utkatasana"), ("virasana", "viparita"), ("bala", "mala")]
)
def test_different_sanskrit_words_do_not_sound_alike(one: str, other: str) -> None:
    assert names.sound(one) != names.sound(other)


@pytest.mark.parametrize(
    ("text", "side", "rest"),
    [
        ("right low lunge", Side.RIGHT, "low lunge"),
        ("low lunge left", Side.LEFT, "low lunge"),
        ("low lunge, right side", Side.RIGHT, "low lunge"),
        ("Low lunge (left)", Side.LEFT, "low lunge"),
        ("low lunge on the right", Side.RIGHT, "low lunge"),
        ("right side plank", Side.RIGHT, "side plank"),
        ("right side low lunge", Side.RIGHT, "low lunge"),
    ],
)
def test_a_side_may_stand_before_or_after(text: str, side: Side, rest: str) -> None:
    assert (side, rest) in names.side_splits(names.key(text))


@pytest.mark.parametrize("text", ["side plank", "right", "upright row", "mountain"])
def test_no_side_is_read_where_none_is_named(text: str) -> None:
    assert names.side_splits(names.key(text)) == ()


def test_plurals_and_spaces_make_no_difference_but_double_s_stays() -> None:
    assert names.loose("down dogs") == names.loose("downdog") == "downdog"
    assert names.loose("goddess") == "goddess"


@given(st.text(max_size=40))
def test_a_key_of_a_key_is_itself_or_shorter(text: str) -> None:
    once = names.key(text)
    assert len(names.key(once)) <= len(once)
    names.side_splits(once)
    names.sound(names.loose(once))
