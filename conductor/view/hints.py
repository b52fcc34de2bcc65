"""What to press while the class waits for a person, in one line and with that person's own keys."""

from conductor.engine.model import State
from conductor.view.actions import Action
from conductor.view.keys import shown

GOING_ON = (("stop", "goes on."), ("next", "next,"), ("back", "back."), ("end", "ends the class."))
AFAR = ("next", "back")  # told with the key of a remote, which comes last


def hint(state: State, actions: tuple[Action, ...], silenced: bool = False) -> str:
    """The keys of a class not yet begun, or stopped; "" while it goes on by itself."""
    keys = {one.id: [*one.keys, *one.remote] for one in actions if one.keys or one.remote}
    said = {name: shown(those[-1 if name in AFAR else 0]) for name, those in keys.items()}
    begin = " or ".join(said[name] for name in ("stop", "next") if name in said)
    if state is State.READY:
        begins = f"{begin} begins; " if begin else ""
        return f"{begins}{said['help']} shows the keys"
    if silenced:
        return f"{begin} goes on." if begin else ""
    if state is State.STOPPED:
        return " ".join(f"{said[name]} {words}" for name, words in GOING_ON if name in said)
    return ""
