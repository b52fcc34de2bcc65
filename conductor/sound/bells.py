"""Bells from their WAV files, struck as often as wanted."""

from __future__ import annotations

import io
import sys
import wave
from array import array
from pathlib import Path

from conductor.sound.mix import RATE, Event, Mixer, doubled

STROKE_GAP = RATE * 2  # frames from stroke to stroke: each is heard before the next


def from_wav(data: bytes) -> array[int]:
    """Samples at 44.1 kHz of a WAV file's bytes; mono, 16 bits, 44.1 or 22.05 kHz."""
    try:
        with wave.open(io.BytesIO(data)) as file:
            form = file.getnchannels(), file.getsampwidth(), file.getframerate()
            samples = array("h", file.readframes(file.getnframes()))
    except (wave.Error, EOFError, ValueError) as error:
        raise ValueError(f"not a WAV file that can be played: {error}") from error
    channels, width, rate = form
    if (channels, width) != (1, 2) or rate not in (RATE, RATE // 2):
        raise ValueError(
            f"{channels} channels of {8 * width} bits at {rate} Hz; "
            f"wanted 1 channel of 16 bits at {RATE} or {RATE // 2} Hz"
        )
    if sys.byteorder == "big":
        samples.byteswap()
    return samples if rate == RATE else doubled(samples)


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
