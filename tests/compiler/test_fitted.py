import pytest

from conductor.score.model import Score
from tests.support import findings_of, plan_of, rules_of, score_of

PLAN = """
plan: 1
title: Parts
kind: piece
breath: 4 s in, 4 s out
{head}
parts:
  - part: Warm
    length: {part}
    steps:
      - come to: mountain
      - each side: yes
        steps:
          - in: tree
          - stay: 4 breaths
            may stretch: 2 to 10 breaths
          - out: mountain
      - stay: 30 s
        may stretch: 10 to 60 s
  - part: Rest
    steps:
      - free: 40 s
        to: final rest
      - stay: 5 min
        may stretch: 5 to 15 min
"""


def test_a_part_is_fitted_to_its_own_length_and_keeps_it_when_the_class_is_fitted() -> None:
    score = score_of(PLAN.format(head="length: 12 min", part="3 min"))
    warm, rest = score.parts
    assert score.moments[rest.first].start == 180_000
    assert score.length == 720_000
    stays = [hold.amount for hold in score.holds.values() if not hold.timed]
    assert stays[0] == stays[1]
    assert (warm.first, rest.last) == (0, len(score.moments))


def test_a_part_that_cannot_be_met_says_by_how_much_at_its_length() -> None:
    text = PLAN.format(head="", part="20 min")
    (finding,) = findings_of(text)
    assert finding.rule == "length-missed"
    assert "the part Warm is" in finding.words
    assert "too short" in finding.words
    assert finding.span is not None
    assert "length: 20 min" in text.splitlines()[finding.span.line - 1]


def led(score: Score) -> list[str]:
    return [moment.shape for moment in score.moments if moment.arriving]


PASSAGE = """
    - come to: downward dog
    - steps:
        - in: three-legged dog
          side: right
        - out: low lunge
        - in: crescent lunge
      may drop: yes
    - out: low lunge
      side: right
    - in: crescent lunge
    - stay: 1 min
"""


def test_words_after_a_passage_that_goes_are_said_for_the_way_that_is_left() -> None:
    whole = score_of(plan_of(PASSAGE))
    score = score_of(plan_of(PASSAGE, head="length: 1 min 16 s\n"))
    assert led(score) == ["downward-dog", "low-lunge", "crescent-lunge"]
    assert "lower the left knee" in {one.id: one.words.full for one in whole.moments}["1/3"]
    assert score.moments[1].words.full == "step the right foot forward, low lunge"
    assert score.length == 76_000


THIRD = """
    - come to: mountain
    - rounds: 3
      least: 1 round
      steps:
        - in: arms overhead
        - out: standing fold
        - in: half lift
          only: round 3
        - out: standing fold
          only: round 3
        - in: arms overhead
          only: last round
        - out: mountain
          only: last round
    - stay: 40 s
"""
SALUTES = """
    - come to: mountain
    - rounds: 4
      least: 1 round
      steps:
        - in: arms overhead
        - out: standing fold
        - in: half lift
        - out: standing fold
        - in: arms overhead
          only: last round
        - out: mountain
          only: last round
    - stay: 40 s
"""


@pytest.mark.parametrize(("seconds", "left"), [(120, 4), (104, 3), (88, 2), (72, 1)])
def test_the_last_round_that_is_left_is_the_last_round(seconds: int, left: int) -> None:
    score = score_of(plan_of(SALUTES, head=f"length: {seconds} s\n"))
    assert score.length == seconds * 1000
    assert led(score)[-2:] == ["arms-overhead", "mountain"]
    rounds = [one.round for one in score.moments if "/2/" in one.id]
    assert rounds[-1] == (left, left)
    assert {of for _, of in rounds} == {left}


def test_a_round_that_only_speaks_of_may_be_left_out() -> None:
    assert "half-lift" in led(score_of(plan_of(THIRD)))
    score = score_of(plan_of(THIRD, head="length: 72 s\n"))
    assert "half-lift" not in led(score)
    assert led(score)[-2:] == ["arms-overhead", "mountain"]
    assert score.length == 72_000


