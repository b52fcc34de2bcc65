from tests.support import findings_of, score_of

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
