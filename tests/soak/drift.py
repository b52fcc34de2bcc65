"""A whole class on a real null sink: does every sound start where the score says, to its end?

`python tests/soak/drift.py [--minutes 25]` (an hour is `--minutes 60`). The real program leads a
class in a pseudo-terminal, the sink is recorded. Every cue is a burst of noise of its own, a
recording of a teacher's as far as the program can tell, so that correlation finds it to the sample
and takes no other for it; bells are found by their own wave. Planned times are the score's; the
recorder's clock is measured against the monotonic clock by when its pieces came, and taken out.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import sys
import threading
import time
import wave
from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2]))

from conductor import places
from conductor.cli.opening import opened
from conductor.engine.phrases import phrases
from conductor.settings import Settings
from conductor.sound.bells import load
from conductor.sound.lanes import doubled
from conductor.timing.cues import cues
from tests.bench import common
from tests.soak.heard import APART_MS
from tests.soak.tail import Line, Tail
from tests.sound import pulse

TAKE_RATE = 22_050
BURST_MS, BELL_MS = 150, 300
LEVEL = 9000
HALF_S = 3
PER_PART = 20  # half breaths; a bell in each part
WORDS = ("gull", "tern", "auk", "knot", "teal", "rail", "crane", "stork", "heron", "ibis")
SHAPES = (
    "arms overhead",
    "standing fold",
    "half lift",
    "standing fold",
    "arms overhead",
    "mountain",
)
HEAD = """\
plan: 1
title: Bursts
kind: piece
breath: {half} s in, {half} s out
voice: {{recordings: takes}}
parts:
"""
LIKE = 0.35  # of a whole correlation: the sound is this one (another burst has 0.1)
WHOLE = 0.9  # below it something cut into the sound: an underrun tears it in two
ASIDE_MS = 2500.0  # a sound is looked for so far from its time, and a second one of it too
SETTLED_S = 10.0  # of the recording: its first pieces come irregularly
LEAST_P99_MS, LEAST_DRIFT_MS = 1.0, 5.0  # what is held


@dataclass(frozen=True)
class Due:
    """A sound of the class: when (ms of its own time), what it is called, its first samples."""

    at: float
    name: str
    wave: Any
    found: tuple[float, ...] = ()  # ms of the class, wherever it was heard
    like: float = 0.0  # how like itself it was where it was heard first


@dataclass(frozen=True)
class Clock:
    """The recorder's: ms (monotonic) of frame 0 and of a frame, and how far it was off (ppm)."""

    zero: float
    per_frame: float
    ppm: float


