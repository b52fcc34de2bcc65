import re
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.score.model import Saying
from conductor.voice.text import slug, split, spoken

LEXICON = {
    "tāḍāsana": "taadaasana",
    "Adho Mukha Śvānāsana": "ahdo mookha shuvaanaasana",
    "child's pose": "childs pose",
    "warrior": "WAR",
    "warrior two": "warrior too",
}


def say(text: str) -> str:
    return spoken(Saying(text), LEXICON)


@pytest.mark.parametrize(
    ("shown", "said"),
    [
        ("Come to Tāḍāsana.", "Come to taadaasana."),
        ("Tadasana, and stay", "taadaasana, and stay"),
        ("ADHO  MUKHA-śvānāsana", "ahdo mookha shuvaanaasana"),
        (unicodedata.normalize("NFD", "tāḍāsana now"), "taadaasana now"),
        ("Child’s pose", "childs pose"),
        ("warrior two, Warrior, warriors", "warrior too, WAR, warriors"),
    ],
)
def test_names_are_respelled_whole_longest_first_in_any_case(shown: str, said: str) -> None:
    assert say(shown) == said


@pytest.mark.parametrize(
    ("shown", "said"),
    [
        ("vṛkṣāsana", "vrikshaasana"),
        ("caturaṅga daṇḍāsana", "chaturanga dandaasana"),
        ("trikoṇāsana", "trikonaasana"),
        ("naïve café señor", "naive cafe senor"),  # accents, but not Sanskrit
    ],
)
def test_sanskrit_without_an_entry_is_spelled_as_it_sounds(shown: str, said: str) -> None:
    assert say(shown) == said


@pytest.mark.parametrize(
    ("shown", "said"),
    [
        ("Inhale… reach", "Inhale, reach"),
        ("Fold—and rest – now", "Fold, and rest, now"),
        ("Step back (soft knees) and lift", "Step back, soft knees, and lift"),
        ("Halfway up - lift", "Halfway up, lift"),
        ("one line\nanother", "one line. another"),
        ("left/right, 11/12", "left or right, 11/12"),
        ("1/2 lift, 2½ breaths, ½ a breath", "half lift, 2 and a half breaths, half a breath"),
        ("3-5 breaths, 3 – 5 breaths", "3 to 5 breaths, 3 to 5 breaths"),
        ("5.5 breaths,then 10:30", "5.5 breaths, then 10:30"),
        ("half-way up", "half-way up"),
        ("breathe & go", "breathe and go"),
        ("...", ""),
        ("  \t ", ""),
        ("***", ""),
    ],
)
def test_punctuation_becomes_pauses(shown: str, said: str) -> None:
    assert say(shown) == said


@pytest.mark.parametrize(
    "hostile",
    ["<break time='9s'/>rest", "[[rate 400]] rest", "</speak><speak>rest", "a\x1b[31mrest\x07"],
)
def test_no_command_for_an_engine_survives(hostile: str) -> None:
    said = say(hostile)
    assert "rest" in said
    assert not set(said) & set("<>[]&\x1b\x07{}")


def test_a_respelling_cannot_bring_in_what_a_text_may_not() -> None:
    assert spoken(Saying("om"), {"om": "[[o]]<m>ॐ"}) == "o, m"


@given(st.text(), st.dictionaries(st.text(max_size=8), st.text(max_size=8), max_size=5))
def test_any_text_gives_plain_ascii(text: str, lexicon: dict[str, str]) -> None:
    said = spoken(Saying(text), lexicon)
    assert re.fullmatch(r"[A-Za-z0-9 .,;:!?'%$+=/-]*", said)
    assert said == said.strip()
    assert said == "" or any(letter.isalnum() for letter in said)


@given(st.text(alphabet="abcdefgh ,.", max_size=80))
def test_what_is_spoken_is_spoken_the_same_again(text: str) -> None:
    said = spoken(Saying(text), {})
    assert spoken(Saying(said), {}) == said


def test_a_long_text_is_cut_where_a_speaker_would_breathe() -> None:
    text = "One two three. Four five, six seven eight; nine. Ten"
    assert split(text, 16) == ("One two three.", "Four five,", "six seven eight;", "nine.", "Ten")
    assert split(text, 100) == (text,)


@given(st.text(alphabet="ab ,.!", max_size=120), st.integers(1, 30))
def test_pieces_are_short_and_lose_nothing(text: str, limit: int) -> None:
    pieces = split(text, limit)
    assert all(0 < len(piece) <= limit for piece in pieces)
    assert "".join(pieces).replace(" ", "") == "".join(text.split())


def test_a_limit_below_one_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one letter"):
        split("a", 0)


def test_a_slug_is_a_file_name_of_the_words() -> None:
    assert slug("Step the LEFT foot back…") == "step-the-left-foot-back"
    assert slug("Child’s pose, Tāḍāsana") == "childs-pose-tadasana"
    assert slug("../../etc/passwd") == "etc-passwd"


def test_words_of_another_script_are_left_out() -> None:
    assert "breathe in" in spoken(Saying("योग and breathe in"), {})
    assert spoken(Saying("योग and breathe in"), {}).isascii()