ALTERNATING = """
    - come to: mountain
    - rounds: 6
      alternate: yes
      least: 2 rounds
      steps:
        - in: tree
        - out: mountain
    - stay: 40 s
"""


def test_rounds_that_alternate_are_left_out_two_by_two() -> None:
    score = score_of(plan_of(ALTERNATING, head="length: 1 min 20 s\n"))
    sides = [one.side for one in score.moments if one.shape == "tree"]
    assert sides == ["right", "left", "right", "left"]
    assert {one.round[1] for one in score.moments if one.shape == "tree"} == {4}
    assert score.length == 80_000


SAME_BREATH = """
    - come to: mountain
    - in: arms overhead
    - out: standing fold
      may drop: yes
    - in: half lift
    - out: standing fold
    - stay: 20 s
"""
NO_WAY = """
    - come to: easy seat
    - steps:
        - in: all fours
        - out: downward dog
        - in: half lift
        - out: standing fold
      may drop: yes
    - in: arms overhead
    - out: mountain
    - stay: 20 s
"""


@pytest.mark.parametrize(
    ("steps", "line", "why"),
    [
        (SAME_BREATH, "may drop: yes", "one inhale would follow on another"),
        (NO_WAY, "may drop: yes", "more than one movement"),
    ],
)
def test_what_would_leave_the_class_stuck_is_not_left_out(steps: str, line: str, why: str) -> None:
    text = plan_of(steps, head="length: 32 s\n")
    assert led(score_of(text)) == led(score_of(plan_of(steps)))
    (found,) = [one for one in findings_of(text) if one.rule == "drop-leaves-gap"]
    assert why in found.words
    assert found.span is not None
    assert line in text.splitlines()[found.span.line - 1]


TOGETHER = """
    - come to: mountain
    - in: arms overhead
      may drop: yes
    - out: standing fold
      may drop: yes
    - in: arms overhead
    - out: mountain
    - stay: 20 s
"""


def test_movements_side_by_side_that_can_only_go_together_go_together() -> None:
    text = plan_of(TOGETHER, head="length: 36 s\n")
    assert led(score_of(text)) == ["mountain", "arms-overhead", "mountain"]
    assert set(rules_of(text)) == {"left-out"}


def test_the_last_passage_left_is_never_left_out() -> None:
    steps = """
        - may drop: yes
          steps:
            - come to: mountain
            - in: arms overhead
            - out: standing fold
            - stay: 5 breaths
    """
    text = plan_of(steps, head="length: 5 s\n")
    assert len(score_of(text).moments) == 13
    assert rules_of(text) == ["length-missed"]


def test_the_shape_a_class_begins_in_stays() -> None:
    steps = """
        - come to: mountain
          may drop: yes
        - stay: 5 breaths
    """
    text = plan_of(steps, head="length: 40 s\n")
    assert score_of(text).length == 48_000
    assert rules_of(text) == ["length-missed"]


PARTS = """
plan: 1
title: Parts
kind: piece
breath: 4 s in, 4 s out
parts:
  - part: A
    length: {length}
    steps:
      - come to: mountain
      - steps:
          - in: arms overhead
          - out: mountain
        may drop: yes
      - stay: 3 breaths
        may drop: yes
  - part: B
    steps:
      - in: arms overhead
      - out: mountain
"""


def test_a_part_leaves_out_what_may_go_to_meet_its_own_length() -> None:
    score = score_of(PARTS.format(length="16 s"))
    assert score.parts[1].first == 3
    assert score.length == 24_000
    whole = score_of(PARTS.format(length="40 s"))
    assert whole.length == 48_000


def test_a_part_left_out_whole_is_no_part_of_the_score() -> None:
    text = PARTS.replace("    length: {length}\n", "").replace(
        "  - part: B\n", "  - part: B\n    may drop: yes\n"
    )
    text += """
  - part: C
    steps:
      - in: arms overhead
      - out: mountain
      - stay: 1 min
"""
    score = score_of(text.replace("kind: piece", "kind: piece\nlength: 108 s"))
    assert [part.name for part in score.parts] == ["A", "C"]
    assert score.moments[-1].part == 1
    assert score.length == 108_000
