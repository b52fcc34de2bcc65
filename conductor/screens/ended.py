"""After the class: how it went."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import Screen
from textual.widgets import Static

from conductor.view.after import Went
from conductor.view.clean import clean


class Ended(Screen[None]):
    """Time led against planned, what was left out, and the two sides."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space,q,ctrl+c", "app.leave", "Close", show=False),
    ]
    AUTO_FOCUS = ""

    def __init__(self, title: str, went: Went) -> None:
        super().__init__()
        self._title = clean(title)
        self._went = went

    def compose(self) -> ComposeResult:
        """A heading and the lines."""
        with VerticalScroll(id="overview"):
            yield Static(self._title, classes="title", markup=False)
            yield Static("How it went", classes="heading", markup=False)
            yield Static("\n".join(self._went.lines), markup=False)
        yield Static("Enter closes.", classes="hint", markup=False)
