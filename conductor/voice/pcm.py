"""Samples: read what engines and people give, trim it, keep it, and notice a damaged file."""

from __future__ import annotations

import struct
import sys
import wave
from array import array
from pathlib import Path

RATE_HZ = 22050
HEADER_BYTES = 44
SILENCE = 33  # -60 dBFS of 16 bits
LEAD_MS, TAIL_MS, FADE_MS = 5, 30, 5


class DamagedError(ValueError):
    """A sound file that is not what its header says, or holds no sound."""


def read(path: Path) -> tuple[array[int], int]:
    """Mono 16-bit samples and their rate, from WAV (8 to 32 bits) or AIFF (16 bits)."""
    data = path.read_bytes()
    if data[:4] == b"FORM":
        return _aiff(data)
    try:
        with wave.open(str(path), "rb") as file:
            width, channels, rate = file.getsampwidth(), file.getnchannels(), file.getframerate()
            frames, told = file.readframes(file.getnframes()), file.getnframes()
    except (wave.Error, EOFError, struct.error) as error:
        raise DamagedError(f"not a sound file: {error}") from error
    if len(frames) != told * width * channels:
        raise DamagedError("cut short")
    return mono(_sixteen(frames, width), channels), rate


def resampled(samples: array[int], rate: int, to: int = RATE_HZ) -> array[int]:
    """The samples at another rate: averaged where too fast, then interpolated in a line."""
    if rate == to or not samples:
        return samples
    ratio = rate / to
    width = max(int(ratio), 1)
    if width > 1:
        sums = [sum(samples[at : at + width]) // width for at in range(len(samples))]
        samples = array("h", sums)
    last = len(samples) - 1
    result = array("h")
    for place in (at * ratio for at in range(int(len(samples) / ratio))):
        low = int(place)
        one, two = samples[low], samples[min(low + 1, last)]
        result.append(round(one + (two - one) * (place - low)))
    return result


def trimmed(
    samples: array[int], floor: int = SILENCE, lead_ms: int = LEAD_MS, tail_ms: int = TAIL_MS
) -> array[int]:
    """Without the silence at both ends, but for a short lead and a tail that fades."""
    first = next((at for at, sample in enumerate(samples) if abs(sample) > floor), None)
    if first is None:
        return array("h")
    last = next(at for at in reversed(range(len(samples))) if abs(samples[at]) > floor)
    start = max(first - lead_ms * RATE_HZ // 1000, 0)
    result = samples[start : last + 1 + tail_ms * RATE_HZ // 1000]
    fade = min(FADE_MS * RATE_HZ // 1000, len(result))
    for back in range(fade):
        result[-1 - back] = result[-1 - back] * back // fade
    return result


def store(path: Path, samples: array[int]) -> None:
    """Write the samples as WAV; OSError when there is no room."""
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE_HZ)
        file.writeframes(_little(samples).tobytes())


def load(path: Path) -> array[int]:
    """What `store` wrote; DamagedError when the size, the header or the sound is not right."""
    data = path.read_bytes()
    body = data[HEADER_BYTES:]
    header = struct.pack(
        "<4sI4s4sIHHIIHH4sI",
        *(b"RIFF", len(body) + 36, b"WAVE", b"fmt ", 16, 1, 1, RATE_HZ, RATE_HZ * 2, 2, 16),
        *(b"data", len(body)),
    )
    if data[:HEADER_BYTES] != header or len(body) % 2:
        raise DamagedError("not what its header says")
    if not body.strip(b"\0"):
        raise DamagedError("no sound in it")
    return _little(array("h", body))


def length_ms(samples: array[int]) -> int:
    """Milliseconds, rounded up so that what follows never overlaps."""
    return -(-len(samples) * 1000 // RATE_HZ)


def _little(samples: array[int]) -> array[int]:
    if sys.byteorder == "big":
        samples = samples[:]
        samples.byteswap()
    return samples


def _sixteen(frames: bytes, width: int) -> array[int]:
    if width == 1:
        return array("h", [(byte - 128) << 8 for byte in frames])
    if width > 2:
        frames = b"".join(frames[at - 2 : at] for at in range(width, len(frames) + 1, width))
    return _little(array("h", frames))


def mono(samples: array[int], channels: int) -> array[int]:
    """The mean of interleaved channels."""
    if channels == 1:
        return samples
    lanes = [samples[lane::channels] for lane in range(channels)]
    return array("h", [sum(frame) // channels for frame in zip(*lanes, strict=True)])


def _aiff(data: bytes) -> tuple[array[int], int]:
    chunks, at = {}, 12
    while at + 8 <= len(data):
        name, size = struct.unpack(">4sI", data[at : at + 8])
        chunks[name] = data[at + 8 : at + 8 + size]
        at += 8 + size + size % 2
    try:
        channels, frames, bits, exponent, high = struct.unpack(">hIhHI", chunks[b"COMM"][:14])
        body = chunks[b"SSND"][8 : 8 + frames * channels * 2]
    except (KeyError, struct.error) as error:
        raise DamagedError("not a whole AIFF file") from error
    if bits != 16 or channels < 1 or len(body) != frames * channels * 2:
        raise DamagedError("an AIFF file of 16 bits, whole, is wanted")
    samples = array("h", body)
    if (sys.byteorder == "little") != (chunks[b"COMM"][18:22] == b"sowt"):
        samples.byteswap()
    return mono(samples, channels), round(high * 2.0 ** (exponent - 16383 - 31))
