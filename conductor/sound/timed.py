"""Sound started by a timer, for where only a library without a stream is installed: inexact."""

from __future__ import annotations

import threading
from array import array
from collections.abc import Callable, Hashable, Sequence
from typing import Protocol

from conductor.clock import Clock
from conductor.run.ports import OutputStatus
from conductor.score.sounds import Sound
from conductor.sound.desk import Desk, Library
from conductor.sound.mix import Event, scaled

WORDS = "Sound is inexact: only simpleaudio is installed; miniaudio or sounddevice is exact."
IDLE_S = 0.25


class Playing(Protocol):
    """A sound that has been started."""

    def stop(self) -> None:
        """End it at once."""
        ...


Play = Callable[["array[int]"], Playing]


class Timed:
    """Starts each sound when its time has come; measured: half of them 6 ms late or more.

    It cannot fade; a bell under a voice, and whatever has begun, stay as loud as they are.
    """

    def __init__(
        self, library: Library, clock: Clock, play: Play, speed: float = 1.0, *, run: bool = True
    ) -> None:
        self._desk = Desk(library)
        self._clock = clock
        self._play = play
        self._time: tuple[float | None, float] = None, speed
        self._wanted: tuple[Sound, ...] = ()
        self._begun: dict[Hashable, tuple[bool, Playing]] = {}
        self._trouble = ""
        self._wake = threading.Event()
        self._closing = threading.Event()
        self._thread = threading.Thread(target=self._run, name="sound", daemon=True)
        if run:
            self._thread.start()

    def timed(self, epoch: float, speed: float) -> None:
        """Learn how the class's time follows the clock."""
        self._time = epoch, speed
        self._wake.set()

    def want(self, sounds: Sequence[Sound], now: int) -> None:
        """Declare the whole list wanted for the next seconds; never blocks."""
        epoch, speed = self._time
        if epoch is None:
            self._time = self._clock.now() - now / speed, speed
        self._wanted = tuple(sounds)
        self._wake.set()

    def status(self) -> OutputStatus:
        """Playing, but inexact; or what went wrong last."""
        return OutputStatus(not self._trouble, self._trouble or WORDS)

    def close(self) -> None:
        """Stop what sounds."""
        self._closing.set()
        self._wake.set()
        if self._thread.is_alive():
            self._thread.join(1.0)

    def turn(self) -> float:
        """Stop what is no longer wanted, start what is due; seconds until the next is."""
        epoch, speed = self._time
        if epoch is None:
            return IDLE_S
        now = (self._clock.now() - epoch) * speed
        wanted = self._wanted
        for gone in self._begun.keys() - {sound.id for sound in wanted}:
            self._begun.pop(gone)[1].stop()
        events = self._desk.events(wanted, round(now), lambda ms: ms, self._begun.keys())
        waiting = [event for event in events if event.id not in self._begun]
        for event in (event for event in waiting if event.start <= now):
            self._start(event)
        starts = [event.start for event in waiting if event.start > now]
        return min([IDLE_S, *((start - now) / 1000 / speed for start in starts)])

    def _start(self, event: Event) -> None:
        if event.voice:
            for voice, playing in self._begun.values():
                if voice:
                    playing.stop()
        self._begun[event.id] = (event.voice, self._play(scaled(event.pcm, event.gain)))

    def _run(self) -> None:
        while not self._closing.is_set():
            try:
                delay = self.turn()
                self._trouble = ""
            except Exception as error:  # noqa: BLE001 - whatever it is, the class goes on
                self._trouble = f"No sound: {str(error) or repr(error)}. The class goes on."
                delay = IDLE_S
            self._wake.wait(delay)
            self._wake.clear()
        for _, playing in self._begun.values():
            playing.stop()
