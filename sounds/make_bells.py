"""Makes the bells: `python sounds/make_bells.py [FOLDER]` writes the WAV files that lie here.

A struck bowl is a few partials that are no multiples of each other, each a pair that beats slowly,
each dying away at its own rate. Every factor is rounded and the rest is adding and multiplying,
so the files come out the same on every machine.
"""

import math
import sys
import wave
from array import array
from dataclasses import dataclass
from pathlib import Path

RATE = 22_050  # Hz: no partial comes near half of it
LOUDNESS = 0.089  # RMS of the loudest 400 ms, -21 dBFS: 2 dB above the voice as it is mixed
ATTACK_S = 0.004
TAIL = 0.25  # the last quarter goes down to nothing


@dataclass(frozen=True)
class Partial:
    """A tone by its ratio to the lowest, its level, seconds to die away (60 dB) and Hz of beat."""

    ratio: float
    level: float
    dies: float
    beat: float


@dataclass(frozen=True)
class Design:
    """A bell: its lowest tone (Hz), its length (s), its partials."""

    pitch: float
    length: float
    partials: tuple[Partial, ...]


BOWL = (
    Partial(1.0, 1.0, 7.0, 0.7),
    Partial(2.74, 0.5, 4.5, 1.1),
    Partial(5.19, 0.22, 2.4, 1.7),
    Partial(8.31, 0.09, 1.1, 2.3),
)
CHIME = (
    Partial(1.0, 1.0, 4.0, 0.4),
    Partial(2.02, 0.35, 2.6, 0.9),
    Partial(3.41, 0.3, 1.5, 1.3),
    Partial(5.63, 0.1, 0.6, 1.9),
)
BELLS = {
    "rest": Design(196.0, 3.6, BOWL),
    "end": Design(294.0, 3.4, BOWL),
    "bell": Design(440.0, 2.3, BOWL),
    "part": Design(659.0, 1.6, CHIME),
}


def tone(hz: float, level: float, dies: float, frames: int) -> list[float]:
    """A sine that dies away, by turning a pointer a little for each frame."""
    fall = 10 ** (-3 / (dies * RATE))
    turn = 2 * math.pi * hz / RATE
    across, along = round(fall * math.cos(turn), 12), round(fall * math.sin(turn), 12)
    x, y = level, 0.0
    out = []
    for _ in range(frames):
        out.append(y)
        x, y = x * across - y * along, x * along + y * across
    return out


def strike(design: Design) -> "array[int]":
    """The samples of one stroke."""
    frames = round(design.length * RATE)
    total = [0.0] * frames
    for partial in design.partials:
        for share, side in ((0.72, -0.5), (0.28, 0.5)):  # unequal: it beats but never stops
            hz = design.pitch * partial.ratio + side * partial.beat
            sine = tone(hz, partial.level * share, partial.dies, frames)
            total = [a + b for a, b in zip(total, sine, strict=True)]
    attack, tail = round(ATTACK_S * RATE), round(TAIL * frames)
    shaped = [s * min(1.0, k / attack, (frames - 1 - k) / tail) for k, s in enumerate(total)]
    gain = LOUDNESS / loudest(shaped)
    return array("h", [round(32_767 * gain * s) for s in shaped])


def loudest(samples: list[float]) -> float:
    """The highest RMS of any 400 ms, looked for each 50 ms."""
    size, step = round(0.4 * RATE), round(0.05 * RATE)
    starts = range(0, max(1, len(samples) - size), step)
    return max(math.sqrt(sum(s * s for s in samples[k : k + size]) / size) for k in starts)


def write(folder: Path) -> None:
    """Write all bells as mono 16-bit WAV."""
    for name, design in BELLS.items():
        samples = strike(design)
        if sys.byteorder == "big":
            samples.byteswap()
        with wave.open(str(folder / f"{name}.wav"), "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(RATE)
            file.writeframes(samples.tobytes())


if __name__ == "__main__":
    write(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent)
