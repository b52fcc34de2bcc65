"""The whole program as one more way in the table of onsets.py: a class in a pseudo-terminal.

Run as a script it is the program itself with a condition put into its process:
`onsets_program.py CONDITION lead PLAN`. What its sound told at its end stands in the file named by
ONSETS_TOLD: underruns, and the longest time between two callbacks of the stream.
"""

from __future__ import annotations

import os
import random
import runpy
import sys
import threading
import time
import wave
from array import array
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench import common

TAKE_RATE = 22_050
CLICK_MS, LEVEL = 60, 16_000
SHORTEST_MS, LONGEST_MS = 900, 1200  # of a half breath: a syllable of pyttsx3 takes 700
PER_PART = 4  # half breaths of one tempo
STUCK_S = 60.0
REDRAW_HZ = 30
AFTER_S = 1.5
STARTING = 20  # callbacks that only fill the buffer, or wait for the class
SHAPES = ("arms overhead", "standing fold", "half lift", "standing fold", "arms overhead")
WORDS = ("gull", "tern", "auk", "knot", "teal", "rail", "crane", "stork", "heron", "ibis")


@dataclass(frozen=True)
class Piece:
    """A plan's file whose every cue is a click, and the times (ms) at which they are due."""

    plan: Path
    times: tuple[float, ...]


def made(folder: Path, count: int, seed: int) -> Piece:
    """Write a plan of so many cues with uneven gaps; its times are the score's."""
    from conductor.cli.opening import opened  # noqa: PLC0415 - not in the program's process
    from conductor.engine.phrases import phrases  # noqa: PLC0415
    from conductor.settings import Settings  # noqa: PLC0415
    from conductor.timing.cues import cues  # noqa: PLC0415

    takes = folder / "takes"
    takes.mkdir()
    plan = folder / "clicks.yaml"
    plan.write_text(_text(count, seed), "utf-8")
    score = opened(plan).score
    assert score is not None, opened(plan).findings
    _, wanted = cues(score, {}, Settings())
    words = sorted({saying.text for saying in wanted | phrases(score)})
    half = TAKE_RATE // 2000
    click = [LEVEL if k // half % 2 == 0 else -LEVEL for k in range(TAKE_RATE * CLICK_MS // 1000)]
    with wave.open(str(takes / "click.wav"), "wb") as out:
        out.setparams((1, 2, TAKE_RATE, 0, "NONE", ""))
        out.writeframes(array("h", click).tobytes())
    (takes / "names").write_text("".join(f"click.wav: {text}\n" for text in words), "utf-8")
    lengths = dict.fromkeys(wanted, CLICK_MS)
    placed, _ = cues(score, lengths, Settings())
    return Piece(plan, tuple(float(cue.start) for cue in placed))


def _text(count: int, seed: int) -> str:
    rnd = random.Random(seed)  # noqa: S311 - not for secrets
    lines = ["plan: 1\ntitle: Clicks\nkind: piece\nbreath: 1 s in, 1 s out\n"]
    lines.append("voice: {recordings: takes}\nparts:\n")
    for at in range(count):
        if at % PER_PART == 0:
            both = (rnd.randint(SHORTEST_MS, LONGEST_MS) / 1000 for _ in range(2))
            tempo = "breath: {} s in, {} s out".format(*both)
            lines.append(f"  - part: Part {at // PER_PART + 1}\n    {tempo}\n    steps:\n")
        verb = "come to" if at == 0 else ("out", "in")[at % 2]
        shape = (*SHAPES, "mountain")[(at - 1) % 6]
        said = f"{WORDS[at // 10 % 10]} {WORDS[at % 10]}"
        lines.append(f"      - {verb}: {shape}\n        say: {said}.\n")
    return "".join(lines)


def led(piece: Piece, condition: str, base: dict[str, str]) -> list[str]:
    """Lead the piece to its end in a terminal; gives what was told of it, for a line below."""
    told: list[str] = []
    with common.home(base) as env:
        report = Path(env["HOME"]) / "told"
        env["ONSETS_TOLD"] = str(report)
        command = [sys.executable, str(Path(__file__)), condition, "lead", str(piece.plan)]
        terminal = common.Terminal(command, env)
        journal = common.begin(terminal, env)
        received, began = terminal.received, time.monotonic()
        if condition == "stuck":
            terminal.reading.clear()
            time.sleep(STUCK_S)
            terminal.reading.set()
        limit = (piece.times[-1] - piece.times[0]) / 1000 + 20
        ended = common.until(lambda: common.of_kind(journal, "finished"), limit, 0.25)
        rate = (terminal.received - received) / (time.monotonic() - began)
        time.sleep(AFTER_S)
        status = common.finish(terminal)
        told.append(f"{rate:.0f} bytes a second to the terminal")
        told.append(report.read_text() if report.exists() else "nothing told of the stream")
        told.append(f"ended {'by itself' if ended else 'NOT'}, exit code {status}")
    return told


# -- in the program's process ---------------------------------------------------------------------


def put(condition: str) -> None:
    """Put the condition into this process."""
    if condition == "busy":
        from tests.bench.onset_ways import keep_busy  # noqa: PLC0415 - only here

        threading.Thread(target=keep_busy, daemon=True).start()
    elif condition == "redraw":
        redraw()


def redraw() -> None:
    """Have the whole screen drawn 30 times a second, as for a presenter who moves it about."""
    from textual.app import App  # noqa: PLC0415 - only here

    ready: Any = App._ready

    async def then(self: Any) -> None:
        await ready(self)
        self.set_interval(1 / REDRAW_HZ, self.refresh)

    App._ready = then  # type: ignore[method-assign]


def overheard(report: Path) -> None:
    """Note how the stream's callbacks came, and write it when the sound is closed."""
    from conductor.sound.device import Device  # noqa: PLC0415 - only here
    from conductor.sound.player import Link  # noqa: PLC0415 - only here

    fill: Any = Link.fill
    close: Any = Device.close
    times: list[float] = []

    def filled(self: Any, frames: int) -> Any:
        times.append(time.monotonic())
        return fill(self, frames)

    def closed(self: Any) -> None:
        gaps = sorted(b - a for a, b in pairwise(times[STARTING:]))
        status = self.status()
        words = f"underruns {status.underruns}, lost {status.lost}"
        if gaps:
            words += f", callbacks {len(times)}, at most {1000 * gaps[-1]:.0f} ms apart"
        report.write_text(words)
        close(self)

    Link.fill = filled  # type: ignore[method-assign]
    Device.close = closed  # type: ignore[method-assign]


if __name__ == "__main__":
    put(sys.argv[1])
    overheard(Path(os.environ["ONSETS_TOLD"]))
    sys.argv = ["conductor", *sys.argv[2:]]
    runpy.run_module("conductor", run_name="__main__")
