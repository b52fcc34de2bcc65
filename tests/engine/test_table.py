import pytest

from conductor.engine.commands import DEEDS
from conductor.engine.model import Do, State
from conductor.engine.table import BY_TIME, TABLE, Refuses, Takes

CELLS = [(state, do) for state in State for do in Do]


def test_every_state_answers_every_command() -> None:
    assert set(TABLE) == set(State)
    assert all(set(row) == set(Do) for row in TABLE.values())


@pytest.mark.parametrize(("state", "do"), CELLS)
def test_a_cell_names_a_deed_and_where_it_leads_or_says_why_not(state: State, do: Do) -> None:
    cell = TABLE[state][do]
    if isinstance(cell, Takes):
        assert cell.act in DEEDS
        assert cell.to
    else:
        assert cell.why.endswith(".")


def test_no_deed_is_left_over() -> None:
    named = {cell.act for row in TABLE.values() for cell in row.values() if isinstance(cell, Takes)}
    assert named == set(DEEDS)


def test_every_state_can_be_reached_and_only_finished_cannot_be_left() -> None:
    ways = [
        (state, to)
        for state, row in TABLE.items()
        for c in row.values()
        if isinstance(c, Takes)
        for to in c.to
    ]
    ways += [(a, b) for a, _, b in BY_TIME]
    assert {to for _, to in ways} == set(State)
    assert {a for a, b in ways if a is not b} == set(State) - {State.FINISHED}


def test_a_class_that_is_over_refuses_everything() -> None:
    assert all(isinstance(cell, Refuses) for cell in TABLE[State.FINISHED].values())
