"""A whole class with nothing but a presenter remote: Page Up and Down, full stop, Escape, F5."""

from conductor.engine.model import Reply, State
from conductor.view.actions import ACTIONS, pressed
from tests.engine.make import Class

KEYS = {key: action for action in ACTIONS for key in action.remote}


def press(led: Class, key: str) -> Reply:
    return led.engine.command(pressed(KEYS[key], led.look()), led.now)


def test_a_remote_leads_a_whole_class() -> None:
    led = Class()
    assert press(led, "pagedown").words == "The class begins."
    led.wait(200)
    assert not press(led, "pagedown").done  # the finger bounced: no shape is skipped
    led.to("warrior right")
    led.wait(1000)
    press(led, "pagedown")
    assert led.here == "h right.0"
    led.wait(5000)
    assert press(led, "pageup").words == "Undone: next. Back to warrior two."
    assert led.here == "warrior right"
    led.to("h right.1")
    press(led, "escape")
    assert led.look().state is State.HOLDING
    led.wait(10_000)
    press(led, "f5")
    led.to("h right.2")
    press(led, "full_stop")
    assert (led.look().silenced, led.heard()) == (True, [])
    led.wait(100)
    reply = press(led, "full_stop")
    assert not reply.done
    assert "until you go on" in reply.words
    assert led.look().silenced
    led.wait(5000)
    assert press(led, "pagedown").done
    assert (led.look().silenced, led.here) == (False, "h right.2")
    for _ in range(200):
        if led.look().state is State.FINISHED:
            break
        led.wait(2500)
    assert led.look().state is State.FINISHED
