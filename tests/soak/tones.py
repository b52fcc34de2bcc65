"""A class in which every cue is a tone of its own, so that a recording tells which cue was heard.

The tones are recordings of a teacher's, as far as the program can tell: a folder of sound files
matched by the words of the cues.
"""

from __future__ import annotations

import math
import wave
from array import array
from dataclasses import dataclass
from pathlib import Path

from conductor.cli.opening import opened
from conductor.engine.phrases import phrases
from conductor.settings import Settings
from conductor.timing.cues import cues

RATE = 22_050
LOW_HZ, STEP_HZ = 400.0, 2.0
TONE_MS = 700
RISE_MS = 4
LEVEL = 9000
HEAD = """\
plan: 1
title: Tones
kind: piece
breath: {half} s in, {half} s out
voice: {{recordings: takes}}
parts:
"""
SHAPES = (
    "arms overhead",
    "standing fold",
    "half lift",
    "standing fold",
    "arms overhead",
    "mountain",
)
WORDS = ("gull", "tern", "auk", "knot", "teal", "rail", "crane", "stork", "heron", "ibis")


@dataclass(frozen=True)
class Tones:
    """The plan's file, and the tone (Hz) of the cues by their words."""

    plan: Path
    hertz: dict[str, float]


def made(folder: Path, minutes: int, half_s: int = 3, per_part: int = 12) -> Tones:
    """Write a plan of so many minutes with a cue to every half breath, and a tone to every cue."""
    plan = folder / "tones.yaml"
    plan.write_text(_text(minutes * 60 // half_s, half_s, per_part), "utf-8")
    takes = folder / "takes"
    takes.mkdir()
    score = opened(plan).score
    assert score is not None, opened(plan).findings
    _, wanted = cues(score, {}, Settings())
    words = sorted({saying.text for saying in wanted | phrases(score)})
    hertz = {text: LOW_HZ + STEP_HZ * at for at, text in enumerate(words)}
    names = []
    for at, text in enumerate(words):
        _write(takes / f"{at}.wav", hertz[text])
        names.append(f"{at}.wav: {text}\n")
    (takes / "names").write_text("".join(names), "utf-8")
    return Tones(plan, hertz)


def _text(halves: int, half_s: int, per_part: int) -> str:
    lines = [HEAD.format(half=half_s)]
    for at in range(halves):
        if at % per_part == 0:
            lines.append(f"  - part: Part {at // per_part + 1}\n    steps:\n")
        verb = "come to" if at == 0 else ("out", "in")[at % 2]
        shape = "mountain" if at == 0 else SHAPES[(at - 1) % len(SHAPES)]
        ones, tens = WORDS[at % 10], WORDS[at // 10 % 10]
        hundreds = f"{WORDS[at // 100]} " if at >= 100 else ""
        lines.append(f"      - {verb}: {shape}\n        say: {hundreds}{tens} {ones}.\n")
    return "".join(lines)


def _write(file: Path, hertz: float) -> None:
    frames = RATE * TONE_MS // 1000
    rise = RATE * RISE_MS // 1000
    samples = array(
        "h",
        [
            round(
                LEVEL
                * min(1.0, at / rise, (frames - at) / rise)
                * math.sin(2 * math.pi * hertz * at / RATE)
            )
            for at in range(frames)
        ],
    )
    with wave.open(str(file), "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(RATE)
        out.writeframes(samples.tobytes())
