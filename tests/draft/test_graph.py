"""The graph of movements: easy for the body, on the half breath that suits, both ways connected."""

from itertools import product

import pytest

from conductor.draft import graph
from conductor.draft.choice import HUBS, homes, may, visit
from conductor.draft.graph import IN, OUT, Here, easy, moves, shapes, trail
from conductor.draft.units import ON_THE_WAY, rows


def test_every_movement_of_flows_is_between_known_shapes_and_easy() -> None:
    for before, after in sorted(graph._flowing()):
        assert easy(before, after), (before, after)


def test_no_movement_of_flows_repeats_what_the_catalogue_says() -> None:
    twice = [pair for pair in sorted(graph._flowing()) if graph._follows(*pair)]
    assert twice == []


def test_every_movement_is_made_in_half_a_breath() -> None:
    for name in shapes():
        for move, cost in moves(name):
            assert cost > 0
            assert easy(name, move.shape)


def test_a_fold_is_left_on_an_inhale_and_entered_on_an_exhale() -> None:
    assert (moves("standing-fold")[0][0].breath, OUT) == (IN, OUT)
    assert all(move.breath is IN for move, _ in moves("standing-fold") if move.shape == "half-lift")
    assert all(
        move.breath is OUT for move, _ in moves("arms-overhead") if move.shape == "standing-fold"
    )


def test_a_trail_alternates_breath_and_each_step_of_it_is_a_movement_or_half_a_breath() -> None:
    for start, goal in product(("mountain", "downward-dog", "all-fours", "crocodile"), repeat=2):
        found = trail(Here(start), Here(goal), ON_THE_WAY)
        assert found is not None, (start, goal)
        here = Here(start)
        for move in found:
            assert move.breath is here.breath.other
            assert move.shape == here.shape or move in {one for one, _ in moves(here.shape)}
            here = Here(move.shape, move.breath)
        assert here == Here(goal)


def test_there_is_no_trail_where_none_leads() -> None:
    assert trail(Here("mountain"), Here("final-rest"), ()) is None


@pytest.mark.parametrize("hub", HUBS)
def test_a_visit_comes_home_to_its_hub_after_an_exhale(hub: str) -> None:
    for name in shapes():
        found = visit(name, hub)
        if found:
            assert found.into[-1].shape == name
            assert (found.home[-1] if found.home else found.into[-1]).breath is OUT
            assert (found.home[-1].shape if found.home else name) == hub


def test_most_of_the_catalogue_that_may_be_drafted_has_a_home() -> None:
    wanted = [name for name, shape in shapes().items() if may(shape, 2)]
    without = [name for name in wanted if not homes(name)]
    assert len(without) / len(wanted) < 0.12, without


def test_rows_open_on_an_inhale_and_come_back() -> None:
    assert "cow" in rows("all-fours", 2)
    assert "half-lift" not in rows("mountain", 2)
    assert "seated-cow" in rows("easy-seat", 1)
