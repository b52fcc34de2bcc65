"""What lies over another screen: help, a question, findings. The keys beneath do not fire."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from conductor.view.actions import table
from conductor.view.clean import clean


class Sheet(ModalScreen[None]):
    """Text to read, closed with Escape, Enter or a question mark."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter,question_mark,q", "dismiss", "Close", show=False),
    ]

    def __init__(self, title: str, text: str) -> None:
        super().__init__()
        self._title = clean(title)
        self._text = "\n".join(clean(line) for line in text.split("\n"))

    def compose(self) -> ComposeResult:
        """A heading, the text, and how to close it."""
        with VerticalScroll(classes="sheet"):
            yield Static(self._title, classes="title", markup=False)
            yield Static(self._text, markup=False)
            yield Static("Escape or Enter closes this.", classes="hint", markup=False)

    async def action_dismiss(self, result: None = None) -> None:
        """Close it."""
        self.dismiss(result)


class Help(Sheet):
    """Keys and what they do, from the table of actions."""

    def __init__(self) -> None:
        super().__init__("Keys in class", help_text())


def help_text() -> str:
    """The table of actions as aligned lines."""
    rows = [*table(), ("?", "Help", "This page."), ("Ctrl+P", "All commands", "Find by name.")]
    keys = max(len(row[0]) for row in rows)
    labels = max(len(row[1]) for row in rows)
    lines = [f"{key.ljust(keys)}  {label.ljust(labels)}  {text}" for key, label, text in rows]
    remote = (
        "A presenter remote works: Page Down next, Page Up back, full stop silence, start hold."
    )
    return "\n".join([*lines, "", remote, "Escape and F5 never end a class."])


class Ask(ModalScreen[bool]):
    """A question: y says yes; n, Escape or anything of a remote says no."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y", "answer(True)", "Yes", show=False),
        Binding("n,escape,space,f5,pageup,pagedown", "answer(False)", "No", show=False),
    ]

    def __init__(self, question: str) -> None:
        super().__init__()
        self._question = question

    def compose(self) -> ComposeResult:
        """The question and its two answers."""
        with VerticalScroll(classes="sheet ask"):
            yield Static(self._question, classes="title", markup=False)
            yield Static("y  yes        n  no, go on with the class", markup=False)

    def action_answer(self, yes: bool) -> None:
        """Close with the answer."""
        self.dismiss(yes)
