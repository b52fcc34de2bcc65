"""The screens before a class: choose a plan, and read it through while the voice gets ready."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.message import Message
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from conductor.screens.board import progress_row
from conductor.screens.panes import Pane
from conductor.screens.wiring import Entry, Prepared
from conductor.view.before import DISCLAIMER, going_on, overview
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


class Before(Screen[None]):
    """A class to read through: length, parts, props, cautions, findings; then it may begin."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,space,pagedown", "begin", "Open the class", show=False),
        Binding("t", "test_sound", "Sound test", show=False),
        Binding("escape,pageup,backspace", "app.back_to_plans", "Back to the plans", show=False),
        Binding("q", "app.leave", "Leave", show=False),
        Binding("question_mark,f1", "app.show_help", "Help", show=False),
        Binding("up", "scroll(-3)", "Up", show=False),
        Binding("down", "scroll(3)", "Down", show=False),
    ]
    AUTO_FOCUS = ""

    class Begin(Message):
        """The class is to be opened."""

    class TestSound(Message):
        """A bell and a few words are to be heard."""

    def __init__(self, prepared: Prepared, advice: str) -> None:
        super().__init__()
        self.prepared = prepared
        self._advice = advice
        self.ready = False

    def compose(self) -> ComposeResult:
        """The overview above, the voice's progress and the keys below."""
        view = overview(self.prepared.score)
        with VerticalScroll(id="overview"):
            yield Static(view.title, classes="title", markup=False)
            yield Static(view.summary, markup=False)
            if self.prepared.goes_on:
                going = going_on(self.prepared.score, self.prepared.goes_on)
                yield Static(going, markup=False)
            for heading, text in self._blocks():
                yield Static(heading, classes="heading", markup=False)
                yield Static(text, markup=False)
        yield Pane(id="progress")
        yield Static("", id="told", markup=False)
        keys = "Enter opens the class.  t sound test.  ↑ ↓ scroll.  Escape goes back."
        yield Static(keys, classes="hint", markup=False)

    def _blocks(self) -> list[tuple[str, str]]:
        view = overview(self.prepared.score)
        width = max((len(name) for name, _ in view.parts), default=0)
        cautions = "\n".join(f"{words}: {names}" for words, names in view.cautions)
        findings = "\n".join(clean(line) for line in self.prepared.findings.split("\n"))
        blocks = [
            ("Parts", "\n".join(f"{name.ljust(width)}  {length}" for name, length in view.parts)),
            ("Props", ", ".join(view.props)),
            ("The check says", findings),
            ("Take care with", "\n\n".join(words for words in (DISCLAIMER, cautions) if words)),
            ("Letters", self._advice),
        ]
        return [block for block in blocks if block[1]]

    def progress(self, done: int, total: int) -> None:
        """How far the voice is."""
        if self.is_attached:
            self.query_one("#progress", Pane).show(
                lambda width, _: progress_row(done, total, width)
            )

    def prepared_with(self, trouble: str) -> None:
        """The voice is ready, or what the matter is."""
        self.ready = True
        self.tell(clean(trouble) or "The voice is ready.")

    def tell(self, words: str) -> None:
        """One line of news."""
        if self.is_attached:
            self.query_one("#told", Static).update(words)

    def action_begin(self) -> None:
        """Open the class once the voice is ready."""
        if self.ready:
            self.post_message(self.Begin())
        else:
            self.tell("The voice is still getting ready; the class can open after that.")

    def action_test_sound(self) -> None:
        """Ask for the sound test."""
        self.post_message(self.TestSound())

    def action_scroll(self, rows: int) -> None:
        """Move the overview."""
        self.query_one("#overview", VerticalScroll).scroll_relative(y=rows, animate=False)
