"""The test of the language: a full modern class, compiled and read moment by moment."""

from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from conductor.compiler.compile import compile as compile_plan
from conductor.report.score import table
from conductor.score.model import Score
from conductor.settings import Settings
from conductor.shapes.catalogue import load
from conductor.timing.cues import cues
from tests.support import plan_of, score_of

GOLDEN = Path(__file__).parents[1] / "golden"


def read(score: Score) -> str:
    return table(score, cues(score, {}, Settings())[0], every=True)


def test_a_full_class_compiles_to_the_score_that_was_read_by_a_person() -> None:
    text = (GOLDEN / "harbour-crossing.yaml").read_text("utf-8")
    score, findings = compile_plan(text, "harbour-crossing.yaml", load())
    assert findings == ()
    assert score is not None
    golden = GOLDEN / "harbour-crossing.txt"
    assert read(score) == golden.read_text("utf-8"), (
        "the score changed: read it (conductor score --every tests/golden/harbour-crossing.yaml), "
        "and if it is right write it to tests/golden/harbour-crossing.txt"
    )


def test_a_plan_compiles_the_same_every_time() -> None:
    text = (GOLDEN / "harbour-crossing.yaml").read_text("utf-8")
    assert score_of(text) == score_of(text)


STEPS = st.lists(
    st.sampled_from(
        [
            "- in: three-legged dog",
            "- out: low lunge",
            "- in: crescent lunge",
            "- out: warrior two",
            "- in: reverse warrior",
            "- out: plank",
            "- out: downward dog",
            "- in: warrior one\n  side: other",
            "- stay: 2 breaths\n  say: Soften your left knee, right hand to the wall.",
            "- out: triangle\n  say: Reach the <side> hand down, the <other> hand up.",
        ]
    ),
    min_size=1,
    max_size=8,
)


# "reading right for left and left for right" (Iyengar, Light on Yoga, p. 314), same time both ways
@given(STEPS)
def test_leading_the_left_first_is_the_mirror_of_leading_the_right_first(steps: list[str]) -> None:
    body = "\n".join(
        line for step in steps for line in (f"    {part}" for part in step.split("\n"))
    )
    text = f"- come to: downward dog\n- each side: yes\n  steps:\n{body}\n    - out: downward dog\n"
    right = score_of(plan_of(text))
    left = score_of(plan_of(text, head="first side: left\n"))
    assert len(right.moments) == len(left.moments)
    assert right.length == left.length
    for one, other in zip(right.moments, left.moments, strict=True):
        assert one.stance == other.stance.mirrored()
        assert (one.side and one.side.other) == other.side
        assert _swapped(one.words.full) == other.words.full
        assert [_swapped(line.saying.text) for line in one.lines] == [
            line.saying.text for line in other.lines
        ]


def _swapped(text: str) -> str:
    marked = text.replace("left", "\0").replace("right", "left").replace("\0", "right")
    return marked.replace("Left", "\0").replace("Right", "Left").replace("\0", "Right")
