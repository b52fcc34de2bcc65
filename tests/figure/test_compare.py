"""What is said of two classes, counted by hand."""

from conductor.figure.compare import Comparison, compared, figure, signed, words
from conductor.figure.model import Kind
from conductor.figure.timeline import timeline
from conductor.sides import Side
from tests.support import score_of

HEAD = "plan: 1\ntitle: T\nkind: piece\nbreath: 4 s in, 4 s out\nparts:\n"
WARM = """\
  - part: Warm up
    steps:
      - come to: mountain
      - stay: {breaths} breaths
"""
TREES = """\
  - part: Trees
    steps:
      - in: tree
        side: right
      - stay: 5 breaths
      - out: mountain
      - in: tree
        side: left
      - stay: {left} breaths
      - out: mountain
"""
CHAIR = """\
  - part: Chair
    steps:
      - in: chair
      - stay: 2 breaths
      - out: mountain
"""


def plan(*parts: str, breaths: int = 4, left: int = 5) -> str:
    return HEAD + "".join(part.format(breaths=breaths, left=left) for part in parts)


def held(first: str, second: str) -> Comparison:
    return compared(score_of(first), score_of(second), ("one", "other"))


def test_a_class_against_itself_has_not_changed() -> None:
    same = plan(WARM, TREES)
    told = held(same, same)
    assert words(told) == (
        "Both last 2 min 16 s.",
        "Parts: each as long as before.",
        "Shapes: the same, each as long as before.",
        "Sides: right 44 s, left 44 s.",
    )
    assert [pair.more for pair in (*told.parts, *told.shapes)] == [0] * 4


def test_time_first_then_shapes_then_sides() -> None:
    told = held(plan(WARM, TREES), plan(WARM, TREES, breaths=9, left=3))
    assert words(told) == (
        "other is 24 s longer than one: 2 min 40 s, not 2 min 16 s.",
        "Parts: Warm up +40 s, Trees -16 s.",
        "Longer in: mountain +40 s.",
        "Shorter in: tree -16 s.",
        "Breaths led: 19, not 16.",
        "Sides: right 44 s, left 28 s: 16 s more on the right; before: right 44 s, left 44 s.",
    )
    assert told.sides[1] == {Side.RIGHT: 44_000, Side.LEFT: 28_000}


def test_what_is_new_and_what_is_left_out_is_named() -> None:
    told = held(plan(WARM, CHAIR), plan(WARM, TREES))
    said = words(told)
    assert "Parts: new: Trees (1 min 36 s); left out: Chair (24 s)." in said
    assert "New shapes: tree." in said
    assert "Shapes left out: chair." in said
    assert [pair.name for pair in told.parts] == ["Warm up", "Chair", "Trees"]


def test_another_order_is_told() -> None:
    told = held(plan(WARM, CHAIR, TREES), plan(WARM, TREES, CHAIR))
    assert told.moved
    assert "Parts: in another order." in words(told)
    assert not held(plan(WARM, CHAIR), plan(WARM, TREES, CHAIR)).moved


def test_parts_of_one_name_are_told_apart() -> None:
    told = held(plan(WARM, CHAIR, CHAIR), plan(WARM, CHAIR))
    assert [(pair.name, pair.gone) for pair in told.parts] == [
        ("Warm up", False),
        ("Chair", False),
        ("Chair (2)", True),
    ]


def test_how_often_a_shape_comes_is_told_where_it_changed() -> None:
    told = held(plan(WARM, CHAIR), plan(WARM, CHAIR, CHAIR))
    assert any("chair +20 s (2 times, not 1)" in line for line in words(told))


def test_parts_that_one_has_alone_are_marked_in_the_drawing() -> None:
    first, second = score_of(plan(WARM, CHAIR)), score_of(plan(WARM, TREES))
    told = compared(first, second, ("one", "other"))
    drawn = figure("T", timeline(first), timeline(second), told, ("And this.",))
    kinds = [[one.kind for one in each.lanes[0].stretches] for each in drawn.timelines]
    assert kinds == [[Kind.PLAIN, Kind.LEFT_OUT], [Kind.PLAIN, Kind.ADDED]]
    assert drawn.words[1] == "And this."


def test_differences_have_their_sign() -> None:
    assert (signed(130_000), signed(-5000)) == ("+2 min 10 s", "-5 s")
