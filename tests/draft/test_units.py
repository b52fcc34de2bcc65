"""Units and the ways between hubs: home again, both sides, words where the floor changes."""

from itertools import product
from random import Random

import pytest

from conductor.draft.choice import HUBS, hold
from conductor.draft.graph import IN, OUT, Here, shapes
from conductor.draft.passages import Way, forms, passage, salute, wide
from conductor.draft.pen import Pen
from conductor.draft.tree import Come, Free, Group, Move, Stay, Step, Tempo
from conductor.draft.units import row, travel, unit, units
from conductor.draft.wish import Focus, Wish
from conductor.stance import Frame


def pen_at(hub: str, focus: Focus = Focus.HIPS, people: str = "mixed level", seed: int = 1) -> Pen:
    pen = Pen(Wish(45, focus, people), Random(seed))  # noqa: S311 -- no secret
    pen.here = Here(hub, OUT)
    return pen


def moves(steps: tuple[Step, ...] | list[Step]) -> list[Move]:
    found = []
    for step in steps:
        found += [step] if isinstance(step, Move) else []
        found += moves(step.steps) if isinstance(step, Group) else []
    return found


@pytest.mark.parametrize(("start", "goal"), list(product(HUBS, repeat=2)))
def test_every_hub_is_reached_from_every_other(start: str, goal: str) -> None:
    pen = pen_at(start)
    travel(pen, goal)
    assert pen.here == Here(goal, OUT)
    for step in pen.steps:
        if isinstance(step, Free | Come):
            assert step.say


@pytest.mark.parametrize("hub", HUBS)
def test_every_unit_of_a_hub_comes_home_to_it(hub: str) -> None:
    for name in units(hub, 3, tuple(shapes())):
        pen = pen_at(hub)
        unit(pen, name, 20)
        assert pen.here == Here(hub, OUT), name
        groups = [step for step in pen.steps if isinstance(step, Group)]
        assert bool(groups) is shapes()[name].sided


def test_the_half_breath_in_place_tells_of_the_other_side() -> None:
    pen = pen_at("all-fours")
    unit(pen, "thread-the-needle", 20)
    group, last = pen.steps
    assert isinstance(group, Group)
    (told,) = group.between
    assert isinstance(told, Move)
    assert told.say
    assert last == Move(OUT, "")


def test_a_row_goes_to_and_fro_and_comes_home() -> None:
    pen = pen_at("all-fours")
    row(pen, "cow", 3)
    group = pen.steps[0]
    assert isinstance(group, Group)
    assert [move.shape for move in moves(group.steps)] == ["cow", "cat"]
    assert group.rounds == 3
    assert pen.here == Here("all-fours", OUT)


@pytest.mark.parametrize("form", forms(3), ids=lambda form: form.name)
def test_every_salutation_alternates_breath_and_ends_where_it_began(form: object) -> None:
    pen = pen_at("mountain")
    salute(pen, form, 2)  # type: ignore[arg-type] # parametrised
    assert pen.here == Here("mountain", OUT)


@pytest.mark.parametrize("seed", range(12))
def test_a_walk_opens_once_and_keeps_to_what_it_was_asked(seed: int) -> None:
    pen = pen_at("downward-dog", Focus.BALANCE, "experienced", seed)
    passage(pen, "p", Way(("warrior-two",), 6, opens=True))
    steps = pen.flows["p"]
    frames = [shapes()[move.shape].place.frame for move in moves(steps) if move.shape]
    first = frames.index(Frame.LONG)
    last = len(frames) - 1 - frames[::-1].index(Frame.LONG)
    assert set(frames[first : last + 1]) == {Frame.LONG}  # no going back and forth
    assert sum(isinstance(step, Stay) for step in steps) >= 2  # one in it, one in the dog
    assert pen.here == Here("downward-dog", OUT)


def test_a_closed_walk_never_opens_to_the_long_side() -> None:
    for seed in range(12):
        pen = pen_at("downward-dog", seed=seed)
        passage(pen, "p", Way(moves=7))
        frames = {shapes()[move.shape].place.frame for move in moves(pen.flows["p"]) if move.shape}
        assert frames == {Frame.END}


def test_a_wide_passage_begins_and_ends_at_the_top_of_the_mat() -> None:
    pen = pen_at("mountain")
    wide(pen, Way(("warrior-two",), 5, opens=True))
    (group,) = pen.steps
    assert isinstance(group, Group)
    assert group.sides
    led = moves(group.steps)
    assert (led[0].breath, led[0].shape) == (IN, "five-pointed-star")
    assert (led[-1].breath, led[-1].shape) == (OUT, "mountain")


@pytest.mark.parametrize("tempo", [Tempo(3_000, 3_000), Tempo(4_000, 5_000), Tempo(7_000, 7_000)])
def test_a_hold_stays_near_what_is_usual_for_the_shape(tempo: Tempo) -> None:
    for shape in shapes().values():
        many = hold(shape, tempo, 30)
        assert 1 <= many.least <= many.usual <= many.most
        most = max(shape.hold[1] * 1000, tempo.breath)
        assert many.most * tempo.breath <= most or many.most == many.least


def test_what_is_only_measured_leaves_no_trace() -> None:
    pen = pen_at("all-fours")
    state, here = pen.chance.getstate(), pen.here
    assert pen.long(lambda: unit(pen, "tiger", 20)) > 0
    assert (pen.steps, pen.seen, pen.bounds, pen.flows) == ([], {}, {}, {})
    assert pen.chance.getstate() == state
    assert pen.here == here
