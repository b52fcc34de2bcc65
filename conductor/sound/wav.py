"""WAV files to samples and back: mono, 16 bits; in memory at 44.1 kHz."""

from __future__ import annotations

import io
import sys
import wave
from array import array
from collections.abc import Iterable
from pathlib import Path

from conductor.sound.mix import RATE, doubled


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


def to_wav(path: Path, blocks: Iterable[array[int]]) -> None:
    """Write samples at 44.1 kHz as they come, so that an hour of them needs no memory."""
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        for samples in blocks:
            if sys.byteorder == "big":
                samples.byteswap()
            file.writeframes(samples.tobytes())
