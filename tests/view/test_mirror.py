from types import ModuleType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.score.model import Saying
from conductor.sides import Side
from conductor.values import replace
from conductor.view.glass import MIRRORS, Mirror
from conductor.view.look import look
from conductor.view.mirror import exchanged, heard, heard_as, mark, mirrored_face, shown
from conductor.view.model import View
from tests.support import score_of

PLAN = """\
plan: 1
title: Mirror
kind: piece
parts:
  - part: One
    steps:
      - come to: downward dog
      - each side: yes
        steps:
          - in: three-legged dog
          - out: low lunge
            say: Step your <side> foot through, eyes <side>.
          - in: crescent lunge
            with: right hand on the block
          - out: downward dog
            say: Right now, step back.
"""


def seen(scene: ModuleType, index: int, mirror: Mirror, **more: object) -> View:
    snapshot = scene.snap(index, 0, **more)
    return shown(look(snapshot, snapshot.now), mirror)


def test_the_screen_shows_the_other_side_and_says_whose(scene: ModuleType) -> None:
    view = seen(scene, 9, MIRRORS["screen"])
    assert view.mark == "you: L · class: R"
    assert view.now.side
    assert (view.now.side.side, view.now.side.words, view.now.side.sign) == (
        Side.LEFT,
        "left foot",
        "◀ L",
    )
    assert view.now.phrase == "warrior two, arms wide, left foot forward"
    assert view.place == "on the left"


def test_words_to_the_class_stay_the_classs_and_are_marked(scene: ModuleType) -> None:
    said = "Turn out the right foot."
    assert seen(scene, 9, MIRRORS["screen"], saying=said).saying == f"To the class: {said}"
    assert seen(scene, 9, MIRRORS["both"], saying=said).saying == "Turn out the left foot."
    cues = seen(scene, 9, MIRRORS["cues"], saying=said)
    assert (cues.saying, cues.mark) == ("Turn out the left foot.", "class: R · cues: L")
    assert cues.now.side
    assert cues.now.side.side is Side.RIGHT
    assert seen(scene, 9, MIRRORS["screen"], saying="Breathe.").saying == "Breathe."


def test_notes_stay_the_classs(scene: ModuleType) -> None:
    here = seen(scene, 5, MIRRORS["screen"])
    assert here.notes == seen(scene, 5, MIRRORS["off"]).notes


def test_arms_are_the_teachers_own() -> None:
    score = score_of(PLAN)
    at = next(at for at, one in enumerate(score.moments) if one.with_)
    assert exchanged(score.moments[at].with_) == "left hand on the block"


@pytest.mark.parametrize(
    ("name", "side", "told"),
    [
        ("off", Side.RIGHT, ""),
        ("screen", None, "mirrored: your side"),
        ("both", Side.LEFT, "you: R · class: L · cues: R"),
        ("both", None, "mirrored, cues too"),
        ("cues", None, "cues mirrored"),
    ],
)
def test_the_mark_is_there_whenever_a_mirror_is(name: str, side: Side | None, told: str) -> None:
    assert mark(side, MIRRORS[name]) == told


@pytest.mark.parametrize("index", range(0, 37, 3))
def test_a_mirror_of_the_mirror_is_the_class(scene: ModuleType, index: int) -> None:
    snapshot = scene.snap(index, 0)
    view = look(snapshot, snapshot.now)
    twice = shown(shown(view, MIRRORS["both"]), MIRRORS["both"])
    assert replace(twice, mark="") == view
    assert mirrored_face(mirrored_face(view.now)) == view.now


def test_a_cue_is_read_from_the_other_side_of_its_passage() -> None:
    """Nobody can tell from the words alone that "eyes right" names a side."""
    known = heard(score_of(PLAN))
    cue = Saying("Exhale, step your right foot through, eyes right.", 12)
    mirrored = heard_as(cue, known)
    assert mirrored == Saying("Exhale, step your left foot through, eyes left.", 12)
    assert heard_as(mirrored, known) == cue
    assert exchanged(cue.text) != mirrored.text


def test_words_that_name_no_side_are_said_as_they_are() -> None:
    known = heard(score_of(PLAN))
    for text in ("Exhale, right now, step back.", "Inhale.", "Hold here."):
        assert heard_as(Saying(text), known) == Saying(text)
    assert heard_as(Saying("Lift the left leg."), known).text == "Lift the right leg."


@given(st.sampled_from(["right", "left"]), st.sampled_from(["foot", "arm", "knee"]))
def test_twice_is_as_before(side: str, limb: str) -> None:
    cue = Saying(f"Step your {side} {limb} forward.")
    assert heard_as(heard_as(cue, {}), {}) == cue
    assert heard_as(cue, {}) != cue
