"""How long steps last, against what the compiler makes of the same steps."""

import pytest

from conductor.draft.tree import (
    Bell,
    Call,
    Come,
    Free,
    Group,
    Move,
    Rest,
    Stay,
    Step,
    Tempo,
    measure,
)
from conductor.draft.wish import Focus
from conductor.sides import Breath
from tests.draft.drawing import draft, score_of

TEMPO = Tempo(4_000, 5_000)
IN, OUT = Breath.IN, Breath.OUT


def long(*steps: Step) -> int:
    return measure(steps, {"f": (Move(IN, "cow"), Move(OUT, "cat"))}, TEMPO).fixed


@pytest.mark.parametrize(
    ("step", "ms"),
    [
        (Move(IN, "cow"), 4_000),
        (Move(OUT, ""), 5_000),
        (Come("mountain", "Stand.", 2), 18_000),
        (Rest(20, "Rest."), 20_000),
        (Free(30, "staff", "Sit."), 30_000),
        (Call("f"), 9_000),
        (Group((Call("f"),), rounds=3), 27_000),
        (Group((Call("f"),), sides=True, between=(Move(IN, ""), Move(OUT, ""))), 27_000),
        (Bell(1), 4_000),
    ],
)
def test_each_step_lasts_as_long_as_its_breaths_and_seconds(step: Step, ms: int) -> None:
    assert long(step) == ms


def test_a_bell_rings_into_the_stay_after_it() -> None:
    assert long(Bell(1), Move(IN, "cow")) == 4_000


def test_stays_are_counted_by_their_key_as_often_as_they_are_led() -> None:
    stay, rest = Stay(7, 1, 4), Rest(60, key=8, least=50, most=90)
    found = measure([Group((stay,), sides=True), stay, rest], {}, TEMPO)
    assert found.breaths == {7: 3}
    assert found.seconds == {8: 1}
    assert found.fixed == 0


@pytest.mark.slow
@pytest.mark.parametrize("focus", list(Focus))
def test_the_compiler_finds_every_stay_as_long_as_it_was_written(focus: Focus) -> None:
    # only the rest differs, by the seconds that whole breaths leave over
    text = draft(45, focus, 2).text
    score = score_of(45, focus, 2)
    written = [int(line.split()[2]) for line in text.splitlines() if "- stay: " in line
               and "breath" in line]  # fmt: skip
    led = {hold.amount for hold in score.holds.values() if not hold.timed}
    assert led <= set(written)
