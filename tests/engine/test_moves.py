"""Stopping, sleeping and taking up again."""

from conductor.engine.model import Do, State
from conductor.engine.moves import LONG_STOP_MS
from conductor.values import replace
from tests.engine.make import Class, entered, leading, small, stopped


def test_stopped_everything_waits_and_nothing_sounds() -> None:
    led = leading()
    led.do(Do.STOP)
    led.wait(0)
    assert led.wait(3_600_000) == []
    look = led.look()
    assert (look.state, look.leaves, look.silenced) == (State.STOPPED, None, False)
    assert led.engine.next_deadline() is None
    assert led.heard() == []


def test_silence_is_a_stop_that_says_so() -> None:
    led = leading()
    led.do(Do.SILENCE)
    assert (led.look().state, led.look().silenced) == (State.STOPPED, True)
    assert not led.do(Do.SILENCE).done
    led.do(Do.GO_ON)
    assert not led.look().silenced


def test_a_stop_can_become_silence() -> None:
    led = stopped()
    assert led.do(Do.SILENCE).done
    assert led.look().silenced


def test_after_a_short_stop_the_half_breath_starts_over() -> None:
    led = leading()
    led.do(Do.STOP)
    led.wait(LONG_STOP_MS - 1)
    led.do(Do.GO_ON)
    assert (led.here, led.look().state) == ("h left.2", State.ARRIVING)
    told = led.wait(400 + 4000)
    assert entered(told) == ["h left.2", "h left.3"]


def test_after_a_long_stop_it_is_taken_up_at_the_last_landing_with_a_breath_to_come_in() -> None:
    led = leading()
    led.do(Do.STOP)
    led.wait(LONG_STOP_MS)
    reply = led.do(Do.GO_ON)
    assert reply.words == "We take it up again in downward dog."
    assert led.here == "wait out"
    assert led.look().entered == led.now + 8000
    assert led.heard(0) == [reply.words]
    assert entered(led.wait(8000)) == ["wait out"]


def test_with_no_shape_to_land_in_it_is_taken_up_from_the_beginning() -> None:
    given = small()
    hard = {key: replace(info, landing=False) for key, info in given.shapes.items()}
    led = Class(replace(given, shapes=hard))
    led.begin()
    led.to("dog")
    led.do(Do.STOP)
    led.wait(LONG_STOP_MS)
    assert led.do(Do.GO_ON).words == "We take it up again from the beginning."
    assert led.here == "stand"


def test_a_stretch_of_time_is_taken_up_where_it_was_left() -> None:
    led = leading()
    led.to("rest.0")
    led.wait(12_000)
    led.do(Do.STOP)
    led.wait(5000)
    led.do(Do.GO_ON)
    led.wait(400)
    look = led.look()
    assert (look.state, look.leaves) == (State.LEADING, led.now + 18_000)


def test_words_cut_off_in_a_stretch_of_time_are_said_again() -> None:
    led = leading()
    led.to("rest.0")
    led.wait(700)
    led.do(Do.STOP)
    led.do(Do.GO_ON)
    assert led.heard() == ["Rest."]
    led.wait(400)
    assert led.look().leaves == led.now + 30_000 - 300


def test_a_sleep_is_a_stop_and_no_burst_of_old_cues() -> None:
    led = leading()
    led.now += 30_000
    reply = led.do(Do.SLEPT, ms=30_000)
    assert "30 s" in reply.words
    told = led.wait(0)
    assert [one.kind for one in told if one.kind != "dropped"] == ["slept", "state"]
    assert [one.words for one in told if one.kind == "dropped"][:2] == ["Last.", "plank left"]
    assert (led.here, led.look().state, led.heard()) == ("h left.2", State.STOPPED, [])


def test_after_any_sleep_it_is_taken_up_at_a_landing() -> None:
    led = leading()
    led.now += 3000
    led.do(Do.SLEPT, ms=3000)
    led.do(Do.GO_ON)
    assert led.here == "wait out"


def test_a_sleep_while_stopped_makes_it_a_long_stop() -> None:
    led = stopped()
    led.do(Do.SLEPT, ms=500)
    led.do(Do.GO_ON)
    assert led.here == "wait out"
