"""Words: what is said for a movement, read by eye, and mirrored without a slip."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.body.ways import way
from conductor.compiler.model import Bit
from conductor.compiler.place import place
from conductor.compiler.word import word, words
from conductor.score.model import Words
from conductor.shapes.catalogue import load
from conductor.shapes.model import Shape
from conductor.sides import Breath, End, Side
from conductor.spans import Span
from conductor.timing.estimate import estimate
from conductor.values import replace

CATALOGUE = load()
RIGHT, LEFT = Side.RIGHT, Side.LEFT


def shape(name: str) -> tuple[Shape, Side]:
    found = CATALOGUE.find(name)
    assert found is not None, name
    return found.shape, found.side or RIGHT


def said(before: str, after: str, breath: Breath = Breath.IN, mirror: bool = False) -> Words:
    (first, one), (second, two) = shape(before), shape(after)
    if mirror:
        one, two = one.other, two.other
    found = way(first.place.at(one, End.FRONT), second.place.at(two, End.FRONT))
    return words(second, two if second.sided else None, found, breath, first)


TABLE = (Path(__file__).parent / "movements.txt").read_text(encoding="utf-8")
ROWS = [[cell.strip() for cell in row.split("|")] for row in TABLE.splitlines()[1:]]


@pytest.mark.parametrize(("before", "after", "full", "short"), ROWS)
def test_typical_movements(before: str, after: str, full: str, short: str) -> None:
    found = said(before, after)
    assert (found.full, found.short) == (full, short)
    assert found.written is False


def test_the_breath_word_stands_apart() -> None:
    assert said("mountain", "arms overhead", Breath.IN).breath == "Inhale"
    assert said("arms overhead", "standing fold", Breath.OUT).breath == "Exhale"
    assert said("staff", "final rest", Breath.FREE).breath == ""


every = st.sampled_from([item for item in CATALOGUE.shapes.values() if len(item.name.split()) < 5])
sided = st.sampled_from(Side)


def _exchanged(text: str) -> str:
    swap = {"right": "left", "left": "right"}
    return re.sub(r"\b(?:right|left)\b", lambda match: swap[match.group()], text)


@given(every, every, sided, sided, st.sampled_from(End))
def test_the_words_of_the_mirror_are_the_words_with_right_and_left_exchanged(
    first: Shape, second: Shape, one: Side, two: Side, end: End
) -> None:
    def led(one: Side, two: Side) -> Words:
        found = way(first.place.at(one, End.FRONT), second.place.at(two, end))
        return words(second, two if second.sided else None, found, Breath.IN, first, end)

    right, left = led(one, two), led(one.other, two.other)
    assert left.full == _exchanged(right.full)
    assert left.short == _exchanged(right.short)


@given(every, every, sided, sided)
def test_generated_words_are_speakable(first: Shape, second: Shape, one: Side, two: Side) -> None:
    found = way(first.place.at(one, End.FRONT), second.place.at(two, End.FRONT))
    said = words(second, two if second.sided else None, found, Breath.IN, first)
    for text in (said.full, said.short):
        assert text
        assert text == text.strip()
        assert "<" not in text
        assert "{" not in text
        assert not text.endswith(".")
        assert not text[0].isupper()
    assert seconds(said.full) <= 3.6
    assert seconds(said.short) <= 2.5


def seconds(text: str) -> float:
    return estimate(f"Exhale, {text}.") / 1000


def usual() -> list[tuple[Shape, Shape]]:
    """Neighbours as the catalogue names them."""
    shapes = CATALOGUE.shapes
    pairs = {(name, item.id) for item in shapes.values() for name in item.before}
    pairs |= {(item.id, name) for item in shapes.values() for name in item.after}
    return [(shapes[first], shapes[second]) for first, second in sorted(pairs)]


@pytest.mark.parametrize(("first", "second"), usual(), ids=lambda item: item.id)
def test_usual_movements_are_said_within_half_a_breath(first: Shape, second: Shape) -> None:
    for one in Side:
        found = way(first.place.at(one, End.FRONT), second.place.at(RIGHT, End.FRONT))
        said = words(second, RIGHT if second.sided else None, found, Breath.OUT, first)
        assert seconds(said.full) <= 3.6, said.full
        assert seconds(said.short) <= 2.2, said.short


def bits(text: str, pass_side: Side | None = RIGHT) -> tuple[Bit, ...]:
    made = []
    for number, item in enumerate(text.split(",")):
        name, _, turn = (part.strip() for part in item.partition("@"))
        breath = Breath.OUT if number % 2 else Breath.IN
        found = CATALOGUE.find(name) if name not in {"same", "stay"} else None
        assert found or name in {"same", "stay"}, name
        made.append(
            Bit(
                path=str(number),
                verb="stay" if name == "stay" else breath.value,
                breath=breath,
                span=Span("plan", number + 1, 1),
                part=0,
                shape=found.shape if found else None,
                side_written=found.side if found else None,
                pass_side=pass_side,
                turn=turn,
            )
        )
    return word(place(tuple(made))[0])


def test_a_turn_names_the_end_of_the_mat() -> None:
    (_, same), (_, other) = bits("mountain, mountain @ back"), bits("mountain, chair @ other end")
    assert (same.words.full, same.words.short) == (
        "turn to face the back of the mat",
        "turn to the back",
    )
    assert other.words.full == "turn to face the back, chair"


def test_the_long_side_is_named_without_left_or_right() -> None:
    _, turned = bits("mountain, mountain @ long side")
    assert (turned.words.full, turned.words.short) == (
        "turn to the long side",
        "face the long side",
    )


def test_half_a_breath_in_place_has_a_word_except_at_rest() -> None:
    assert [bit.words.full for bit in bits("mountain, same, same")][1:] == ["soften", "lengthen"]
    rest = bits("child's pose, same")[1]
    assert rest.words == Words(breath="Exhale")


def test_a_stay_is_left_to_the_plan() -> None:
    assert bits("mountain, stay")[1].words == Words()


def test_side_changes_turns_and_balances_are_asked_for_early() -> None:
    flow = bits("downward dog, low lunge, plank, left low lunge, left crescent lunge, warrior two")
    assert [bit.early for bit in flow] == [False, False, False, True, False, True]
    assert [bit.early for bit in bits("mountain, tree, mountain")] == [False, True, False]
    assert bits("mountain, mountain @ other end")[1].early


def test_a_written_side_that_moves_no_foot_needs_no_early_cue() -> None:
    flow = bits(
        "downward dog, low lunge, crescent lunge, warrior two, five-pointed star @ other end,"
        "left warrior two, left crescent lunge, right seated twist, left seated twist"
    )
    assert [bit.early for bit in flow[3:6]] == [True, True, False]
    assert flow[8].early  # the trunk goes the other way, with no foot to tell it


def test_a_shape_led_again_is_not_named_again() -> None:
    _, again, other = bits("mountain, mountain, chair")
    assert (again.words.full, again.words.short) == ("soften", "soften")
    assert other.words.short == "chair"
    first, second = bits("seated twist, left seated twist")
    assert first.words.full == "turn to the right, seated twist"
    assert second.words.full == "turn to the left"


def test_free_time_to_the_shape_one_is_in_asks_for_nothing() -> None:
    four = shape("all fours")[0]
    free = Bit("1", "free", Breath.FREE, Span("plan", 1, 1), 0, shape=four, ms=8000)
    first, second = word(place((free, replace(free, path="2")))[0])
    assert first.words.full == "come to all fours"
    assert second.words == Words()


def test_the_arms_of_a_shape_are_changed_back_by_its_name() -> None:
    plain = bits("mountain, mountain")
    wide = replace(plain[0], with_="arms wide")
    led = word((wide, *plain))
    assert led[0].words.short == "mountain, arms wide"
    assert (led[1].words.full, led[1].words.short) == ("stand tall", "mountain")
    assert led[2].words.full == "soften"


def test_the_first_shape_says_which_side_is_which() -> None:
    assert bits("low lunge", LEFT)[0].words.full == "come to low lunge, left foot in front"
    assert bits("warrior two", LEFT)[0].words.full == "come to warrior two, left foot in front"
    assert bits("tree", LEFT)[0].words.full == "left sole to the right leg, tree"
    assert bits("all fours", LEFT)[0].words.full == "come to all fours"


def test_other_arms_in_the_same_shape_are_a_movement_of_their_own() -> None:
    chair, _ = shape("chair")
    at = chair.place.at(RIGHT, End.FRONT)
    found = words(chair, None, way(at, at), Breath.OUT, chair, with_="eagle arms")
    assert (found.full, found.short) == ("eagle arms", "eagle arms")


def test_arms_are_said_with_the_shape() -> None:
    fold, three = shape("crescent lunge")[0], shape("warrior three")[0]
    found = way(fold.place.at(RIGHT, End.FRONT), three.place.at(RIGHT, End.FRONT))
    said = words(three, RIGHT, found, Breath.OUT, fold, with_="arms wide")
    assert said.full == "lift the left leg, arms wide"
    assert said.short == "warrior three, arms wide"


def test_shapes_passed_on_the_way_are_named() -> None:
    plank, half, low = (shape(name)[0] for name in ("plank", "half lift", "low plank"))
    ends = [item.place.at(RIGHT, End.FRONT) for item in (half, plank, low)]
    found = way(ends[0], ends[1]).then(way(ends[1], ends[2]))
    said = words(low, None, found, Breath.OUT, half, through=(plank,))
    assert said.full == "step back through plank, low plank"


def test_where_a_movement_goes_matters_more_than_what_it_passes() -> None:
    one, plank, low = (shape(name)[0] for name in ("warrior one", "plank", "low plank"))
    ends = [item.place.at(RIGHT, End.FRONT) for item in (one, plank, low)]
    found = way(ends[0], ends[1]).then(way(ends[1], ends[2]))
    said = words(low, None, found, Breath.OUT, one, through=(plank,))
    assert (said.full, said.short) == ("right foot back, low plank", "low plank")


def test_free_time_between_shapes() -> None:
    cat, cow = shape("cat")[0], shape("cow")[0]
    free = Bit("1", "free", Breath.FREE, Span("plan", 1, 1), 0, cycle=(cow, cat))
    (led,) = word(place((free,))[0])
    assert led.words == Words("move between cow and cat", "cow and cat")
