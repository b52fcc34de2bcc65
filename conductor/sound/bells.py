"""Bells from their WAV files, struck as often as wanted."""

from __future__ import annotations

from array import array
from pathlib import Path

from conductor.sound.mix import RATE, Event, Mixer
from conductor.sound.wav import from_wav

STROKE_GAP = RATE * 2  # frames from stroke to stroke: each is heard before the next


def struck(pcm: array[int], strokes: int) -> array[int]:
    """A bell struck several times, the strokes ringing into each other."""
    if strokes <= 1:
        return pcm
    mixer = Mixer()
    mixer.want(Event(k, k * STROKE_GAP, pcm, voice=False) for k in range(strokes))
    return mixer.render((strokes - 1) * STROKE_GAP + len(pcm))


def load(folder: Path) -> dict[str, array[int]]:
    """All bells of a folder by the names of their files."""
    bells = {}
    for path in sorted(folder.glob("*.wav")):
        try:
            bells[path.stem] = from_wav(path.read_bytes())
        except ValueError as error:
            raise ValueError(f"{path}: {error}") from error
    return bells