def main() -> None:
    """Run and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--minutes", type=float, default=25)
    parser.add_argument("--keep", type=Path, help="folder for the recording, journal and times")
    wanted = parser.parse_args()
    if why := pulse.missing():
        sys.exit(why)
    with pulse.running() as server, common.home(server.env) as env:
        rows, held = led(server, env, wanted)
    print(f"{wanted.minutes:g} minutes of class. {common.machine()}.\n")
    print(common.table(["what", "found"], rows))
    sys.exit(0 if held else "something that is held was not so")


def led(
    server: pulse.Server, env: dict[str, str], wanted: argparse.Namespace
) -> tuple[list[list[str]], bool]:
    """Lead the class to its end, listen, and judge."""
    plan, waves = made(Path(env["HOME"]), round(wanted.minutes * 60 / HALF_S))
    terminal = common.Terminal(common.class_command(str(plan), "--room", "new"), env)
    loads: list[float] = []
    over = threading.Event()
    threading.Thread(target=_watch, args=(loads, over), daemon=True).start()
    with pulse.Recorder(server) as recorder:
        tail = Tail(common.begin(terminal, env, 300))
        ended = tail.wait("finished", limit=wanted.minutes * 60 + 60)
        time.sleep(3)
        stamps = list(recorder.stamps)
        samples = np.array(recorder.samples[: stamps[-1][1]], dtype=np.int16)
    over.set()
    status = common.finish(terminal)
    clock = measured(stamps)
    zero = min(line.at - line.now for line in tail.lines if "now" in line.data) - APART_MS
    told = [found(one, samples, clock, zero) for one in dues(tail.of("cue", "bell"), waves)]
    if wanted.keep:
        keep(wanted.keep, samples, told, clock, zero)
    off = off_score(tail.of("cue"), plan)
    rows, held = judged(told, clock)
    rows += [
        ["cues' times in the journal against the score, greatest difference, ms", f"{off}"],
        ["class time against monotonic, over the run, ms", f"{class_time(tail.lines):+.2f}"],
        ["load average, least, mean, most", _span(loads)],
        ["class ended by itself; exit code", f"{'yes' if ended else 'NO'}; {status}"],
    ]
    return rows, held and ended and status == 0 and off == 0


def _watch(loads: list[float], over: threading.Event) -> None:
    while not over.wait(10):
        loads.append(os.getloadavg()[0])


def _span(loads: Sequence[float]) -> str:
    if not loads:
        return "not measured"
    return f"{min(loads):.1f}, {sum(loads) / len(loads):.1f}, {max(loads):.1f}"


# -- the class ------------------------------------------------------------------------------------


def made(folder: Path, halves: int) -> tuple[Path, dict[str, Any]]:
    """Write a plan with a cue to every half breath, and a burst to every cue; those by words."""
    plan = folder / "bursts.yaml"
    plan.write_text(_text(halves), "utf-8")
    takes = folder / "takes"
    takes.mkdir()
    score = opened(plan).score
    assert score is not None, opened(plan).findings
    _, wanted = cues(score, {}, Settings(room="new"))
    words = sorted({saying.text for saying in wanted | phrases(score)})
    bells = {f"bell {name}": pcm for name, pcm in load(places.shipped("sounds")).items()}
    waves = {name: _whole(pcm[: pulse.RATE * BELL_MS // 1000]) for name, pcm in bells.items()}
    names = []
    for at, text in enumerate(words):
        rnd = random.Random(at)  # noqa: S311 - not for secrets
        burst = array("h", rnd.choices((-LEVEL, LEVEL), k=TAKE_RATE * BURST_MS // 1000))
        with wave.open(str(takes / f"{at}.wav"), "wb") as out:
            out.setparams((1, 2, TAKE_RATE, 0, "NONE", ""))
            out.writeframes(burst.tobytes())
        names.append(f"{at}.wav: {text}\n")
        waves[text] = _whole(doubled(burst))
    (takes / "names").write_text("".join(names), "utf-8")
    return plan, waves


def _whole(samples: array[int]) -> Any:
    """A wave of energy 1."""
    values = np.array(samples, dtype=np.float64)
    return values / np.sqrt((values**2).sum())


def _text(halves: int) -> str:
    lines = [HEAD.format(half=HALF_S)]
    for at in range(halves):
        if at % PER_PART == 0:
            lines.append(f"  - part: Part {at // PER_PART + 1}\n    steps:\n")
        verb = "come to" if at == 0 else ("out", "in")[at % 2]
        shape = "mountain" if at == 0 else SHAPES[(at - 1) % len(SHAPES)]
        said = " ".join(WORDS[int(digit)] for digit in f"{at:03}")
        lines.append(f"      - {verb}: {shape}\n        say: {said}.\n")
        if at % PER_PART == PER_PART // 2:
            lines.append("      - bell: 1\n")
    return "".join(lines)


def dues(lines: Sequence[Line], waves: dict[str, Any]) -> list[Due]:
    """What the class wanted heard, by its journal."""
    bell = "bell bell"
    return [
        Due(line.now, *((bell, waves[bell]) if line.kind == "bell" else _cue(line, waves)))
        for line in lines
    ]


def _cue(line: Line, waves: dict[str, Any]) -> tuple[str, Any]:
    words = line.data["words"]
    return words, waves[words]


def off_score(lines: Sequence[Line], plan: Path) -> int:
    """The greatest difference of a cue's time from its place in the score, ms."""
    score = opened(plan).score
    assert score is not None
    starts = {cue.saying.text: cue.start for cue in cues(score, {}, Settings(room="new"))[0]}
    apart = [line.now - starts[line.data["words"]] for line in lines]
    return max(apart) - min(apart)


# -- listening ------------------------------------------------------------------------------------


def measured(stamps: Sequence[tuple[float, int]]) -> Clock:
    """The recorder's clock by the earliest piece of each second: pieces come late, never early."""
    best: dict[int, tuple[float, float]] = {}
    for at, had in stamps:
        late = at - had / pulse.RATE
        second = int(at)
        if at > stamps[0][0] + SETTLED_S and late < best.get(second, (1e99, 0.0))[0]:
            best[second] = (late, had)
    frames = np.array([had for _, had in best.values()])
    late_s = np.array([late for late, _ in best.values()])
    slope, zero = np.polyfit(frames, late_s, 1)
    per_frame = 1000 * (1 / pulse.RATE + slope)
    return Clock(1000 * float(zero), float(per_frame), (1000 / pulse.RATE / per_frame - 1) * 1e6)


