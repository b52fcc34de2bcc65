"""Choosing a plan, and waiting while it is read."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from conductor.screens.wiring import Entry
from conductor.view.clean import clean
from conductor.view.spell import count, span


class Waiting(Screen[None]):
    """What is being opened: the first picture, while the plan is read, compiled and checked."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("q", "app.leave", "Leave", show=False)]
    AUTO_FOCUS = ""

    def __init__(self, name: str) -> None:
        super().__init__()
        self._name_shown = clean(name)

    def compose(self) -> ComposeResult:
        """The name, what is going on, a line of keys."""
        yield Static(self._name_shown, classes="title", markup=False)
        yield Static("Reading the plan ...", id="told", markup=False)
        yield Static("q leaves.", classes="hint", markup=False)


class Choose(Screen[None]):
    """The plans there are, with their lengths and what the check says of each."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("q", "app.leave", "Leave", show=False),
        Binding("question_mark,f1", "app.show_help", "Help", show=False),
        Binding("pagedown", "forward(1)", "Down", show=False),
        Binding("pageup", "forward(-1)", "Up", show=False),
    ]

    class Chosen(Message):
        """A plan was chosen."""

        def __init__(self, key: str) -> None:
            super().__init__()
            self.key = key

    def __init__(self) -> None:
        super().__init__()
        self._entries: Sequence[Entry] = ()

    def compose(self) -> ComposeResult:
        """A heading, the list, a line of keys."""
        yield Static("Which class?", classes="title", markup=False)
        yield Static("Reading the plans ...", id="told", markup=False)
        yield OptionList(id="plans", markup=False)
        yield Static("Enter opens a plan.  q leaves.", classes="hint", markup=False)

    def fill(self, entries: Sequence[Entry], trouble: str = "") -> None:
        """Show the plans, or what kept them from being read."""
        if not self.is_attached:
            return
        self._entries = entries
        plans = self.query_one(OptionList)
        plans.clear_options()
        plans.add_options([Option(entry_text(entry)) for entry in entries])
        told = "" if entries else "There is no plan here yet. `conductor new` writes a first one."
        self.query_one("#told", Static).update(clean(trouble) or told)
        plans.focus()
        if entries:
            plans.highlighted = 0

    def action_forward(self, step: int) -> None:
        """Move by one with a remote's keys."""
        plans = self.query_one(OptionList)
        if step > 0:
            plans.action_cursor_down()
        else:
            plans.action_cursor_up()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Hand on which plan was chosen."""
        self.post_message(self.Chosen(self._entries[event.option_index].key))


def entry_text(entry: Entry) -> str:
    """One plan in two lines: its title, then length and kind and what the check says."""
    if entry.problem:
        return f"{clean(entry.title)}\n  ✗ {clean(entry.problem)}"
    errors = f"✗ {count(entry.errors, 'error')}" if entry.errors else ""
    warnings = f"! {count(entry.warnings, 'warning')}" if entry.warnings else ""
    length = span(entry.length_ms) if entry.length_ms else ""
    about = [length, clean(entry.kind), errors, warnings]
    return f"{clean(entry.title)}\n  {'  ·  '.join(words for words in about if words)}"
