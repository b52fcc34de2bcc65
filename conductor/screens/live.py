"""The class as it is led, and the class stopped."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.screen import ModalScreen, Screen

from conductor.screens import paint
from conductor.screens.panes import BreathBar, Pane
from conductor.view.actions import ACTIONS
from conductor.view.model import View

CLASS_KEYS: list[BindingType] = [
    *(
        Binding(
            ",".join(dict.fromkeys((*action.keys, *action.remote))),
            f"app.act('{action.id}')",
            action.label,
            show=False,
            id=f"class.{action.id.replace(' ', '-')}",
            tooltip=action.help,
        )
        for action in ACTIONS
    ),
    Binding("question_mark,f1,i", "app.show_help", "Help", show=False, id="class.help"),
]

STEP = 250  # per mille: without motion the bar moves four times in a half breath


class Live(Screen[None]):
    """The shape now and next, the breath with its bar, the time, the words to say."""

    BINDINGS: ClassVar[list[BindingType]] = CLASS_KEYS
    AUTO_FOCUS = ""

    def __init__(self, motion: bool, voiced: bool) -> None:
        super().__init__()
        self._motion = motion
        self._voiced = voiced
        self._last: View | None = None
        self._still: View | None = None

    def compose(self) -> ComposeResult:
        """Panes from top to bottom; nothing takes the focus, so keys go to the class."""
        yield Pane(id="header")
        yield Pane(id="stage")
        yield Pane(id="band")
        yield BreathBar(id="bar")
        yield Pane(id="prompter")
        yield Pane(id="foot")

    def show(self, view: View) -> None:
        """Draw what changed."""
        fraction = view.fraction if self._motion else view.fraction // STEP * STEP
        self.query_one("#bar", BreathBar).show(fraction, view.breath)
        still = paint.still(view)
        if still == self._still:
            return
        self._still = still
        large = view.quiet or not self._voiced
        self.set_class(large, "voiceless")
        panes = {
            "header": lambda width, _: paint.header(still, width),
            "stage": lambda width, height: paint.stage(still, width, height),
            "band": lambda width, height: paint.band(still, width, height),
            "prompter": lambda width, height: paint.prompter(still, width, height, large),
            "foot": lambda width, _: paint.foot(still, width),
        }
        for name, painted in panes.items():
            self.query_one(f"#{name}", Pane).show(painted)


class Stopped(ModalScreen[None]):
    """The class waits: STOPPED, the clock, and how to go on; in silence only the first two."""

    BINDINGS: ClassVar[list[BindingType]] = CLASS_KEYS
    AUTO_FOCUS = ""

    def compose(self) -> ComposeResult:
        """One pane over the whole screen."""
        yield Pane(id="stopped")

    def show(self, view: View, time_of_day: str) -> None:
        """Draw what changed."""
        still = paint.still(view)
        self.query_one(Pane).show(
            lambda width, height: paint.stopped(still, time_of_day, width, height)
        )
