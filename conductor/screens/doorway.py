"""The way in: choosing a plan, reading it, getting it ready; on a thread whatever may take long."""

import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Thread
from traceback import format_exc
from typing import ClassVar

from textual.app import App
from textual.events import Resize

from conductor.screens.before import Before
from conductor.screens.choose import Choose, Waiting
from conductor.screens.overlays import Offered, Sheet
from conductor.screens.told import Seat, letters_told
from conductor.screens.wiring import (
    AS_USUAL,
    Ending,
    How,
    Offer,
    Offering,
    Opening,
    Prepared,
    Shelf,
    TimeOfDay,
    Wishes,
)
from conductor.settings import Settings
from conductor.terminal import told
from conductor.view.cell import cell_of
from conductor.view.leading import Leading

RECKONED_S = 20  # how old what is said of beginning now may be


class Doorway(App[Ending]):
    """The screens before a class; what leads on from them is `_lead`."""

    CSS_PATH: ClassVar[Path] = Path(__file__).with_name("conductor.tcss")
    wishes: Wishes = AS_USUAL

    def __init__(
        self,
        settings: Settings,
        time_of_day: TimeOfDay,
        shelf: Shelf | None,
        opening: Opening | None,
        prepared: Prepared | None,
        leading: Leading | None,
        offering: Offering | None,
    ) -> None:
        super().__init__()
        self.settings = settings
        self.leading = leading
        self._time_of_day = time_of_day
        self._shelf = shelf
        self._opening = opening
        self._prepared = prepared
        self._offering = offering
        self._opening_one = False
        self._pixels: float | None = None

    @property
    def seat(self) -> Seat:
        """From where the screen is read, in the window as it is now."""
        pixels = self._pixels or self.wishes.pixels
        far = self._prepared.distance_m if self._prepared else self.settings.view_distance_m
        return Seat(*self.size, cell_of(self.settings, pixels), far)

    def on_resize(self, event: Resize) -> None:
        """Take what the terminal tells of its pixels: a new size may be a larger font."""
        size = event.pixel_size
        self._pixels = size.height / event.size.height if size else told(0)

    def _enter(self) -> None:
        """Show the first screen there is something for."""
        if self.leading:
            self._lead(self.leading)
        elif self._prepared:
            self._get_ready(self._prepared)
        elif self._opening:
            self._open(self._opening)
        else:
            self._choose()

    def _lead(self, leading: Leading, voiced: bool | None = None) -> None:
        raise NotImplementedError

    def _open(self, opening: Opening) -> None:
        """Show at once what is waited for; nothing is read before that picture stands."""
        self.push_screen(Waiting(opening.name))
        self._looking_back(lambda: self._read_plan(opening))

    def _looking_back(self, then: Callable[[], None]) -> None:
        """Once the picture stands: offer a class that broke off, else do what was asked for."""
        self.call_after_refresh(self._aside, lambda: self._look_back(then))

    def _look_back(self, then: Callable[[], None]) -> None:
        try:
            offer = self._offering() if self._offering else None
        except Exception:  # noqa: BLE001 - a journal that cannot be read keeps nobody from a class
            os.write(2, format_exc().encode())
            offer = None
        if offer:
            self._back(self._offer, offer, then)
        else:
            then()

    def _offer(self, offer: Offer, then: Callable[[], None]) -> None:
        def answered(yes: bool | None) -> None:
            self._aside(lambda: self._go_on(offer, then) if yes else self._let_be(offer, then))

        self.push_screen(Offered(offer.words, offer.otherwise), answered)

    def _go_on(self, offer: Offer, then: Callable[[], None]) -> None:
        try:
            opened = offer.go_on()
        except Exception as error:  # noqa: BLE001 - it is told, and the screens go on
            os.write(2, format_exc().encode())
            opened = f"The class could not be taken up: {type(error).__name__}: {error}"
        self._back(self._taken_up, opened, then)

    def _let_be(self, offer: Offer, then: Callable[[], None]) -> None:
        with suppress(OSError):  # it is offered once more, that is all
            offer.let_go()
        then()

    def _taken_up(self, opened: Prepared | str, then: Callable[[], None]) -> None:
        """Get it ready; where it cannot be had, what was asked for comes after the reason."""
        if isinstance(opened, str):
            sheet = Sheet("This class cannot be taken up", opened)
            self.push_screen(sheet, lambda _: self._aside(then))
        else:
            self._get_ready(opened)

    def _read_plan(self, opening: Opening) -> None:
        try:
            opened = opening.open()
        except Exception as error:  # noqa: BLE001 - the terminal is told, with the screens closed
            os.write(2, format_exc().encode())  # into the log: the terminal has another by now
            opened = f"The plan could not be opened: {type(error).__name__}: {error}"
        self._back(self._opened, opened)

    def _opened(self, opened: Prepared | str) -> None:
        """Go on to the class, or leave with why there is none."""
        if isinstance(opened, str):
            self.exit(Ending(How.REFUSED, error=opened))
            return
        while len(self.screen_stack) > 1:
            self.pop_screen()
        self._get_ready(opened)

    def _choose(self) -> None:
        screen = Choose()
        self.push_screen(screen)
        self._looking_back(lambda: self._read_shelf(screen))

    def _read_shelf(self, screen: Choose) -> None:
        """List the plans at once, then read them one after the other, those led last first."""
        if self._shelf is None:
            return
        try:
            entries = self._shelf.plans()
            self._back(screen.fill, entries)
            for entry in entries:
                if not entry.read:
                    self._back(screen.read, self._shelf.entry(entry.key))
        except Exception as error:  # noqa: BLE001 - the screen says so and can be left
            self._back(screen.fill, (), f"The plans could not be read: {error}")

    def _aside(self, work: Callable[[], None]) -> None:
        """Do slow work on a thread that neither blocks the picture nor holds up leaving."""
        Thread(target=work, daemon=True).start()

    def _back(self, call: Callable[..., None], *values: object) -> None:
        """Hand a result back to the screens, if they are still there; never waits for them."""
        with suppress(RuntimeError):  # their loop is closed
            self.call_later(call, *values)

    def on_choose_chosen(self, event: Choose.Chosen) -> None:
        """Open a plan while the list stays in sight."""
        if not self._opening_one:
            self._opening_one = True
            self._aside(lambda: self._open_chosen(event.key))

    def _open_chosen(self, key: str) -> None:
        try:
            opened = self._shelf.open(key) if self._shelf else "There is no shelf."
        except Exception as error:  # noqa: BLE001 - one bad file does not end the screens
            opened = f"The plan could not be opened: {type(error).__name__}: {error}"
        self._back(self._chosen, opened)

    def _chosen(self, opened: Prepared | str) -> None:
        """Show the class, or why it cannot be led."""
        self._opening_one = False
        if isinstance(opened, str):
            self.push_screen(Sheet("This plan cannot be led yet", opened))
        else:
            self._get_ready(opened)

    def _get_ready(self, prepared: Prepared) -> None:
        """Show a class to be read; voice and sound get ready once the page is drawn."""
        self._prepared = prepared
        words = letters_told(prepared.score, self.seat, prepared.voiced)
        screen = Before(prepared, words, self.wishes.troubles)
        self.push_screen(screen)
        self.call_after_refresh(self._aside, lambda: self._prepare(screen))
        self.call_after_refresh(self._reckon, screen)
        screen.set_interval(RECKONED_S, lambda: self._reckon(screen))

    def _reckon(self, screen: Before) -> None:
        """Find out, on a thread, what beginning now would change: minutes pass while one reads."""

        def reckon() -> None:
            with suppress(Exception):  # the class begins all the same, and says it then
                self._back(screen.begin_now, screen.prepared.begin_now())
            with suppress(Exception):  # none of it keeps anybody from a class
                self._back(screen.machine, screen.prepared.machine())

        self._aside(reckon)

    def _prepare(self, screen: Before) -> None:
        def tell(done: int, total: int) -> None:
            self._back(screen.progress, done, total)

        try:
            trouble = screen.prepared.prepare(tell)
        except Exception as error:  # noqa: BLE001 - a class without a voice can still be led
            trouble = f"The voice could not be made ready: {error}"
        self._back(screen.prepared_with, trouble)
        self._back(self._reckon, screen)  # by now the sound is open

    def on_before_test_sound(self) -> None:
        """Let something be heard, on a thread of its own."""
        screen = self.screen
        if isinstance(screen, Before):
            self._aside(lambda: self._test_sound(screen))

    def _test_sound(self, screen: Before) -> None:
        try:
            words = screen.prepared.sound_test()
        except Exception as error:  # noqa: BLE001 - that is what the test is there to find
            words = f"The sound test failed: {error}"
        self._back(screen.tell, words)

    def on_before_begin(self) -> None:
        """Open the class; it waits to be begun."""
        if isinstance(self.screen, Before) and self.leading is None:
            prepared = self.screen.prepared
            self.leading = prepared.begin()
            self._lead(self.leading, prepared.voiced)

    def action_back_to_plans(self) -> None:
        """Leave the reading of a plan."""
        if self._shelf and isinstance(self.screen, Before):
            self._prepared = None
            self._aside(self.screen.prepared.close)
            self.pop_screen()

    def let_go(self) -> None:
        """Close what a class had been made ready with, when it was left without being begun."""
        if self._prepared and self.leading is None:
            self._prepared.close()
