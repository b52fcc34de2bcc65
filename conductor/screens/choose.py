"""Choosing a plan, and waiting while it is read."""

from collections.abc import Sequence
from contextlib import suppress
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import Screen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option, OptionDoesNotExist

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
        Binding("slash", "search", "Search", show=False),
        Binding("escape", "all", "All plans", show=False),
    ]

    class Chosen(Message):
        """A plan was chosen."""

        def __init__(self, key: str) -> None:
            super().__init__()
            self.key = key

    def __init__(self) -> None:
        super().__init__()
        self._entries: dict[str, Entry] = {}

    def compose(self) -> ComposeResult:
        """A heading, the list, a line of keys."""
        yield Static("Which class?", classes="title", markup=False)
        yield Static("Reading the plans ...", id="told", markup=False)
        yield Input(placeholder="part of a name, a length, whom it is for", id="search")
        yield OptionList(id="plans", markup=False)
        keys = "Enter opens a plan.  / searches.  q leaves."
        yield Static(keys, classes="hint", markup=False)

    def on_mount(self) -> None:
        """There is nothing to be searched yet."""
        self.query_one("#search").display = False

    def fill(self, entries: Sequence[Entry], trouble: str = "") -> None:
        """Show the plans, or what kept them from being read."""
        if not self.is_attached:
            return
        self._entries = {entry.key: entry for entry in entries}
        told = "" if entries else "There is no plan here yet. `conductor new` writes a first one."
        self.query_one("#told", Static).update(clean(trouble) or told)
        self._show()
        self.query_one(OptionList).focus()

    def read(self, entry: Entry) -> None:
        """Show what is known of one of them now; the place in the list stays."""
        if not self.is_attached or entry.key not in self._entries:
            return
        self._entries[entry.key] = entry
        plans = self.query_one(OptionList)
        with suppress(OptionDoesNotExist):  # it is not among those searched for
            plans.replace_option_prompt(entry.key, self._text(entry))

    def _text(self, entry: Entry) -> str:
        """One plan in two lines; two of one title are told apart by their files."""
        alike = [one for one in self._entries.values() if one.title == entry.title]
        return entry_text(entry, by_file=len(alike) > 1)

    def _show(self) -> None:
        """List the plans searched for, all of them where nothing is."""
        wanted = self.query_one(Input).value
        plans = self.query_one(OptionList)
        shown = [entry for entry in self._entries.values() if sought(entry, wanted)]
        plans.clear_options()
        plans.add_options([Option(self._text(entry), id=entry.key) for entry in shown])
        if shown:
            plans.highlighted = 0
        if self._entries:
            none = "" if shown else "No plan is found by these words. Escape shows all."
            self.query_one("#told", Static).update(none)

    def action_search(self) -> None:
        """Take words to search by."""
        search = self.query_one(Input)
        search.display = True
        search.focus()

    def action_all(self) -> None:
        """Show all plans again."""
        search = self.query_one(Input)
        search.value = ""
        search.display = False
        self.query_one(OptionList).focus()

    def on_input_changed(self) -> None:
        """Search as the words are typed."""
        self._show()

    def on_input_submitted(self) -> None:
        """Go to what was found."""
        self.query_one(OptionList).focus()

    def action_forward(self, step: int) -> None:
        """Move by one with a remote's keys."""
        plans = self.query_one(OptionList)
        if step > 0:
            plans.action_cursor_down()
        else:
            plans.action_cursor_up()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Hand on which plan was chosen."""
        if event.option_id is not None:
            self.post_message(self.Chosen(event.option_id))


def sought(entry: Entry, words: str) -> bool:
    """Whether every word stands somewhere in what is shown of a plan, or in its file's name."""
    text = f"{entry_text(entry)} {entry.file}".casefold()
    return all(word in text for word in words.casefold().split())


def entry_text(entry: Entry, *, by_file: bool = False) -> str:
    """One plan in two lines: its title, then length, for whom, when last, what the check says."""
    title = f"{clean(entry.title)}  ({clean(entry.file)})" if by_file else clean(entry.title)
    if entry.problem:
        return f"{title}\n  ✗ {clean(entry.problem)}"
    errors = f"✗ {count(entry.errors, 'error')}" if entry.errors else ""
    warnings = f"! {count(entry.warnings, 'warning')}" if entry.warnings else ""
    length = span(entry.length_ms) if entry.length_ms else "" if entry.read else "..."
    about = [length, clean(entry.kind), clean(entry.for_), entry.led, errors, warnings]
    return f"{title}\n  {'  ·  '.join(words for words in about if words)}"
