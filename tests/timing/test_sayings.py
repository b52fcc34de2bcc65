import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.score.model import Saying, Variant, Words
from conductor.sides import Breath
from conductor.timing.sayings import (
    ahead_forms,
    compose,
    forms,
    phrases,
    speaks,
    terse_forms,
    wanted,
    words_of,
)
from conductor.values import replace
from tests.timing.building import hold, moment, score_of


@pytest.mark.parametrize(
    ("breath", "text", "said"),
    [
        ("Inhale", "step the left foot back", "Inhale, step the left foot back."),
        ("Exhale", "Fold. Let the head hang.", "Exhale, fold. Let the head hang."),
        ("Exhale", "I will wait", "Exhale, I will wait."),
        ("Exhale", "TRX straps down", "Exhale, TRX straps down."),
        ("Exhale", "exhale, fold", "Exhale, fold."),
        ("Inhale", "As you inhale, rise!", "As you inhale, rise!"),
        ("Inhale", "breathe in and rise", "Breathe in and rise."),
        ("Inhale", "find the breath again", "Inhale, find the breath again."),
        ("", "lie down", "Lie down."),
        ("", "lie down, ", "Lie down."),
        ("Inhale", "", "Inhale."),
        ("", "", ""),
        ("", "ready?", "Ready?"),
        ("", 'say "rest."', 'Say "rest."'),
    ],
)
def test_a_cue_is_a_sentence(breath: str, text: str, said: str) -> None:
    assert compose(breath, text) == Saying(said)


def test_forms_go_from_the_one_wanted_down_to_the_breath_word() -> None:
    words = Words("step the left foot back", "left foot back", "Exhale")
    texts = [(form, saying.text) for form, saying in forms(words)]
    assert texts == [
        ("full", "Exhale, step the left foot back."),
        ("short", "Exhale, left foot back."),
        ("breath", "Exhale."),
    ]
    assert [form for form, _ in forms(replace(words, form="short"))] == ["short", "breath"]
    assert [form for form, _ in forms(replace(words, form="breath"))] == ["breath"]
    assert forms(replace(words, form="nothing")) == ()


def test_the_plans_own_words_without_a_short_form_are_kept() -> None:
    own = Words("let it all go", "", "Exhale", "full", written=True)
    assert [form for form, _ in forms(own)] == ["full"]
    assert [form for form, _ in forms(replace(own, form="short"))] == ["full"]
    assert [form for form, _ in forms(replace(own, short="let go"))] == ["full", "short", "breath"]


def test_ahead_there_is_no_breath_word() -> None:
    words = Words("Inhale, turn to the far end", "turn", "Inhale")
    assert [saying.text for _, saying in ahead_forms(words)] == ["Turn to the far end.", "Turn."]
    assert ahead_forms(Words("turn as you exhale", "", "Exhale")) == ()
    assert ahead_forms(Words("turn", "", "")) == ()
    assert ahead_forms(Words("turn", "", "Inhale", "breath")) == ()


def test_the_prompting_voice_is_terse() -> None:
    words = Words("step the left foot back", "left foot back", "Exhale")
    assert terse_forms(words) == (("short", Saying("Left foot back.")),)
    assert terse_forms(replace(words, form="breath")) == (("breath", Saying("Exhale.")),)


def test_words_of_a_level() -> None:
    gentle = Variant("ease", "knee down", words=Words("lower the back knee", form="short"))
    bare = Variant("more", "bind")
    one = replace(moment("a", text="lunge"), variants=(gentle, bare))
    assert words_of(one, "ease") == Words("lower the back knee", "", "Inhale", "short")
    assert words_of(one, "more") is one.words
    assert words_of(one, "") is one.words


def test_within_a_stay_only_given_words_are_said() -> None:
    inside = replace(moment("h.0"), hold="h", arriving=False)
    given_words = replace(inside, words=Words("soften", "", "Inhale"))
    assert not speaks(inside)
    assert speaks(given_words)
    assert not speaks(given_words, rest=True)
    assert speaks(moment("a"))


def test_phrases_name_the_shapes_one_can_land_in() -> None:
    texts = [saying.text for saying in phrases(score_of(moment("a")))]
    assert "We take it up again in mountain." in texts
    assert "We take it up again from the beginning." in texts


def test_wanted_holds_every_form_of_every_way() -> None:
    words = Words("turn to the far end", "turn", "Exhale", "breath")
    gentle = Variant("ease", "", words=Words("walk round", "", "Exhale"))
    score = score_of(
        moment("a", text="reach up"),
        replace(moment("b", Breath.OUT), words=words, early=True, variants=(gentle,)),
        hold("h", 2, lines=(("last", "Last breath."),)),
    )
    texts = {saying.text for saying in wanted(score)}
    assert texts >= {
        "Inhale, reach up.",
        "Reach up.",
        "Inhale.",
        "Exhale, turn to the far end.",
        "Turn to the far end.",
        "Turn.",
        "Exhale, walk round.",
        "Walk round.",
        "Exhale.",
        "Last breath.",
    }
    assert "Turn." in {saying.text for saying in wanted(score, prompting=True)}


@given(st.sampled_from(["", "Inhale", "Exhale"]), st.text(max_size=30))
def test_composing_again_changes_nothing(breath: str, text: str) -> None:
    once = compose(breath, text)
    if breath and once.text.lower().startswith(breath.lower()):
        assert compose(breath, once.text) == once
