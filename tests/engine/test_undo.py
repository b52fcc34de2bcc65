"""Back, soon after a command, takes it back; position and time go on."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.engine.engine import Engine
from conductor.engine.led import TAKES_BACK_MS
from conductor.engine.model import Command, Do, State
from conductor.engine.undo import CHANGES, MOST
from conductor.settings import Settings
from conductor.values import replace
from tests.engine.make import Class, at, leading
from tests.support import plan_of, score_of

WORDS = {Do.LEVEL: "ease"}


def lengths(led: Class) -> list[int]:
    return [moment.length for moment in led.look().score.moments]


def to_come(led: Class) -> list[tuple[int, object]]:
    coming = led.engine.upcoming(led.now, 60_000)
    return [(one.start, one.what) for one in coming if one.start > led.now]


@pytest.mark.parametrize("do", sorted(CHANGES))
@given(wait=st.integers(0, 170_000), state=st.sampled_from(["leading", "holding", "stopped"]))
@settings(max_examples=20, deadline=None)
def test_a_change_taken_back_at_once_leaves_all_as_it_was(do: Do, wait: int, state: str) -> None:
    led = Class()
    led.begin()
    led.wait(wait)
    for asked in {"holding": [Do.HOLD], "stopped": [Do.STOP]}.get(state, []):
        led.do(asked)
    before, sounds = led.look(), to_come(led)
    if not led.do(do, word=WORDS.get(do, "")).done:
        return
    assert led.look().takes_back
    reply = led.do(Do.BACK)
    assert reply.done
    assert reply.words.startswith("Undone: ")
    after = led.look()
    said = {"pass_no": 0, "reply": None, "saying": ""}  # words of the wrong side are cut off
    assert replace(after, **said) == replace(before, **said)
    assert to_come(led) == sounds


def test_a_jump_taken_back_returns_to_the_half_breath_it_left() -> None:
    led = at("h left.2")
    assert led.do(Do.NEXT).words == "Next: plank."
    led.wait(5000)
    assert led.do(Do.BACK).words == "Undone: next. Back to warrior two."
    look = led.look()
    assert (led.here, look.state) == ("h left.2", State.ARRIVING)
    led.wait(look.entered - led.now)
    assert led.look().entered == led.now


def test_time_that_passed_is_not_given_back() -> None:
    led = leading()
    ends = led.look().ends_at
    led.do(Do.NEXT_PART)
    led.wait(6000)
    led.do(Do.BACK)
    assert led.look().ends_at == ends + 6000 + 1000 + 400  # away, the half begun, the run-in


def test_a_jump_out_of_a_stop_taken_back_is_that_stop() -> None:
    led = leading()
    led.do(Do.STOP)
    led.wait(15_000)
    led.do(Do.NEXT)
    led.wait(6000)
    led.do(Do.BACK)
    assert (led.look().state, led.here) == (State.STOPPED, "h left.2")
    assert led.heard() == []
    led.do(Do.GO_ON)  # more than 20 s after the stop: announced, from a safe shape
    assert led.here == "wait out"


def test_a_breath_more_taken_back_while_it_is_led_ends_the_stay() -> None:
    led = at("h left.5")
    led.do(Do.MORE)
    led.to("h left.6")
    assert led.do(Do.BACK).words == "Undone: one breath more."
    assert (led.here, led.look().state) == ("plank left", State.ARRIVING)
    assert led.look().score.holds["h left"].amount == 3


def test_a_breath_that_was_led_is_not_taken_back_for_the_other_side_counts_on_it() -> None:
    led = at("h right.5", 3500)
    led.do(Do.MORE)
    led.to("plank right")
    led.wait(400)
    assert led.look().takes_back == ""
    assert led.do(Do.BACK).words == "Back: warrior two."
    assert led.look().score.holds["h left"].amount == 4


def test_a_breath_fewer_taken_back_later_is_led_after_all() -> None:
    led = at("h right.3")
    led.do(Do.FEWER)
    led.to("plank right")
    assert led.do(Do.BACK).words == "Undone: one breath fewer."
    assert led.here == "h right.4"
    assert {led.look().score.holds[name].amount for name in ("h right", "h left")} == {3}


def test_sides_swapped_and_taken_back_a_while_later() -> None:
    led = at("h right.1")
    before = led.look().score
    led.do(Do.SWAP)
    assert led.here == "h left.1"
    led.to("h left.3")
    assert led.do(Do.BACK).words == "Undone: swap sides."
    assert led.here == "h right.3"
    assert led.look().score == before
    assert not led.look().swapped


def test_sides_taken_back_where_the_clock_has_shortened_the_stay_since() -> None:
    led = at("fold")
    led.do(Do.HOLD)
    led.wait(60_000)
    led.do(Do.GO_ON)
    led.to("h right.1")
    led.wait(3500)
    led.do(Do.KEEP)
    led.do(Do.SWAP)
    led.wait(9500)
    assert led.here == "plank left"
    assert led.do(Do.BACK).words == "Undone: swap sides."
    assert led.here == "plank right"


def test_what_a_jump_led_of_a_side_counts_though_jump_and_change_are_taken_back() -> None:
    led = at("warrior left")
    led.do(Do.STOP)
    led.do(Do.MORE)
    led.do(Do.GO_TO, word="leg right")
    led.wait(8000)
    sides = led.engine._led.sides
    assert led.do(Do.BACK).words.startswith("Undone: go to.")
    assert led.do(Do.BACK).words == "Undone: one breath more."
    assert led.engine._led.sides == sides


def test_a_landing_taken_back_gives_back_the_end() -> None:
    led = at("h right.1")
    planned, score = led.look().planned_end, led.look().score
    led.do(Do.LAND, ms=110_000)
    assert led.look().planned_end != planned
    led.wait(1000)
    led.do(Do.BACK)
    assert led.look().planned_end == planned
    assert led.look().score == score


def test_the_last_commands_are_taken_back_one_after_the_other() -> None:
    led = leading()
    pace, count = led.look().pace, len(lengths(led))
    led.do(Do.SLOWER)
    led.do(Do.MORE)
    led.do(Do.NEXT)
    words = [led.do(Do.BACK).words for _ in range(3)]
    assert words == [
        "Undone: next. Back to warrior two.",
        "Undone: one breath more.",
        "Undone: slower.",
    ]
    assert (led.look().pace, len(lengths(led)), led.here) == (pace, count, "h left.2")
    assert led.do(Do.BACK).words == "Back: warrior two."
    assert led.here == "warrior left"


def test_no_more_is_remembered_than_may_be_wanted() -> None:
    led = leading()
    for _ in range(MOST + 3):
        led.do(Do.MORE)
    undone = [led.do(Do.BACK).words for _ in range(MOST + 1)]
    assert undone.count("Undone: one breath more.") == MOST


@pytest.mark.parametrize("later", [0, 1])
def test_after_a_while_back_means_the_shape_before(later: int) -> None:
    led = leading()
    led.do(Do.QUIET)
    led.wait(TAKES_BACK_MS + later)
    assert bool(led.look().takes_back) is not bool(later)
    assert led.do(Do.BACK).words.startswith("Back: " if later else "Undone")


@pytest.mark.parametrize("between", [Do.HOLD, Do.STOP, Do.SLEPT])
def test_only_the_last_command_is_taken_back(between: Do) -> None:
    led = leading()
    led.do(Do.MORE)
    led.do(between)
    assert led.look().takes_back == ""
    assert led.do(Do.BACK).words == "Back: warrior two."


def test_a_refused_command_is_no_last_command() -> None:
    led = leading()
    led.do(Do.MORE)
    assert not led.do(Do.GO_ON).done
    assert led.do(Do.BACK).words == "Undone: one breath more."


def test_before_the_class_a_choice_can_be_taken_back() -> None:
    led = Class()
    assert not led.do(Do.BACK).done
    led.do(Do.SLOWER)
    assert led.do(Do.BACK).words == "Undone: slower."
    assert led.look().pace == 1000


def test_the_voice_is_named_as_what_it_was_switched_to() -> None:
    led = leading()
    led.do(Do.QUIET)
    assert led.look().takes_back == "voice off"
    led.do(Do.BACK)
    assert not led.look().quiet


PASSES = """
- come to: mountain
- rounds: 1
  each side: yes
  steps:
    - in: low lunge
    - stay: 2 breaths
    - out: mountain
- stay: 3 breaths
"""


@given(wait=st.integers(0, 60_000), after=st.integers(0, TAKES_BACK_MS))
@settings(max_examples=40, deadline=None)
def test_sides_of_equal_length_exchange_in_place_and_back(wait: int, after: int) -> None:
    score = score_of(plan_of(PASSES))
    engine = Engine(score, {}, Settings())
    engine.command(Command(Do.BEGIN), 0)
    engine.advance(wait)
    if not engine.command(Command(Do.SWAP), wait).done:
        return
    engine.advance(wait + after)
    there = engine.snapshot(wait + after)
    if there.state is State.FINISHED:
        return
    assert engine.command(Command(Do.BACK), wait + after).done
    back = engine.snapshot(wait + after)
    assert back.score == score
    assert (back.index, back.entered) == (there.index, there.entered)
