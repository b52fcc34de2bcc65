"""What lies over another screen: help, a question, findings. The keys beneath do not fire."""

from typing import ClassVar

from rich.table import Table
from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from conductor.engine.model import Do
from conductor.screens.live import bound
from conductor.view.actions import Action, table
from conductor.view.clean import clean

MORE = (("Ctrl+P", "All commands", "Find what can be done now by its name."),)
HOW_TO_CLOSE = "Escape or Enter closes this page. Escape and F5 never end a class."


class Sheet(ModalScreen[None]):
    """Text to read, closed with Escape, Enter, Space or a key that opens help.

    How to close it stands above the text: a small window shows only that, and the class goes on.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter,question_mark,q,i,f1,f5,space", "close", "Close", show=False),
        Binding("up,pageup", "scroll(-5)", "Up", show=False),
        Binding("down,pagedown", "scroll(5)", "Down", show=False),
    ]
    AUTO_FOCUS = ""

    def __init__(self, title: str, content: str | Table) -> None:
        super().__init__()
        self._title = clean(title)
        self._content = content

    def compose(self) -> ComposeResult:
        """A heading, the text, and how to close it."""
        content = self._content
        if isinstance(content, str):
            content = "\n".join(clean(line) for line in content.split("\n"))
        with VerticalScroll(classes="sheet"):
            yield Static(self._title, classes="title", markup=False)
            yield Static(HOW_TO_CLOSE, classes="how", markup=False)
            yield Static(content, markup=False)

    def action_close(self) -> None:
        """Close it."""
        self.dismiss()

    def action_scroll(self, rows: int) -> None:
        """Move the text."""
        self.query_one(VerticalScroll).scroll_relative(y=rows, animate=False)


def silencing(actions: tuple[Action, ...]) -> tuple[Action, ...]:
    """What must be heeded whatever lies over the class."""
    return tuple(action for action in actions if action.do is Do.SILENCE)


class Help(Sheet):
    """Keys and what they do, from the table of actions."""

    def __init__(self, actions: tuple[Action, ...]) -> None:
        super().__init__("Keys in class", help_table(actions))
        self._bindings = bound(self._bindings, silencing(actions))


def help_table(actions: tuple[Action, ...]) -> Table:
    """The table of actions, its texts wrapped in their columns."""
    grid = Table.grid(padding=(0, 2, 0, 0))
    grid.add_column(no_wrap=True)
    grid.add_column(no_wrap=True)
    grid.add_column()
    for row in (*table(actions), *MORE):
        grid.add_row(*(Text(cell) for cell in row))
    return grid


class Offered(ModalScreen[bool]):
    """A class that broke off: Enter or a remote's next key goes on with it, n leaves it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,y,pagedown", "answer(True)", "Go on with it", show=False),
        Binding("n,escape,pageup", "answer(False)", "Leave it", show=False),
        Binding("q", "app.leave", "Leave", show=False),
    ]

    def __init__(self, words: str, otherwise: str) -> None:
        super().__init__()
        self._words = words
        self._otherwise = otherwise

    def compose(self) -> ComposeResult:
        """What broke off and where, and the two answers."""
        with VerticalScroll(classes="sheet"):
            yield Static("Go on where you were?", classes="title", markup=False)
            yield Static(clean(self._words), markup=False)
            keys = f"Enter goes on with it.   {self._otherwise}"
            yield Static(keys, classes="closing", markup=False)

    def action_answer(self, yes: bool) -> None:
        """Close with the answer."""
        self.dismiss(yes)


class Ask(ModalScreen[bool]):
    """A question: y says yes; n, Escape or anything of a remote says no."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y", "answer(True)", "Yes", show=False),
        Binding("n,escape,space,f5,pageup,pagedown", "answer(False)", "No", show=False),
    ]

    def __init__(self, question: str, actions: tuple[Action, ...]) -> None:
        super().__init__()
        self._bindings = bound(self._bindings, silencing(actions))
        self._question = question

    def compose(self) -> ComposeResult:
        """The question and its two answers."""
        with VerticalScroll(classes="sheet ask"):
            yield Static(self._question, classes="title", markup=False)
            yield Static("y  yes        n  no, go on with the class", markup=False)

    def action_answer(self, yes: bool) -> None:
        """Close with the answer."""
        self.dismiss(yes)
