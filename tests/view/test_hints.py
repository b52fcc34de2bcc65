from conductor.engine.model import State
from conductor.view.actions import EVERY
from conductor.view.hints import hint
from conductor.view.own_keys import keyed


def test_a_waiting_class_says_what_to_press() -> None:
    assert hint(State.READY, EVERY) == "Space or Page Down begins; ? shows the keys"
    stopped = "Space goes on. Page Down next, Page Up back. q ends the class."
    assert hint(State.STOPPED, EVERY) == stopped
    assert hint(State.LEADING, EVERY) == ""


def test_a_persons_own_keys_are_told() -> None:
    mine = keyed({"stop": "Enter", "next": "j", "back": [], "end": "F10", "help": "!"}).actions
    assert hint(State.READY, mine) == "Enter or j begins; ! shows the keys"
    assert hint(State.STOPPED, mine) == "Enter goes on. j next, F10 ends the class."
