from conductor.breathing.session import Session
from conductor.sides import Breath


def test_what_is_pressed_is_read_and_the_running_half_is_known() -> None:
    session = Session()
    assert session.running(0) is None
    at = 0
    for _ in range(8):
        session.press(at, Breath.IN)
        session.press(at + 4000, Breath.OUT)
        at += 10_000
    session.press(at, Breath.IN)
    reading = session.reading(at)
    assert reading.inhale is not None
    assert reading.exhale is not None
    assert (reading.inhale.ms, reading.exhale.ms) == (4000, 6000)
    running = session.running(at + 1500)
    assert running is not None
    assert (running.breath, running.ms) == (Breath.IN, 1500)
    assert session.reading(at) is reading  # nothing new, nothing worked out again
    session.begin_anew()
    assert session.taps() == ()


def test_with_one_key_for_both_the_halves_take_turns() -> None:
    session = Session()
    seen = []
    for n in range(6):
        session.press(n * 4000)
        running = session.running(n * 4000 + 100)
        assert running is not None
        seen.append(running.breath)
    assert seen == [Breath.IN, Breath.OUT] * 3
