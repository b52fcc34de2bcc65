"""What the lanes of a class say: times and sums that can be counted by hand."""

from conductor.figure import curves
from conductor.figure.model import FULL, Form, Kind, Lane
from conductor.figure.pieces import Piece, Told, planned
from conductor.figure.timeline import of_pieces, timeline
from conductor.shapes.catalogue import load
from tests.support import plan_of, score_of

UNEVEN = plan_of(
    """
    - come to: mountain
    - in: tree
      side: right
    - stay: 5 breaths
    - out: mountain
    - in: tree
      side: left
    - stay: 3 breaths
    - out: mountain
    """
)
WORK = plan_of(
    """
    - come to: all fours
    - in: plank
    - stay: 2 breaths
    - out: child's pose
    - stay: 2 breaths
    """
)


def lane(text: str, name: str) -> Lane:
    score = score_of(text)
    return next(one for one in timeline(score, (), load().shapes).lanes if one.name == name)


def test_sides_stand_about_an_axis_and_their_inequality_is_said() -> None:
    sides = lane(UNEVEN, "sides")
    assert sides.form is Form.SIDES
    assert [(one.start, one.length, one.kind) for one in sides.stretches] == [
        (8000, 44_000, Kind.RIGHT),
        (56_000, 28_000, Kind.LEFT),
    ]
    assert sides.words == "right 44 s, left 28 s: 16 s more on the right"


def test_parts_and_shapes_are_rows_of_alike_moments() -> None:
    assert lane(UNEVEN, "parts").words == "One 1 min 28 s"
    shapes = lane(UNEVEN, "shapes").stretches
    assert [one.label for one in shapes] == ["mountain", "tree", "mountain", "tree", "mountain"]
    assert shapes[1].note == "tree (right), 44 s"


def test_lying_on_a_side_and_going_round_at_will_are_no_sides_debt() -> None:
    text = plan_of(
        """
        - come to: all fours
        - free: 20 s
          of: [cow, cat]
        - free: 30 s
          to: side-lying rest
          side: right
        """
    )
    assert lane(text, "sides").stretches == ()


def test_the_wrists_bear_what_the_catalogue_says_and_nothing_at_rest() -> None:
    wrists = lane(WORK, "wrists")
    assert [(one.start, one.length, one.label, one.level) for one in wrists.stretches] == [
        (0, 8000, "hands and knees", FULL // 3),
        (8000, 20_000, "hands and feet", 2 * FULL // 3),
    ]
    assert wrists.words == "28 s in all, at most 28 s in a row"


def test_a_shape_nobody_knows_is_judged_by_its_stance() -> None:
    score = score_of(WORK)
    unknown = curves.wrists(planned(score), {})
    assert [one.level for one in unknown.stretches] == [FULL // 3, FULL // 3]


def test_effort_is_none_at_rest_and_more_where_a_shape_loads() -> None:
    score = score_of(WORK)
    asked = {piece.moment.shape: curves.asked(piece, score) for piece in planned(score)}
    assert asked["childs-pose"] == 0
    assert asked["plank"] > asked["all-fours"] > 0
    assert lane(WORK, "effort").words.endswith("plank")


def test_effort_is_a_mean_over_a_minute() -> None:
    text = plan_of("- come to: mountain\n- stay: 4 min\n- out: child's pose\n- stay: 4 min\n")
    levels = [one.level for one in lane(text, "effort").stretches]
    still = FULL // curves.HARDEST
    assert levels[2] < still == levels[3] == levels[20]  # nothing is asked before it begins
    fall = levels[20 : levels.index(0)]
    assert fall == sorted(fall, reverse=True)
    assert 4 <= len([level for level in fall if level < still]) <= 7  # a minute in which it falls
    assert levels[levels.index(0) :] == [0] * (len(levels) - levels.index(0))


def test_breath_is_the_length_of_a_whole_one_and_none_at_ones_own() -> None:
    text = plan_of(
        "- come to: mountain\n- in: arms overhead\n- out: mountain\n- stay: 2 breaths\n"
        "- free: 20 s\n"
    )
    breath = lane(text, "breath").stretches
    assert [(one.kind, one.label, one.level) for one in breath] == [
        (Kind.OWN, "own breath", 0),
        (Kind.PLAIN, "4 s in, 4 s out", FULL * 8 // 12),
        (Kind.OWN, "own breath", 0),
    ]


def test_speech_and_silence_are_summed_and_words_at_once_count_once() -> None:
    told = (
        Told(0, 2000, "One."),
        Told(1000, 2000, "Two, over it."),
        Told(10_000, 4000, "bell", bell=True),
        Told(20_000, 1000, "Three."),
    )
    voice = curves.speech(told, 30_000)
    assert voice.words == "speech 4 s (13 %), longest silence 9 s"
    assert [one.kind for one in voice.stretches].count(Kind.BELL) == 1
    assert curves.speech((), 30_000).words == "speech 0 s (0 %), longest silence 30 s"


def test_facing_follows_the_mat() -> None:
    text = plan_of(
        """
        - come to: mountain
        - in: warrior two
          side: right
          turn: long side
        - out: mountain
          turn: front
        """
    )
    facing = lane(text, "facing")
    assert [one.kind for one in facing.stretches] == [Kind.FRONT, Kind.LONG, Kind.FRONT]


def test_what_carries_the_weight_is_followed_to_the_floor_and_back() -> None:
    weight = lane(WORK, "weight")
    assert [(one.label, one.length, one.kind) for one in weight.stretches] == [
        ("hands and knees", 8000, Kind.PLAIN),
        ("hands and feet", 20_000, Kind.PLAIN),
        ("shins", 20_000, Kind.REST),
    ]
    assert weight.words == "hands and feet 20 s, shins 20 s, hands and knees 8 s"


def test_a_class_really_led_has_the_same_lanes_in_its_own_time() -> None:
    score = score_of(UNEVEN)
    late = [Piece(one.moment, one.start + 5000, one.length) for one in planned(score)]
    led = of_pieces(late, score, (), {}, "led")
    plan = timeline(score)
    assert led.length == plan.length + 5000
    assert [one.name for one in led.lanes] == [one.name for one in plan.lanes]
    assert led.lanes[3].stretches[0].start == plan.lanes[3].stretches[0].start + 5000
    assert led.lanes[3].words == plan.lanes[3].words
