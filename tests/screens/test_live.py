import inspect

from conductor.screens import live, panes
from conductor.screens.live import Live, Stopped
from conductor.view.actions import EVERY
from conductor.view.own_keys import keyed


def keys_of(screen: Live | Stopped) -> dict[str, set[str]]:
    bound: dict[str, set[str]] = {}
    for key, binding in screen._bindings:
        bound.setdefault(binding.action, set()).add(key)
    return bound


def test_the_keys_of_the_class_come_from_the_table_of_actions() -> None:
    bound = keys_of(Live(True, True, EVERY))
    for action in EVERY:
        assert bound[f"app.act('{action.id}')"] == {*action.keys, *action.remote}
    assert "ctrl+z" not in {key for keys in bound.values() for key in keys}


def test_a_stopped_class_obeys_the_same_keys() -> None:
    mine = keyed({"next": ["j", "Tab"]}).actions
    live, stopped = keys_of(Live(True, True, mine)), keys_of(Stopped(mine))
    acts = [f"app.act('{one.id}')" for one in mine]
    assert [live[act] for act in acts] == [stopped[act] for act in acts]
    assert live["app.act('next')"] == {"j", "tab"}
    assert "app.focus_next" not in live


def test_no_picture_relays_the_screen_on_a_timer() -> None:
    """What costs most on a timer (measured) is kept out of the live screen's source."""
    source = inspect.getsource(live) + inspect.getsource(panes)
    for costly in ("recompose", "ProgressBar", "Static(", ".update(", "screen.refresh"):
        assert costly not in source
