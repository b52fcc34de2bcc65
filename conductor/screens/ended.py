"""After the class: how it went, three things first."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import Screen
from textual.widgets import Static

from conductor.view.after import After
from conductor.view.clean import clean

KEYS = "Enter closes.  \u2191 \u2193 scroll."
AGAIN = "  `conductor review` shows this page again."


class Ended(Screen[None]):
    """Where the time went, the sides, one proposal; the figures below them."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space,q,ctrl+c", "app.leave", "Close", show=False),
        Binding("up", "scroll(-3)", "Up", show=False),
        Binding("down", "scroll(3)", "Down", show=False),
    ]
    AUTO_FOCUS = ""

    def __init__(self, title: str) -> None:
        super().__init__()
        self._title = clean(title)

    def compose(self) -> ComposeResult:
        """The title; the page follows once it has been counted."""
        with VerticalScroll(id="overview"):
            yield Static(self._title, classes="title", markup=False)
            yield Static("The class is over.", id="told", markup=False)
        yield Static(KEYS, classes="hint", markup=False)

    def show(self, page: After) -> None:
        """Lay the page out."""
        if not self.is_attached:
            return
        overview = self.query_one("#overview", VerticalScroll)
        self.query_one(".title", Static).update(clean(page.title))
        self.query_one("#told", Static).remove()
        self.query_one(".hint", Static).update(KEYS + AGAIN if page.kept else KEYS)
        for heading, rows in (*page.first, *((head, "\n".join(of)) for head, of in page.blocks)):
            overview.mount(Static(heading, classes="heading", markup=False))
            overview.mount(Static(rows, markup=False))

    def tell(self, words: str) -> None:
        """One line, where the page cannot be told."""
        if self.is_attached:
            self.query_one("#told", Static).update(clean(words))

    def action_scroll(self, rows: int) -> None:
        """Move the page."""
        self.query_one("#overview", VerticalScroll).scroll_relative(y=rows, animate=False)
