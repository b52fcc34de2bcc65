"""A class to read through before it begins, while the voice gets ready."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.message import Message
from textual.screen import Screen
from textual.widgets import Static

from conductor.screens.board import progress_row
from conductor.screens.panes import Pane
from conductor.screens.wiring import Prepared
from conductor.view.before import DISCLAIMER, going_on, overview
from conductor.view.clean import clean
from conductor.view.machine import Fact

MACHINE = "The machine"


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

    def __init__(self, prepared: Prepared, advice: str, troubles: tuple[str, ...] = ()) -> None:
        super().__init__()
        self.prepared = prepared
        self._advice = advice
        self._troubles = troubles
        self.ready = False
        self._now = Static("", id="begin-now", markup=False)
        self._now.display = False  # until there is something to say
        self._machine = Static("", id="machine", markup=False)
        self._news = self._amiss = ""

    def compose(self) -> ComposeResult:
        """The overview above, the voice's progress and the keys below."""
        view = overview(self.prepared.score)
        with VerticalScroll(id="overview"):
            yield Static(view.title, classes="title", markup=False)
            yield Static(view.summary, markup=False)
            if self.prepared.goes_on:
                going = going_on(self.prepared.score, self.prepared.goes_on)
                yield Static(going, markup=False)
            yield self._now
            for heading, text in self._blocks():
                yield Static(heading, classes="heading", markup=False)
                yield Static(text, markup=False)
            yield Static(MACHINE, classes="heading", markup=False)
            yield self._machine
        yield Pane(id="progress")
        yield Static("", id="told", markup=False)
        keys = "Enter opens the class.  t sound test.  ↑ ↓ scroll.  Escape goes back."
        yield Static(keys, classes="hint", markup=False)

    def _blocks(self) -> list[tuple[str, str]]:
        view = overview(self.prepared.score)
        width = max((len(name) for name, _ in view.parts), default=0)
        cautions = "\n".join(f"{words}: {names}" for words, names in view.cautions)
        findings = "\n".join(clean(line) for line in self.prepared.findings.split("\n"))
        settings = "\n".join(clean(line) for line in self._troubles)
        blocks = [
            ("Settings left out", settings),
            ("Parts", "\n".join(f"{name.ljust(width)}  {length}" for name, length in view.parts)),
            ("As last time", _as_last_time(self.prepared.as_last_time)),
            ("Props", ", ".join(view.props)),
            ("The check says", findings),
            ("Take care with", "\n\n".join(words for words in (DISCLAIMER, cautions) if words)),
            ("Ways", _ways(view.ways)),
            ("Out of sight", view.unseen),
            ("Letters", self._advice),
        ]
        return [block for block in blocks if block[1]]

    def progress(self, done: int, total: int) -> None:
        """How far the voice is."""
        if self.is_attached:
            self.query_one("#progress", Pane).show(
                lambda width, _: progress_row(done, total, width)
            )

    def begin_now(self, words: str) -> None:
        """What beginning now would change; it is found out again while the page is read."""
        if self.is_attached:
            self._now.update(clean(words))
            self._now.display = bool(words)

    def machine(self, states: Sequence[Fact]) -> None:
        """How sound, sleep and power are; it is looked at again while the page is read."""
        if self.is_attached:
            self._machine.update("\n".join(clean(one.line) for one in states))
        self._amiss = ", ".join(one.what.lower() for one in states if not one.well)
        self.tell(self._news)

    def prepared_with(self, trouble: str) -> None:
        """The voice is ready, or what the matter is."""
        self.ready = True
        self.tell(clean(trouble) or "The voice is ready.")

    def tell(self, words: str) -> None:
        """One line of news, and what of the machine is not well: that stands further below."""
        self._news = words
        amiss = f" Read below, {MACHINE}: {self._amiss}." if self._amiss else ""
        if self.is_attached:
            self.query_one("#told", Static).update(f"{words}{amiss}".strip())

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


def _ways(ways: tuple[str, ...]) -> str:
    """The other ways a plan has, and how they are chosen."""
    names = ", ".join(("as written", *ways))
    return f"{names}.  In class w goes on to the next of them." if ways else ""


def _as_last_time(words: str) -> str:
    return f"{clean(words)}.  `--afresh` leads without." if words else ""
