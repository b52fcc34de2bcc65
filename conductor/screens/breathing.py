"""The page on which a person taps their breath, alone or over a rehearsal that waits."""

from collections.abc import Callable
from pathlib import Path
from typing import ClassVar

from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.screen import Screen

from conductor.breathing.session import Session
from conductor.screens.panes import Pane
from conductor.screens.themes import NAMES, THEMES
from conductor.screens.waves import picture
from conductor.settings import Settings
from conductor.sides import Breath
from conductor.view.breath import breath_view

EVERY_S = 1 / 10

Now = Callable[[], int]
"""The clock: ms, only ever going on."""


class BreathPage(Screen[None]):
    """A wave of the last minute and the figures as they settle; one key for each half breath."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,u,pageup", "press('in')", "Inhale", show=False),
        Binding("down,j,pagedown", "press('out')", "Exhale", show=False),
        Binding("space", "press('')", "Either", show=False),
        Binding("r", "anew", "Anew", show=False),
        Binding("enter,q,escape,ctrl+c,ctrl+q", "done", "Done", show=False),
    ]
    AUTO_FOCUS = ""

    def __init__(self, session: Session, now: Now) -> None:
        super().__init__()
        self._session = session
        self._now = now
        self._pane = Pane(id="breath")

    def compose(self) -> ComposeResult:
        """One pane; nothing takes the focus, so keys are taps."""
        yield self._pane

    def on_mount(self) -> None:
        """Draw ten times a second; a tap is timed when its key comes, not when it is drawn."""
        self.set_interval(EVERY_S, self.draw)
        self.call_after_refresh(self.draw)

    def draw(self) -> None:
        """Show the sitting as it is now."""
        now = self._now()
        view = breath_view(self._session, now)
        self._pane.show(lambda width, height: picture(view, now, width, height))

    def action_press(self, breath: str) -> None:
        """A turn of the breath, now."""
        self._session.press(self._now(), Breath(breath) if breath else None)
        self.draw()

    def action_anew(self) -> None:
        """Forget what was tapped."""
        self._session.begin_anew()
        self.draw()

    def action_done(self) -> None:
        """Close the page; what was tapped stays with whoever opened it."""
        self.dismiss()


class BreathApp(App[None]):
    """The page alone."""

    CSS_PATH: ClassVar[Path] = Path(__file__).with_name("conductor.tcss")
    TITLE = "Conductor"
    ENABLE_COMMAND_PALETTE = False

    def __init__(self, session: Session, now: Now, settings: Settings) -> None:
        super().__init__()
        self._page = BreathPage(session, now)
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = settings.theme if settings.theme in NAMES else NAMES[0]

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The names of our palettes, so that a theme from elsewhere can be drawn in too."""
        return THEMES[0].variables

    def on_mount(self) -> None:
        """Show the page, and leave with it."""
        self.push_screen(self._page, lambda _: self.exit())
