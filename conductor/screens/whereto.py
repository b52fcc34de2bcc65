"""Where to: the places of a class in a list that narrows as one types."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from conductor.score.model import Score
from conductor.view.whereto import Place, likeliest, matching, places

NOTHING = "Nothing here has that name. Type fewer letters, or part of a shape's or a part's name."


class WhereTo(ModalScreen[str]):
    """Gives the id of the moment that was picked; Escape goes back to the class."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,ctrl+c,ctrl+q", "give_up", "Back", show=False),
        Binding("down,pagedown", "move(1)", "Down", show=False, priority=True),
        Binding("up,pageup", "move(-1)", "Up", show=False, priority=True),
    ]

    def __init__(self, score: Score, index: int) -> None:
        super().__init__()
        self._all = places(score)
        self._index = index
        self._shown: tuple[Place, ...] = ()

    def compose(self) -> ComposeResult:
        """What is typed, the places, and how to choose."""
        with Vertical(classes="sheet whereto"):
            yield Static("Go to", classes="title", markup=False)
            yield Input(placeholder="a shape or a part: warrior left, stand", id="typed")
            yield OptionList(id="places", markup=False)
            yield Static("", id="none", markup=False)
            yield Static(
                "Enter goes there.  ↑ ↓ choose.  Escape goes back to the class.",
                classes="closing",
                markup=False,
            )

    def on_mount(self) -> None:
        """Show all places, the next one chosen."""
        self._fill("")
        self.query_one(Input).focus()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Narrow the list."""
        self._fill(event.value)

    def _fill(self, text: str) -> None:
        self._shown = matching(self._all, text)
        listed = self.query_one(OptionList)
        listed.clear_options()
        width = max((len(one.at) for one in self._shown), default=0)
        listed.add_options([Option(line(one, width)) for one in self._shown])
        listed.highlighted = likeliest(self._shown, text, self._index)
        listed.display = bool(self._shown)
        self.query_one("#none", Static).update("" if self._shown else NOTHING)

    def action_move(self, step: int) -> None:
        """Choose the one before or after."""
        listed = self.query_one(OptionList)
        if step > 0:
            listed.action_cursor_down()
        else:
            listed.action_cursor_up()

    def on_input_submitted(self) -> None:
        """Go to the one that is chosen."""
        chosen = self.query_one(OptionList).highlighted
        if chosen is not None:
            self.dismiss(self._shown[chosen].moment)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """As Enter."""
        self.dismiss(self._shown[event.option_index].moment)

    def action_give_up(self) -> None:
        """Back to the class."""
        self.dismiss("")


def line(place: Place, width: int) -> str:
    """One place: its time, what is there, and where; a part stands out at the left."""
    at = place.at.rjust(width)
    return f"{at}  {place.words}" if place.heads else f"{at}    {place.words}  ·  {place.where}"
