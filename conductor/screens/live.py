"""The class as it is led, and the class stopped."""

from textual.app import ComposeResult
from textual.binding import Binding, BindingsMap
from textual.screen import ModalScreen, Screen

from conductor.screens import board as pictures
from conductor.screens.panes import Board, Pane
from conductor.view.actions import Action
from conductor.view.model import View


def bound(own: BindingsMap, actions: tuple[Action, ...]) -> BindingsMap:
    """The keys of a screen over a class: its `own`, and over them those of the actions."""
    keys = [
        Binding(
            key,
            f"app.act('{action.id}')",
            action.label,
            show=False,
            id=f"class.{action.id.replace(' ', '-')}.{key}",
            tooltip=action.help,
        )
        for action in actions
        for key in dict.fromkeys((*action.keys, *action.remote))
    ]
    both = {**own.key_to_bindings, **BindingsMap(keys).key_to_bindings}
    return BindingsMap.from_keys(both)


STEP = 250  # per mille: without motion the bar moves four times in a half breath


class Live(Screen[None]):
    """The shape now and next, the breath with its bar, the time, the words to say."""

    AUTO_FOCUS = ""

    def __init__(self, motion: bool, voiced: bool, actions: tuple[Action, ...]) -> None:
        super().__init__()
        self._bindings = bound(self._bindings, actions)
        self._motion = motion
        self._voiced = voiced
        self._still: tuple[View, float] | None = None
        self._board = Board()

    def compose(self) -> ComposeResult:
        """One board; nothing takes the focus, so keys go to the class."""
        yield self._board

    def show(self, view: View, need: float, moving: bool = True) -> None:
        """Draw what changed; the bar only when it is `moving`.

        `need` is the height of a capital, in rows, that reads well from where the teacher stands.
        """
        still = pictures.still(view)
        if (still, need) != self._still:
            self._still = still, need
            large = view.quiet or not self._voiced
            self._board.show(
                lambda width, height: pictures.board(still, width, height, large, need)
            )
        if not moving:
            return
        fraction = view.fraction if self._motion else view.fraction // STEP * STEP
        self._board.move(fraction, view.breath)


class Stopped(ModalScreen[None]):
    """The class waits: STOPPED, the clock, and how to go on; in silence only the first two."""

    AUTO_FOCUS = ""

    def __init__(self, actions: tuple[Action, ...]) -> None:
        super().__init__()
        self._bindings = bound(self._bindings, actions)
        self._pane = Pane(id="stopped")
        self._still: tuple[View, str] | None = None

    def compose(self) -> ComposeResult:
        """One pane over the whole screen."""
        yield self._pane

    def show(self, view: View, time_of_day: str) -> None:
        """Draw what changed."""
        still = pictures.still(view)
        if (still, time_of_day) == self._still:
            return
        self._still = still, time_of_day
        self._pane.show(lambda width, height: pictures.stopped(still, time_of_day, width, height))
