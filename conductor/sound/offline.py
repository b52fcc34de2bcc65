"""A class's sound as a WAV file: the same desk and mixer as in class, without waiting."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator
from pathlib import Path

from conductor.progress import Progress, silent
from conductor.score.sounds import Sound
from conductor.sound.desk import Desk, Library
from conductor.sound.mix import RATE, Mixer
from conductor.sound.wav import to_wav

AHEAD_MS = 4000  # as far as a class declares its sounds ahead
BLOCK_MS = 1000


def frame_of(ms: int) -> int:
    """The frame at which a sound starts that starts at `ms`."""
    return round(ms * RATE / 1000)


def rendered(sounds: Iterable[Sound], library: Library, length_ms: int) -> Iterator[array[int]]:
    """The class's samples in blocks of a second, holding only what sounds or soon will."""
    desk, mixer = Desk(library), Mixer()
    waiting = sorted(sounds, key=lambda sound: sound.start, reverse=True)
    window: list[Sound] = []
    for at in range(0, length_ms, BLOCK_MS):
        while waiting and waiting[-1].start < at + AHEAD_MS:
            window.append(waiting.pop())
        events = desk.events(window, 0, frame_of, mixer.begun)  # nothing is ever late here
        sounding = {event.id for event in events if event.start + len(event.pcm) > mixer.frame}
        window = [sound for sound in window if sound.id in sounding]
        mixer.want(event for event in events if event.id in sounding)
        yield mixer.render(frame_of(min(length_ms, at + BLOCK_MS)) - mixer.frame)


def write_wav(
    path: Path,
    sounds: Iterable[Sound],
    library: Library,
    length_ms: int,
    progress: Progress = silent,
) -> None:
    """Write the class's sound to a mono 16-bit 44.1 kHz WAV file; progress in ms of it."""

    def told() -> Iterator[array[int]]:
        for turn, samples in enumerate(rendered(sounds, library, length_ms), 1):
            yield samples
            progress(min(turn * BLOCK_MS, length_ms), length_ms)

    to_wav(path, told())
