"""The app: which screen is shown, one timer, the commands. It draws a class and leads none."""

import os
from collections.abc import Callable, Iterable, Mapping
from typing import ClassVar

from textual.app import SystemCommand
from textual.screen import Screen
from textual.timer import Timer

from conductor.engine.model import Command, Do, Snapshot, State
from conductor.screens.doorway import Doorway
from conductor.screens.ended import Ended
from conductor.screens.live import Live, Stopped
from conductor.screens.overlays import Ask, Help
from conductor.screens.themes import NAMES, THEMES
from conductor.screens.whereto import WhereTo
from conductor.screens.wiring import Ending, How, Offering, Opening, Prepared, Shelf, TimeOfDay
from conductor.settings import Settings
from conductor.values import replace
from conductor.view.actions import BY_ID, command, named_ways, offered, pressed
from conductor.view.clean import clean
from conductor.view.leading import Leading
from conductor.view.look import look
from conductor.view.model import View
from conductor.view.rehearsing import IDS, REHEARSAL, Rehearsing, ask

MOVING = 1 / 20  # seconds between pictures; the bar glides at this rate (1.3 % CPU, measured)
STILL = 1 / 10
BENEATH = 1 / 4  # under a question; whatever is drawn there has the whole terminal drawn (measured)


class ConductorApp(Doorway):
    """Screens for a shelf of plans, for one plan made ready, or for a class already going."""

    TITLE = "Conductor"
    ESCAPE_TO_MINIMIZE: ClassVar[bool] = False

    def __init__(
        self,
        settings: Settings,
        time_of_day: TimeOfDay,
        *,
        shelf: Shelf | None = None,
        opening: Opening | None = None,
        prepared: Prepared | None = None,
        leading: Leading | None = None,
        offering: Offering | None = None,
    ) -> None:
        if os.environ.get("NO_COLOR") == "":
            del os.environ["NO_COLOR"]  # set but empty asks for nothing
        super().__init__(settings, time_of_day, shelf, opening, prepared, leading, offering)
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = settings.theme if settings.theme in NAMES else NAMES[0]
        self._ended_by_hand = False
        self._rehearsing: Rehearsing | None = None
        self._live: Live | None = None
        self._stopped: Stopped | None = None
        self._timer: Timer | None = None
        self._ticks = 0

    @property
    def motion(self) -> bool:
        """Whether anything may glide."""
        return self.settings.motion and os.environ.get("TEXTUAL_ANIMATIONS", "") != "none"

    @property
    def _every(self) -> float:
        """Seconds between two looks at the class."""
        return MOVING if self.motion else STILL

    def get_theme_variable_defaults(self) -> dict[str, str]:
        """The names of our palettes, so that a theme from elsewhere can be drawn in too."""
        return THEMES[0].variables

    def on_mount(self) -> None:
        """Install help once, and show the first screen."""
        self.install_screen(Help(self.wishes.actions), "help")
        self._enter()
        self._timer = self.set_interval(self._every, self.tick)

    # in class

    def _lead(self, leading: Leading, voiced: bool | None = None) -> None:
        if voiced is None:
            voiced = self.settings.sound and self.settings.speak
        self._live = Live(self.motion, voiced, self.wishes.actions)
        self.leading = leading
        self._rehearsing = leading if isinstance(leading, Rehearsing) else None
        self.push_screen(self._live)
        self.call_after_refresh(self.tick)

    def tick(self) -> None:
        """Show the class as it is now; the clock is read, ticks are never counted."""
        if self.leading is None or self._live is None or not self._live.is_mounted:
            return
        if not self.screen_stack:
            return  # the screens are closing
        snapshot = self.leading.snapshot()
        if snapshot.state is State.FINISHED:
            self._finish()
            return
        self._show_stopped(snapshot.state is State.STOPPED)
        if self._seen():
            self._show(snapshot)

    def _seen(self) -> bool:
        """Whether the class is to be drawn: seldom beneath a question, not at all beneath help."""
        if isinstance(self.screen, Ask):
            self._ticks += 1
            return self._ticks % round(BENEATH / self._every) == 0
        return isinstance(self.screen, Live | Stopped)

    def _show(self, snapshot: Snapshot) -> None:
        if self.leading is None or self._live is None:
            return
        now = self.leading.now()
        view = self._look(snapshot, now)
        if self._stopped is None:
            self._live.show(view, self.seat.need, moving=self.screen is self._live)
        elif self._stopped.is_mounted:
            self._stopped.show(view, self._time_of_day())

    def _look(self, snapshot: Snapshot, now: int) -> View:
        trouble = self.leading.trouble() if self.leading else ""
        view = look(snapshot, now, trouble, self.wishes.actions)
        if self._rehearsing:
            view = replace(view, beside=self._rehearsing.standing())
        mirror = self.wishes.glass.now
        if not mirror.on:
            return view
        from conductor.view.mirror import shown  # noqa: PLC0415 -- not before a picture

        return shown(view, mirror)

    def _show_stopped(self, stopped: bool) -> None:
        """Lay the stopped screen over the class, or take it away, beneath any question."""
        if stopped and self._stopped is None and self.screen is self._live:
            self._stopped = Stopped(self.wishes.actions)
            self.push_screen(self._stopped)
        elif not stopped and self._stopped and self.screen is self._stopped:
            self._stopped = None
            self.pop_screen()

    def _finish(self) -> None:
        leading, self._live, self._stopped = self.leading, None, None
        if leading is None:
            return
        snapshot = leading.snapshot()
        while len(self.screen_stack) > 1:
            self.pop_screen()
        screen = Ended(snapshot.score.meta.title)
        self.push_screen(screen)
        self.call_after_refresh(self._aside, lambda: self._tell_after(screen, leading))

    def _tell_after(self, screen: Ended, leading: Leading) -> None:
        try:
            page = leading.after()
        except Exception as error:  # noqa: BLE001 -- the class is over, and was led
            self._back(screen.tell, f"How it went cannot be told: {type(error).__name__}: {error}")
            return
        self._back(screen.show, page)

    def action_act(self, name: str) -> None:
        """Do an action of the table; one that asks is asked first."""
        if self.leading is None or self._live is None:
            return
        if name in self._own:
            self._own[name]()
            return
        action, snapshot = BY_ID[name], self.leading.snapshot()
        if action.picks:
            self.push_screen(WhereTo(snapshot.score, snapshot.index), self._go_to)
        elif not action.asks:
            self.leading.post(pressed(action, snapshot))
        elif snapshot.state is State.READY:
            self.exit(Ending(How.LEFT, self.leading))
        else:
            self.push_screen(Ask(action.asks, self.wishes.actions), self._end_if)

    def _go_to(self, moment: str | None) -> None:
        if moment and self.leading:
            self.leading.post(Command(Do.GO_TO, word=moment))

    def _end_if(self, yes: bool | None) -> None:
        if yes and self.leading:
            self._ended_by_hand = True
            self.leading.post(command(BY_ID["end"], self.leading.snapshot()))

    @property
    def _own(self) -> Mapping[str, Callable[[], None]]:
        """What the screens do by themselves, by the action's id."""
        asked = {name: self._asking(name) for name in IDS} | {"your breath": self._measure_breath}
        own = {
            "help": self.action_show_help,
            "colours": self._other_colours,
            "mirror": self._turn_mirror,
        }
        return {**asked, **own}

    def _measure_breath(self) -> None:
        """The page of one's own breath, over a rehearsal that waits meanwhile."""
        if self._rehearsing is None:
            return
        from conductor.screens.breathing import BreathPage  # noqa: PLC0415 -- not before a picture

        self._rehearsing.post(Command(Do.STOP))
        self.push_screen(BreathPage(*self._rehearsing.sitting()))

    def _asking(self, name: str) -> Callable[[], None]:
        return lambda: ask(self._rehearsing, name) if self._rehearsing else None

    def _turn_mirror(self) -> None:
        """The teacher turns to the class, or away from it."""
        self.wishes.glass.turn()

    def _other_colours(self) -> None:
        """The next set of colours; the room got lighter or darker."""
        self.theme = NAMES[(NAMES.index(self.theme) + 1) % len(NAMES)]

    def action_show_help(self) -> None:
        """Help, installed once."""
        if not isinstance(self.screen, Help):
            self.push_screen("help")

    # leaving

    async def action_quit(self) -> None:
        """Ctrl+Q: in class a question comes first."""
        self.action_leave()

    def action_help_quit(self) -> None:
        """Ctrl+C, as Ctrl+Q."""
        self.action_leave()

    def action_leave(self) -> None:
        """Close the screens; a class that is going is asked for first, and once."""
        if self._live is not None:
            if not isinstance(self.screen, Ask):
                self.action_act("end")
            return
        self.exit(self.ending())

    def hung_up(self) -> None:
        """Close the screens, their terminal being gone; a class that has begun goes on without."""
        begun = self.leading is not None and self.leading.snapshot().state is not State.READY
        gone = Ending(How.DIED, self.leading, "the terminal was closed")
        self.exit(gone if begun else Ending(How.LEFT, self.leading))

    def ending(self) -> Ending:
        """How it ended, as far as the app can tell."""
        if self.leading is None:
            return Ending(How.LEFT)
        return Ending(How.ENDED if self._ended_by_hand else How.FINISHED, self.leading)

    # the palette

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:  # noqa: ARG002
        """Only what the class would accept now, and help; outside class help and leaving."""
        if self.leading and self._live:
            snapshot = self.leading.snapshot()
            for action in offered(snapshot, self.wishes.actions):
                yield SystemCommand(action.label, action.help, self._doing(action.id))
            for action in REHEARSAL if self._rehearsing else ():
                yield SystemCommand(action.label, action.help, self._doing(action.id))
            for name in named_ways(snapshot):
                words = "Show and say the way of this name where the plan has one."
                yield SystemCommand(f"Ways: {clean(name)}", words, self._in_a_way(name))
            mirror = BY_ID["mirror"]
            yield SystemCommand(mirror.label, mirror.help, self._doing(mirror.id))
        else:
            yield SystemCommand("Leave", "Close Conductor.", self.action_leave)
        yield SystemCommand("Help", "The keys in class.", self.action_show_help)
        for name in NAMES:
            yield SystemCommand(f"Colours: {name}", "Draw in these.", self._colouring(name))

    def _in_a_way(self, name: str) -> Callable[[], None]:
        return lambda: self.leading.post(Command(Do.LEVEL, word=name)) if self.leading else None

    def _doing(self, name: str) -> Callable[[], None]:
        return lambda: self.action_act(name)

    def _colouring(self, name: str) -> Callable[[], None]:
        return lambda: setattr(self, "theme", name)
