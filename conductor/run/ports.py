"""The ports through which a class reaches the world; the edges implement them."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from conductor.engine.model import Command, Happening, Reply, Snapshot
from conductor.progress import Progress
from conductor.score.model import Lengths, Saying
from conductor.score.sounds import Sound
from conductor.values import Struct


class Machine(Protocol):
    """What leads: the engine, as whoever drives it sees it."""

    def command(self, command: Command, now: int) -> Reply:
        """Obey, or refuse and say why."""
        ...

    def advance(self, now: int) -> tuple[Happening, ...]:
        """Give what became due."""
        ...

    def upcoming(self, now: int, horizon: int) -> tuple[Sound, ...]:
        """Give the sounds wanted."""
        ...

    def next_deadline(self) -> int | None:
        """Give when to look again."""
        ...

    def snapshot(self, now: int) -> Snapshot:
        """Give the picture."""
        ...


class OutputStatus(Struct, frozen=True):
    """How the sound is: `playing` or not, and if not, what is the matter in a person's words.

    `device` is what it goes through, as the system names it; "" where that is not known.
    """

    playing: bool
    words: str = ""
    lost: int = 0
    underruns: int = 0
    device: str = ""


class Output(Protocol):
    """Where sound goes. `want` gives the whole list wanted for the next seconds, every time."""

    def want(self, sounds: Sequence[Sound], now: int) -> None:
        """Reconcile by id: keep, move, fade or drop; `now` in ms of the class's clock."""
        ...

    def timed(self, epoch: float, speed: float) -> None:
        """Learn the class's time: `now` was 0 when the clock showed `epoch` (ms), times `speed`."""
        ...

    def status(self) -> OutputStatus:
        """How it is going; never blocks."""
        ...

    def close(self) -> None:
        """Fade, let two buffers out, close the device; within a second."""
        ...


class Voice(Protocol):
    """What renders speech ahead of the class."""

    def prepare(self, wanted: Iterable[Saying], progress: Progress) -> Lengths:
        """Render what is missing and measure all of it (ms); absent ones could not be rendered."""
        ...


class Journal(Protocol):
    """Where what happened is written as it happens."""

    def write(self, line: dict[str, object]) -> None:
        """Append one line at once; a write error is told and stops nothing."""
        ...
