from conductor.engine.model import Do, State
from tests.engine.make import Class, at, leading, small


def test_before_the_class_it_shows_when_it_would_end() -> None:
    led = Class()
    led.wait(5000)
    look = led.look()
    assert (look.state, look.leaves, look.entered) == (State.READY, None, 5000)
    assert look.ends_at == look.planned_end == 5000 + 3000 + small().length


def test_while_leading_it_shows_the_moment_and_the_breath() -> None:
    look = leading().look()
    assert look.leaves == look.entered + 4000
    assert (look.breath, look.now - look.entered) == ("in", 1000)


def test_stopped_the_end_moves_on_with_the_clock() -> None:
    led = leading()
    led.do(Do.STOP)
    first = led.look().ends_at
    led.wait(5000)
    assert led.look().ends_at == first + 5000
    assert led.look().entered == led.now - 5000


def test_what_is_offered_is_what_would_be_accepted() -> None:
    led = at("flat")
    assert Do.MORE not in led.look().offers
    assert Do.SWAP not in led.look().offers
    led.do(Do.STOP)
    led.wait(10_000_000)
    assert Do.LAND not in led.look().offers
    assert Do.GO_ON in led.look().offers


def test_a_snapshot_is_the_same_for_the_same_now() -> None:
    led = leading()
    assert led.engine.snapshot(led.now + 9999) == led.engine.snapshot(led.now + 9999)
    assert led.look().now == led.now
