import pytest

from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do
from conductor.report.chapters import cue_sheet
from conductor.score.model import Part
from conductor.settings import Settings
from tests.support import score_of

HEAD = """
plan: 1
title: Bells
kind: piece
parts:
  - part: A
    steps:
      - come to: mountain
      - in: arms overhead
      - out: mountain
"""
BELL = """
  - part: {name}
    steps:
      - bell: 3
"""
MORE = """
  - part: C
    steps:
      - in: arms overhead
      - out: mountain
"""


def test_a_last_part_with_only_a_bell_has_the_ring_out() -> None:
    score = score_of(HEAD + BELL.format(name="B"))
    assert score.parts == (Part("A", 0, 3), Part("B", 3, 4))
    assert [moment.part for moment in score.moments] == [0, 0, 0, 1]
    assert score.moments[-1].bells == 3
    assert '"B"' in cue_sheet(score, "b.wav", 0)


def test_bells_of_two_parts_at_the_end_ring_out_each_in_its_own() -> None:
    score = score_of(HEAD + "      - bell: 1\n" + BELL.format(name="B"))
    assert [(one.part, one.bells) for one in score.moments[2:]] == [(0, 0), (0, 1), (1, 3)]
    assert score.parts == (Part("A", 0, 4), Part("B", 4, 5))


def test_a_part_whose_bell_rings_in_the_next_one_is_no_part_of_the_score() -> None:
    score = score_of(HEAD + BELL.format(name="B") + MORE)
    assert score.parts == (Part("A", 0, 3), Part("C", 3, 5))
    assert [moment.part for moment in score.moments] == [0, 0, 0, 1, 1]
    assert score.moments[3].bells == 3


@pytest.mark.parametrize(
    ("plan", "name"),
    [(HEAD + BELL.format(name="B"), "B"), (HEAD + BELL.format(name="B") + MORE, "C")],
)
def test_the_class_goes_from_part_to_part(plan: str, name: str) -> None:
    engine = Engine(score_of(plan), {}, Settings())
    engine.command(Command(Do.BEGIN), 0)
    said = []
    for do in (Do.NEXT_PART, Do.NEXT_PART, Do.PREVIOUS_PART):
        engine.command(Command(do), 0)
        reply = engine.snapshot(0).reply
        said.append(reply.words if reply else "")
    assert said == [f"Next part: {name}.", "This is the last part.", "Previous part: A."]
