"""A key pressed twice within a moment counts once; words typed or chosen never do."""

import pytest

from conductor.engine.model import Command, Do, Reply, State
from conductor.settings import TWICE_MS, Settings
from tests.engine.make import Class, leading


def press(led: Class, do: Do, key: str = "key") -> Reply:
    return led.engine.command(Command(do, press=key), led.now)


def test_a_second_press_within_a_moment_is_no_second_skip() -> None:
    led = leading()
    assert press(led, Do.NEXT).done
    led.wait(TWICE_MS - 1)
    here = led.here
    reply = press(led, Do.NEXT)
    assert (reply.done, reply.words) == (False, "Next: plank. Pressed twice, counted once.")
    assert led.here == here


def test_a_second_press_after_a_moment_is_one_more() -> None:
    led = leading()
    press(led, Do.NEXT)
    led.wait(TWICE_MS)
    assert press(led, Do.NEXT).done
    assert led.here == "dog left"


def test_a_key_held_down_counts_once() -> None:
    led = leading()
    press(led, Do.NEXT_PART)
    for _ in range(100):
        led.wait(30)
        assert not press(led, Do.NEXT_PART).done
    look = led.look()
    assert look.reply
    assert look.reply.words == "Next part: Rest. Pressed twice, counted once."


@pytest.mark.parametrize(("first", "then"), [(Do.STOP, Do.GO_ON), (Do.HOLD, Do.GO_ON)])
def test_a_key_with_two_meanings_is_still_one_key(first: Do, then: Do) -> None:
    led = leading()
    press(led, first)
    state = led.look().state
    led.wait(100)
    assert not press(led, then).done
    assert led.look().state is state


def test_another_key_is_heard_at_once() -> None:
    led = leading()
    press(led, Do.GO_ON, "stop")
    assert press(led, Do.SILENCE, "silence").done
    assert led.look().state is State.STOPPED


def test_what_is_typed_or_may_repeat_has_no_key() -> None:
    led = leading()
    assert [press(led, Do.MORE, "").done for _ in range(3)] == [True] * 3


def test_what_was_refused_is_said_again_with_its_reason() -> None:
    led = leading()
    press(led, Do.GO_ON)
    assert press(led, Do.GO_ON).words.startswith("The class is going on already. Pressed twice")


def test_the_moment_is_a_setting() -> None:
    led = Class(pick=Settings(twice_ms=0))
    led.begin()
    assert press(led, Do.NEXT).done
    assert press(led, Do.NEXT).done
