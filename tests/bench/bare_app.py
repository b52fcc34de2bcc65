"""The least that could be drawn: one guarded clock, one moving bar, one silent stream of sound.

The peer of live_cost.py and live_start.py. The bar has the steps, the width and the two rows of
the class's own, moves with a half breath of 4 s, and is looked at 20 times a second. The clock is
touched only when its text is another. `bare_app.py [--no-sound]` runs until q is pressed.
"""

import sys
import time
from array import array
from collections.abc import Generator
from typing import Any, ClassVar

from rich.segment import Segment
from rich.style import Style
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget
from textual.widgets import Digits

RATE = 44_100
BUFFER_MS = 200
HZ = 20
STEPS = 64
HALF_S = 4.0
EIGHTHS = " ▏▎▍▌▋▊▉█"
LENGTH_S = 1800
FULL = Style.parse("on #57c7d9")
EMPTY = Style.parse("#57c7d9 on #20303a")


class Bar(Widget):
    """A bar by the Line API; only the columns that changed are drawn."""

    DEFAULT_CSS = "Bar { height: 2; width: 100%; }"

    def __init__(self) -> None:
        super().__init__()
        self._eighths = 0

    def move(self, fraction: float) -> None:
        """Set the part that is full."""
        before = self._eighths
        self._eighths = round(fraction * STEPS) * self.size.width * 8 // STEPS
        if before != self._eighths:
            low, high = sorted((before // 8, self._eighths // 8 + 1))
            self.refresh(Region(low, 0, high - low, self.size.height))

    def render_line(self, y: int) -> Strip:
        """Full columns as blanks on colour, one in eighths, then none."""
        del y
        width = self.size.width
        full, part = divmod(min(self._eighths, width * 8), 8)
        rest = (EIGHTHS[part] if part else "").ljust(width - full)
        filled, empty = Segment(" " * full, FULL), Segment(rest, EMPTY)
        return Strip([one for one in (filled, empty) if one.text], width)


class Bare(App[None]):
    """The clock and the bar."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("q", "quit", show=False)]

    def __init__(self, sound: bool) -> None:
        super().__init__()
        self._sound = sound
        self._device: Any = None
        self._bar = Bar()
        self._clock = Digits(text_of(LENGTH_S))
        self._shown = text_of(LENGTH_S)
        self._began = time.monotonic()

    def compose(self) -> ComposeResult:
        """One above the other."""
        yield self._clock
        yield self._bar

    def on_mount(self) -> None:
        """Start to tick, and open the sound after the first picture."""
        self._began = time.monotonic()
        self.set_interval(1 / HZ, self.tick)
        if self._sound:
            self.call_after_refresh(self._open)

    def tick(self) -> None:
        """Read the clock; compare before touching."""
        passed = time.monotonic() - self._began
        text = text_of(LENGTH_S - int(passed))
        if text != self._shown:
            self._shown = text
            self._clock.update(text)
        breath, part = divmod(passed / HALF_S, 1)
        self._bar.move(1 - part if breath % 2 else part)

    def _open(self) -> None:
        import miniaudio  # noqa: PLC0415 - after the first picture, as in a class

        self._device = miniaudio.PlaybackDevice(
            nchannels=1, sample_rate=RATE, buffersize_msec=BUFFER_MS, app_name="bare"
        )
        stream = silence()
        next(stream)
        self._device.start(stream)

    def on_unmount(self) -> None:
        """Let the sound go, or the process would wait for it."""
        if self._device:
            self._device.close()


def silence() -> Generator[array, int, None]:  # type: ignore[type-arg]
    """As many frames of nothing as are asked for."""
    count = yield array("h")
    while True:
        count = yield array("h", bytes(2 * count))


def text_of(seconds: int) -> str:
    """Minutes and seconds."""
    return f"{seconds // 60}:{seconds % 60:02}"


if __name__ == "__main__":
    Bare("--no-sound" not in sys.argv).run(mouse=False)