def found(due: Due, samples: Any, clock: Clock, zero: float) -> Due:
    """Wherever in the recording the sound is, near its time."""
    first = max(0, round((due.at + zero - ASIDE_MS - clock.zero) / clock.per_frame))
    last = first + round(2 * ASIDE_MS / clock.per_frame)
    part = samples[first:last].astype(np.float64)
    if len(part) <= len(due.wave):
        return due
    like = likeness(part, due.wave)
    heard: list[float] = []
    most, width = float(like.max()), len(due.wave)  # two halves of a torn sound are one
    while like.max() > LIKE:
        place = int(like.argmax())
        heard.append(clock.zero + (first + place) * clock.per_frame - zero)
        like[max(0, place - width) : place + width] = 0
        if due.name.startswith("bell"):
            break  # a bell is like itself a little later
    return Due(due.at, due.name, due.wave, tuple(heard), most)


def likeness(part: Any, wave_: Any) -> Any:
    """The correlation (1: whole) of the wave with each place of the part."""
    size = 1 << (len(part) + len(wave_)).bit_length()
    product = np.fft.irfft(np.fft.rfft(part, size) * np.conj(np.fft.rfft(wave_, size)), size)
    count = len(part) - len(wave_) + 1
    sums = np.concatenate(([0.0], np.cumsum(part**2)))
    energy = sums[len(wave_) :][:count] - sums[:count]
    return product[:count] / np.sqrt(np.maximum(energy, 1e6))


# -- judging --------------------------------------------------------------------------------------


def judged(told: Sequence[Due], clock: Clock) -> tuple[list[list[str]], bool]:
    """Gaps heard against gaps planned."""
    kinds = [("cues", [d for d in told if not d.name.startswith("bell")])]
    kinds += [("bells", [d for d in told if d.name.startswith("bell")])]
    rows, lost = [], 0
    for kind, those in kinds:
        gone = [one for one in those if not one.found]
        twice = [one for one in those if len(one.found) > 1]
        torn = [one for one in those if one.found and one.like < WHOLE]
        lost += len(gone) + len(twice)
        counts = (len(those), len(gone), len(twice), len(torn))
        rows.append([f"{kind} due, lost, doubled, torn", ", ".join(map(str, counts))])
        if gone or twice or torn:
            rows.append([f"{kind} lost, doubled or torn at, ms", _named([*gone, *twice, *torn])])
    heard = [one for one in told if one.found]
    at = np.array([one.at for one in heard])
    late = np.array([one.found[0] for one in heard]) - at
    gaps = np.abs(np.diff(late))
    p99 = float(np.quantile(gaps, 0.99))
    slope = float(np.polyfit(at, late, 1)[0])
    drift = slope * float(at[-1] - at[0])
    away = np.abs(late - np.median(late))
    tenth = max(1, len(late) // 10)
    shift = float(np.median(late[-tenth:]) - np.median(late[:tenth]))
    worst = int(gaps.argmax())
    rows += [
        ["gaps: error, median, p99, max, ms (p99 below 1)", _three(gaps)],
        ["the greatest between", f"{at[worst]:.0f} and {at[worst + 1]:.0f} ms"],
        ["planned times, less the constant: error, median, p99, max, ms", _three(away)],
        ["constant, ms (device and recorder)", f"{np.median(late):.2f}"],
        ["residual drift over the run by slope, ms (below 5)", f"{drift:+.3f}"],
        ["the last tenth against the first, ms", f"{shift:+.3f}"],
        ["recorder's clock against monotonic, ppm (taken out)", f"{clock.ppm:+.3f}"],
        ["recorder's clock, left in, would be, ms", f"{clock.ppm * (at[-1] - at[0]) / 1e6:+.3f}"],
    ]
    return rows, not lost and p99 < LEAST_P99_MS and abs(drift) < LEAST_DRIFT_MS


def _three(values: Any) -> str:
    return ", ".join(f"{float(np.quantile(values, share)):.3f}" for share in (0.5, 0.99, 1))


def _named(those: Sequence[Due]) -> str:
    return ", ".join(f"{one.name} {one.at:.0f}" for one in those[:8])


def class_time(lines: Sequence[Line]) -> float:
    """How far the class's own time ran from the monotonic clock, from first minute to last."""
    late = [(line.now, line.at - APART_MS - line.now) for line in lines if "now" in line.data]
    first = min(one for at, one in late if at < late[0][0] + 60_000)
    return min(one for at, one in late if at > late[-1][0] - 60_000) - first


def keep(folder: Path, samples: Any, told: Sequence[Due], clock: Clock, zero: float) -> None:
    """Keep what was heard, to look into it."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "heard.raw").write_bytes(samples.tobytes())
    times = [[one.at, one.name, one.like, *one.found] for one in told]
    (folder / "times.json").write_text(json.dumps({"clock": vars(clock), "zero": zero}) + "\n")
    with (folder / "times.json").open("a") as out:
        out.writelines(json.dumps(line) + "\n" for line in times)


if __name__ == "__main__":
    main()
