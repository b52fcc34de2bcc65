"""The side that is owed, and what a command costs, as the reply has it."""

from conductor.engine.model import Do, Owed, Position
from conductor.engine.owing import OWED_MS
from conductor.sides import Side
from tests.engine.make import Class, at, leading


def costs(led: Class, do: Do) -> str:
    return led.do(do).costs


def test_a_side_passed_over_is_owed_until_it_has_been_led() -> None:
    led = at("wait in")
    assert led.look().owed == ()
    assert "The left is owed, 40 s." in costs(led, Do.NEXT_PART)
    assert led.look().owed == (Owed(Side.LEFT, 40_000),)
    led.wait(9000)
    assert led.look().owed == (Owed(Side.LEFT, 40_000),)
    led.wait(2000)
    led.do(Do.PREVIOUS_PART)
    led.to("wait in")  # the right was led once more on the way
    assert led.look().owed == (Owed(Side.LEFT, 40_000),)
    led.to("knees")
    led.do(Do.AGAIN)
    assert led.look().owed == (Owed(Side.LEFT, 40_000),)


def test_a_side_gone_back_to_is_no_longer_owed() -> None:
    led = at("wait in")
    led.do(Do.NEXT_PART)
    assert led.look().owed
    led.wait(11_000)
    while led.here != "leg left":
        led.do(Do.BACK)
    assert led.look().owed == ()


def test_a_side_led_again_says_how_long_and_which_side_is_owed() -> None:
    led = at("dog right")
    reply = led.do(Do.AGAIN)
    assert reply.told.startswith("Again: three-legged dog. Once more: 40 s; the class ends 40 s")
    assert reply.told.endswith("The left is owed, 36 s.")
    led.do(Do.BACK)
    assert led.look().owed == ()


def test_sides_swapped_say_which_is_still_to_come() -> None:
    led = at("leg right")
    assert led.do(Do.SWAP).told == "We are on the left. The right is owed, 40 s."
    assert led.look().owed == ()  # it comes
    led.to("wait in")
    led.do(Do.NEXT_PART)
    assert led.look().owed == (Owed(Side.RIGHT, 40_000),)


def test_sides_swapped_late_leave_nothing_to_come() -> None:
    led = leading()
    assert led.do(Do.SWAP).told == "We are on the right."
    assert led.look().owed == ()


def test_a_little_more_on_one_side_is_nobodys_debt() -> None:
    led = leading()
    for count in (1, 2, 3):
        led.do(Do.MORE)
        assert bool(led.look().owed) == (8000 * count >= OWED_MS)
    assert led.look().owed == (Owed(Side.RIGHT, 24_000),)


def test_breaths_more_and_fewer_say_what_they_cost() -> None:
    led = at("h right.1")
    assert costs(led, Do.MORE) == "Costs 16 s; the class ends 16 s late."
    assert costs(led, Do.FEWER) == "Saves 16 s; the class ends on time."


def test_a_hold_says_what_it_cost_when_the_class_goes_on() -> None:
    led = leading()
    led.do(Do.HOLD)
    led.wait(24_000 - 1)
    reply = led.do(Do.GO_ON)
    assert reply.told == "Going on. Held 3 breaths; the class ends 24 s late."


def test_a_stop_says_what_it_cost_when_the_class_goes_on() -> None:
    led = leading()
    led.do(Do.STOP)
    led.wait(15_000)
    assert costs(led, Do.GO_ON) == "Stopped 15 s; the class ends 16 s late."


def test_what_costs_next_to_nothing_says_nothing() -> None:
    led = leading()
    led.do(Do.HOLD)
    assert costs(led, Do.GO_ON) == ""
    assert costs(led, Do.QUIET) == ""
    assert Class().do(Do.SLOWER).costs == ""


def test_a_class_gone_on_with_owes_nothing_for_what_came_before() -> None:
    led = Class()
    led.engine = led.engine.resume(
        led.look().score, {}, led.engine._tools.settings, Position(22, 0, -90_000, 70_000)
    )
    led.do(Do.GO_ON)
    assert led.look().owed == ()
