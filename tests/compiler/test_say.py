from conductor.settings import Settings
from conductor.timing.cues import cues
from tests.support import plan_of, rules_of, score_of

EACH = """
- come to: downward dog
- each side: yes
  steps:
    - in: three-legged dog
      say: {say}
    - out: downward dog
"""


def said(text: str) -> list[str]:
    return [m.words.full for m in score_of(text).moments if m.words.written]


def test_words_are_exchanged_on_the_second_side_and_both_readings_are_kept() -> None:
    text = plan_of(EACH.format(say="Press the left hand, lift your right leg."))
    assert said(text) == [
        "Press the left hand, lift your right leg.",
        "Press the right hand, lift your left leg.",
    ]
    readings = [moment.readings for moment in score_of(text).moments if moment.readings]
    assert readings == [
        ("Press the left hand, lift your right leg.", "Press the right hand, lift your left leg.")
    ]


def test_placeholders_follow_the_pass() -> None:
    text = plan_of(EACH.format(say="Lift the <side> leg, press the <other> hand."))
    assert said(text) == [
        "Lift the right leg, press the left hand.",
        "Lift the left leg, press the right hand.",
    ]


def test_an_unclear_side_in_a_passage_is_told_once_at_its_line() -> None:
    text = plan_of(EACH.format(say="That sounds right to me."))
    assert rules_of(text) == ["unclear-side"]
    plain = "- come to: mountain\n  say: That sounds right to me.\n"
    assert rules_of(plan_of(plain)) == []


def test_ends_of_the_mat_are_exchanged_on_the_way_home() -> None:
    steps = """
    - come to: mountain
    - each side: yes
      steps:
        - in: arms overhead
          say: Turn to the <end> of the mat.
          turn: other end
        - out: mountain
          say: Look at the back of the mat.
    """
    assert said(plan_of(steps)) == [
        "Turn to the back of the mat.",
        "Look at the back of the mat.",
        "Turn to the front of the mat.",
        "Look at the front of the mat.",
    ]


def test_say_again_is_said_in_later_rounds() -> None:
    steps = """
    - come to: mountain
    - rounds: 3
      steps:
        - in: arms overhead
          say: Reach up from the floor through the crown.
          say again: Reach.
        - out: mountain
    """
    words = [m.words for m in score_of(plan_of(steps)).moments if m.words.written]
    assert [one.full for one in words] == [
        "Reach up from the floor through the crown.", "Reach.", "Reach.",
    ]  # fmt: skip


def test_speak_chooses_the_form_by_round() -> None:
    steps = """
    - come to: mountain
    - rounds: 4
      speak: full, then short, then breath
      steps:
        - in: arms overhead
        - out: mountain
    """
    forms = [m.words.form for m in score_of(plan_of(steps)).moments[1::2]]
    assert forms == ["full", "short", "breath", "breath"]


def test_words_with_a_breath_word_of_their_own_get_no_second_one() -> None:
    steps = "- come to: mountain\n- in: arms overhead\n  say: Breathe in and rise.\n"
    score = score_of(plan_of(steps))
    spoken = [cue.saying.text for cue in cues(score, {}, Settings())[0]]
    assert "Breathe in and rise." in spoken


def test_lines_of_a_stay_are_said_one_a_breath_and_the_last_survives_stretching() -> None:
    steps = """
    - come to: mountain
    - in: arms overhead
    - out: standing fold
    - stay: 3 breaths
      may stretch: 2 to 6 breaths
      say:
        - first: Let the neck go.
        - Soften the knees.
        - last: Last breath.
    """
    for head in ("", "length: 56 s\n", "length: 72 s\n"):
        moments = score_of(plan_of(steps, head=head)).moments
        lines = [(m.of_stay, line.saying.text) for m in moments for line in m.lines]
        assert lines[0] == ((1, lines[0][0][1]), "Let the neck go.")
        assert lines[-1] == ((lines[-1][0][1], lines[-1][0][1]), "Last breath.")


def test_words_between_steps_fall_into_the_shape_they_stand_in() -> None:
    steps = "- come to: mountain\n- stay: 2 breaths\n- say: Rise.\n- in: arms overhead\n"
    score = score_of(plan_of(steps))
    spoken = cues(score, {}, Settings())[0]
    (rise,) = [cue for cue in spoken if cue.saying.text == "Rise."]
    movement = next(cue for cue in spoken if cue.saying.text.startswith("Inhale"))
    assert score.moments[1].start < rise.start
    assert rise.start + rise.length <= movement.start
