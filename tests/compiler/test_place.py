"""Place: the stance followed, and the side decided, from step to step."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.compiler.compile import compile  # noqa: A004 -- the word for it
from conductor.compiler.model import Bit
from conductor.compiler.place import PLACE, place
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.shapes.catalogue import load
from conductor.sides import Breath, End, Side
from conductor.spans import Span
from conductor.stance import Foot, Frame
from conductor.values import replace

CATALOGUE = load()
RIGHT, LEFT = Side.RIGHT, Side.LEFT
Placed = tuple[tuple[Bit, ...], tuple[Finding, ...]]


def bit(text: str, number: int, pass_side: Side | None, pass_key: str) -> Bit:
    """One step from "left low lunge @ other end", where @ is a turn and * means the other side."""
    name, _, turn = (part.strip() for part in text.partition("@"))
    breath = Breath.OUT if number % 2 else Breath.IN
    verb = "come to" if name.startswith("!") else breath.value
    found = CATALOGUE.find(name.strip("!* ")) if name not in {"stay", "same"} else None
    assert found or name in {"stay", "same"}, name
    return Bit(
        path=str(number),
        verb=verb if found else name.replace("same", breath.value),
        breath=breath,
        span=Span("plan", number + 1, 1),
        part=0,
        shape=found.shape if found else None,
        side_written=found.side if found else None,
        side_other=name.startswith("*"),
        pass_side=pass_side,
        pass_key=pass_key,
        turn=turn,
    )


def steps(text: str, pass_side: Side | None = None, key: str = "", start: int = 0) -> list[Bit]:
    names = [name.strip() for name in text.split(",")]
    key = key or str(pass_side or "")
    return [bit(name, start + at, pass_side, key) for at, name in enumerate(names)]


def led(text: str, pass_side: Side | None = None) -> Placed:
    return place(tuple(steps(text, pass_side)))


def sides(placed: Placed) -> list[tuple[str, str]]:
    return [(str(bit.side or ""), bit.decided) for bit in placed[0] if bit.shape]


def rules(placed: Placed) -> list[str]:
    return [finding.rule for finding in placed[1]]


FLOW = (
    "downward dog, three-legged dog, low lunge, crescent lunge, warrior two, stay, reverse warrior,"
    " side angle, low plank, upward dog, downward dog"
)


def test_the_pass_chooses_first_and_then_the_stance() -> None:
    found = sides(led(FLOW, LEFT))
    assert found[:3] == [("", ""), ("left", "pass"), ("left", "stance")]
    assert found[-1] == ("", "")


def test_a_written_side_wins_over_stance_and_pass() -> None:
    placed = led("downward dog, left three-legged dog, low lunge", RIGHT)
    assert sides(placed)[1:] == [("left", "written"), ("left", "stance")]
    assert placed[1] == ()


def test_the_other_side_is_the_one_the_pass_is_not_on() -> None:
    assert sides(led("downward dog, *three-legged dog", RIGHT))[1] == ("left", "written")
    assert sides(led("downward dog, *three-legged dog", LEFT))[1] == ("right", "written")


def test_without_a_pass_the_right_is_led_and_that_is_remarked() -> None:
    placed = led("mountain, tree")
    assert sides(placed)[1] == ("right", "")
    assert rules(placed) == ["side-open"]


def test_within_a_passage_the_standing_leg_goes_on_whatever_names_the_sides() -> None:
    placed = led("downward dog, crescent lunge, warrior three, standing split, half moon", RIGHT)
    assert sides(placed)[2:] == [("right", "stance"), ("left", "stance"), ("right", "stance")]
    assert placed[1] == ()
    assert all(bit.way and bit.way.effort <= 1 for bit in placed[0])


def test_a_second_pass_may_begin_with_a_change_of_legs() -> None:
    both = steps("mountain, tree", RIGHT) + steps("tree", LEFT, start=2)
    placed = place(tuple(both))
    assert sides(placed)[-1] == ("left", "pass")
    assert placed[0][-1].way is not None
    assert placed[0][-1].way.effort == 2


def test_a_second_pass_that_comes_out_on_the_first_side_is_warned_of() -> None:
    both = steps("downward dog, low lunge, crescent lunge", RIGHT)
    both += steps("low lunge, crescent lunge", LEFT, start=3)
    placed = place(tuple(both))
    assert sides(placed)[-2:] == [("right", "stance"), ("right", "stance")]
    (finding,) = placed[1]
    assert (finding.rule, finding.weight) == ("side-against-pass", Weight.WARNING)
    assert finding.span == Span("plan", 4, 1)


def test_the_stance_does_not_bind_one_who_may_take_time_at_the_start_of_a_pass() -> None:
    both = steps("downward dog, low lunge", RIGHT) + steps("!low lunge", LEFT, start=2)
    assert sides(place(tuple(both)))[-1] == ("left", "pass")


def test_a_turn_with_the_feet_apart_changes_the_foot_in_front() -> None:
    placed = led("downward dog, warrior two, warrior two @ other end, runner's lunge, plank", RIGHT)
    assert sides(placed)[1:4] == [("right", "pass"), ("left", "stance"), ("left", "stance")]
    ends = [bit.stance.heading for bit in placed[0] if bit.stance]
    assert ends == [End.FRONT, End.FRONT, End.BACK, End.BACK, End.BACK]
    assert [bit.heading_in for bit in placed[0]] == [End.FRONT, *ends[:-1]]
    walls = [bit.stance.wall for bit in placed[0][1:3] if bit.stance]
    assert walls == [LEFT, LEFT]
    assert placed[1] == ()


def test_a_turn_alone_takes_the_same_shape_again() -> None:
    (*_, last), findings = led("downward dog, warrior two, same @ other end", RIGHT)
    assert (last.side, last.decided, last.stance and last.stance.heading) == (
        LEFT,
        "stance",
        End.BACK,
    )
    assert findings == ()


def test_a_turn_to_the_end_already_faced_is_remarked() -> None:
    placed = led("mountain, arms overhead @ front")
    assert rules(placed) == ["turn-already"]
    assert rules(led("mountain, arms overhead @ back, mountain @ front")) == []


def test_a_shape_may_be_turned_to_the_long_side_and_stays_there_while_the_feet_do() -> None:
    placed, _ = led("mountain, mountain @ long side, standing fold, mountain, plank, downward dog")
    frames = [bit.stance.frame for bit in placed if bit.stance]
    assert frames == [Frame.END, Frame.LONG, Frame.LONG, Frame.LONG, Frame.END, Frame.END]
    walls = {bit.stance.wall for bit in placed[1:4] if bit.stance}
    assert walls == {LEFT}


def test_coming_back_to_the_front_of_the_mat_leaves_the_long_side() -> None:
    placed, findings = led("mountain, mountain @ long side, mountain @ front, standing fold")
    assert [bit.stance.frame for bit in placed if bit.stance][2:] == [Frame.END, Frame.END]
    assert findings == ()


def test_wide_feet_stay_where_they_stand() -> None:
    placed, findings = led(
        "downward dog, warrior two, wide-legged fold, side lunge, *side lunge, warrior two", LEFT
    )
    assert all(bit.stance and bit.stance.front is LEFT for bit in placed[1:])
    assert [bit.side for bit in placed[3:]] == [LEFT, RIGHT, LEFT]
    assert findings == ()


def test_from_feet_together_a_wide_stance_steps_for_the_pass() -> None:
    placed, _ = led("mountain, wide-legged fold", LEFT)
    assert placed[1].stance is not None
    assert (placed[1].stance.front, placed[1].stance.left) == (LEFT, Foot.TOP)
    assert (placed[1].side, placed[1].decided) == (None, "")


def test_a_stay_keeps_stance_side_and_what_decided_it() -> None:
    placed, _ = led("downward dog, low lunge, stay", RIGHT)
    assert placed[2].stance == placed[1].stance
    assert (placed[2].side, placed[2].decided) == (RIGHT, "pass")


def test_shapes_passed_on_the_way_make_one_way() -> None:
    (lift, plank), low = steps("half lift, plank"), steps("low plank", start=2)[0]
    assert plank.shape is not None
    through = replace(low, through=(plank.shape,))
    placed, _ = place((lift, through))
    assert placed[1].way is not None
    assert (placed[1].way.possible, placed[1].way.effort) == (True, 1)
    assert placed[1].shape is low.shape


def test_a_movement_that_cannot_be_made_is_kept_with_its_trouble() -> None:
    placed, _ = led("downward dog, right three-legged dog, left low lunge")
    assert placed[2].way is not None
    assert not placed[2].way.possible
    assert placed[2].side is LEFT


def test_another_way_goes_on_from_the_stance_before() -> None:
    lunge = led("downward dog, low lunge", LEFT)[0][-1].stance
    placed, _ = place(tuple(steps("crescent lunge")), lunge)
    assert (placed[0].side, placed[0].decided) == (LEFT, "stance")


def compiled(steps: str) -> set[str]:
    lines = "\n".join(f"      {line}" for line in steps.splitlines())
    text = f"plan: 1\ntitle: Try\nkind: piece\nparts:\n  - part: All\n    steps:\n{lines}\n"
    return {finding.rule for finding in compile(text, "try.yaml", CATALOGUE)[1]}


@pytest.mark.parametrize("rule", PLACE, ids=lambda rule: rule.name)
def test_every_rule_has_an_example_that_breaks_it_and_one_that_keeps_it(rule: Rule) -> None:
    assert rule.name in compiled(rule.bad)
    assert compiled(rule.good) & {each.name for each in PLACE} == set()


names = st.sampled_from([shape.name for shape in CATALOGUE.shapes.values()])
turns = st.sampled_from(["", "", "", " @ other end", " @ long side"])
texts = st.lists(st.tuples(names, turns).map("".join), min_size=1, max_size=12)


@given(texts)
def test_the_other_pass_is_the_mirror_of_the_first(flow: list[str]) -> None:
    right, _ = place(tuple(bit(text, at, RIGHT, "x") for at, text in enumerate(flow)))
    left, _ = place(tuple(bit(text, at, LEFT, "x") for at, text in enumerate(flow)))
    for one, other in zip(right, left, strict=True):
        assert one.stance is not None
        assert other.stance == one.stance.mirrored()
        assert other.side == (one.side.other if one.side else None)
        assert other.decided == one.decided


@given(texts, st.sampled_from([RIGHT, LEFT, None]))
def test_every_step_has_a_stance_and_every_sided_shape_a_side(
    flow: list[str], side: Side | None
) -> None:
    placed, _ = place(tuple(bit(text, at, side, "x") for at, text in enumerate(flow)))
    for each in placed:
        assert each.stance is not None
        assert each.shape is not None
        assert (each.side is not None) == each.shape.sided
        assert each.way is not None
