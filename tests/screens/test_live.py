import inspect

from textual.binding import Binding

from conductor.screens import live, panes
from conductor.screens.live import CLASS_KEYS, Live, Stopped
from conductor.view.actions import ACTIONS


def test_the_keys_of_the_class_come_from_the_table_of_actions() -> None:
    bound = [one for one in CLASS_KEYS if isinstance(one, Binding)]
    assert [one.action for one in bound[:-1]] == [f"app.act('{one.id}')" for one in ACTIONS]
    assert bound[-1].action == "app.show_help"
    assert not any("ctrl+z" in one.key for one in bound)


def test_a_stopped_class_obeys_the_same_keys() -> None:
    assert Live.BINDINGS == Stopped.BINDINGS == CLASS_KEYS


def test_no_picture_relays_the_screen_on_a_timer() -> None:
    """What costs most on a timer (measured) is kept out of the live screen's source."""
    source = inspect.getsource(live) + inspect.getsource(panes)
    for costly in ("recompose", "ProgressBar", "Static(", ".update(", "screen.refresh"):
        assert costly not in source
