"""How exactly do sounds start? A bench, run by command; never a gate.

`python tests/bench/onsets.py` plays the same plan of cues in several ways on the same null sink,
records its monitor and compares the gaps heard with the gaps planned. Needs PulseAudio, and for
the peers an interpreter that has them (`--peers`), since not all install beside the project.
"""

from __future__ import annotations

import argparse
import os
import random
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from statistics import linear_regression, median

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.bench import common, onsets_program  # noqa: E402 - found by the line above
from tests.sound import pulse  # noqa: E402

CHILD = Path(__file__).with_name("onset_ways.py")
WAYS = ("ours", "simpleaudio", "new-device", "pyttsx3")
PEERS = WAYS[1:]
CONDITIONS = ("idle", "busy", "loaded")
OF_A_SCREEN = ("redraw", "stuck")  # peers have no terminal: compared with them as they are idle
HELD_P99_MS, HELD_TIMES = 1.0, 20.0
NEAR_MS = 400.0  # an onset further from every cue belongs to none
LEAST_GAP_MS, MOST_GAP_MS = 900, 1500  # a syllable of pyttsx3 takes its caller 700 ms


@dataclass(frozen=True)
class Result:
    """One way under one condition; ms, ppm."""

    way: str
    condition: str
    cues: int
    lost: int
    doubled: int
    errors: tuple[float, ...]
    drift_ppm: float
    shift: float
    load: float

    def at(self, share: float) -> float:
        """The error that a share of all errors does not exceed."""
        if not self.errors:
            return float("nan")
        return self.errors[min(len(self.errors) - 1, int(share * len(self.errors)))]


def plan_of(cues: int, seed: int) -> list[float]:
    """Times of cues (ms) with uneven gaps, so that no period of a buffer fits them."""
    rnd = random.Random(seed)  # noqa: S311 - not for secrets
    at, times = 500, []
    for _ in range(cues):
        times.append(float(at))
        at += rnd.randint(LEAST_GAP_MS, MOST_GAP_MS)
    return times


def play(
    server: pulse.Server, way: str, condition: str, piece: onsets_program.Piece, python: str
) -> tuple[list[float], str]:
    """Onsets heard (ms by this machine's clock), and what else was found, in words."""
    with pulse.Recorder(server) as recorder, loaded(condition == "loaded"):
        if way == "program":
            told = onsets_program.led(piece, condition, server.env)
        else:
            told = _child(server, way, condition, piece.times, python)
        stamps = recorder.stamps[len(recorder.stamps) // 10 :]
        slope = linear_regression([at for at, _ in stamps], [n for _, n in stamps]).slope
        heard = [1000 * frame / slope for frame in pulse.onsets(recorder.samples)]
    return heard, ", ".join([f"recorder {(slope / pulse.RATE - 1) * 1e6:+.1f} ppm", *told])


def _child(
    server: pulse.Server, way: str, condition: str, plan: Sequence[float], python: str
) -> list[str]:
    times = ",".join(map(str, plan))
    env = {**server.env, "PYTHONPATH": str(ROOT), "HOME": str(server.folder)}
    with subprocess.Popen([python, str(CHILD), way, condition, times], env=env) as child:
        child.wait()
    return []


@contextmanager
def loaded(wanted: bool) -> Iterator[None]:
    """Keep as many processes busy as there are cores."""
    hog = [sys.executable, "-c", "while True: pass"]
    hogs = [subprocess.Popen(hog) for _ in range((os.cpu_count() or 1) if wanted else 0)]
    try:
        yield
    finally:
        for process in hogs:
            process.kill()
            process.wait()


def matched(heard: Sequence[float], plan: Sequence[float]) -> tuple[dict[int, float], int]:
    """The onset of each cue by its number, and how many onsets belong to none.

    The offset of all is taken out by trying each of the first onsets for each of the first cues.
    """
    offsets = [h - p for h in heard[:5] for p in plan[:5]]
    if not offsets:
        return {}, 0

    def near(offset: float) -> dict[int, float]:
        found: dict[int, float] = {}
        left = list(heard)
        for k, cue in enumerate(plan):
            while left and left[0] < cue + offset - NEAR_MS:
                left.pop(0)
            if left and left[0] < cue + offset + NEAR_MS:
                found[k] = left.pop(0)
        return found

    def fit(offset: float) -> tuple[int, float]:
        found = near(offset)
        return len(found), -sum(abs(h - plan[k] - offset) for k, h in found.items())

    found = near(max(offsets, key=fit))
    return found, len(heard) - len(found)


def judged(way: str, condition: str, heard: Sequence[float], plan: Sequence[float]) -> Result:
    """Gaps heard against gaps planned, cue by cue."""
    found, doubled = matched(heard, plan)
    pairs = [(k, k + 1) for k in found if k + 1 in found]
    errors = [abs(found[b] - found[a] - (plan[b] - plan[a])) for a, b in pairs]
    late = [found[k] - plan[k] for k in found]
    drift = linear_regression([plan[k] for k in found], late).slope if len(found) > 2 else 0.0
    tenth = max(1, len(late) // 10)
    shift = median(late[-tenth:]) - median(late[:tenth]) if late else float("nan")
    return Result(
        way,
        condition,
        len(plan),
        len(plan) - len(found),
        doubled,
        tuple(sorted(errors)),
        drift * 1e6,
        shift,
        os.getloadavg()[0],
    )


HEAD = (
    "| condition | way | cues | lost | doubled | median | p99 | max | of ours (median, p99) "
    "| drift ppm | shift | load |\n|---|---|---|---|---|---|---|---|---|---|---|---|"
)


def row(result: Result, own: Result | None) -> str:
    """One line of the table; errors in ms, ratios against ours under the same condition."""
    ratio = "-"
    if own is not None and own is not result:
        pairs = ((result.at(share), own.at(share)) for share in (0.5, 0.99))
        ratio = ", ".join(f"{a / b:.3g}x" if b > 0 else "-" for a, b in pairs)
    return (
        f"| {result.condition} | {result.way} | {result.cues} | {result.lost} | {result.doubled} "
        f"| {result.at(0.5):.2f} | {result.at(0.99):.2f} | {result.at(1):.2f} | {ratio} "
        f"| {result.drift_ppm:+.0f} | {result.shift:+.1f} | {result.load:.1f} |"
    )


def bars(results: Sequence[Result]) -> list[str]:
    """Of the program in each condition: is what it promises so?"""
    lines = []
    for one in (result for result in results if result.way == "program"):
        with_it = "idle" if one.condition in OF_A_SCREEN else one.condition
        peers = [r for r in results if r.way in PEERS and r.condition == with_it]
        exact = one.lost == one.doubled == 0 and one.at(0.99) < HELD_P99_MS
        words = f"p99 {one.at(0.99):.2f} ms, lost {one.lost}, doubled {one.doubled}"
        line = f"{one.condition}: {words}: {'held' if exact else 'NOT HELD'}"
        if peers:
            best = min(peers, key=lambda peer: peer.at(0.99))
            times = best.at(0.99) / max(one.at(0.99), 1e-3)
            held = "held" if times >= HELD_TIMES else "NOT HELD"
            line += f"; {times:.0f} times better than {best.way} ({best.condition}): {held}"
        lines.append(line)
    return lines


def _wanted() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--cues", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--ways")
    parser.add_argument("--conditions")
    parser.add_argument("--peers", default=sys.executable, help="interpreter with the peers")
    parser.add_argument("--program", action="store_true", help="the whole program, not its device")
    return parser.parse_args()


def main() -> None:
    """Run what is asked for and print one table."""
    wanted = _wanted()
    if why := pulse.missing():
        sys.exit(why)
    ways = wanted.ways or ",".join(("program", *PEERS) if wanted.program else WAYS)
    conditions = CONDITIONS + (OF_A_SCREEN if wanted.program else ())
    results: list[Result] = []
    with pulse.running() as server:
        (server.folder / ".asoundrc").write_text("pcm.!default { type pulse }\n")
        piece = onsets_program.Piece(Path(), tuple(plan_of(wanted.cues, wanted.seed)))
        if wanted.program:
            piece = onsets_program.made(server.folder, wanted.cues, wanted.seed)
        print(common.machine() + "\n\n" + HEAD, flush=True)
        for condition in (wanted.conditions or ",".join(conditions)).split(","):
            own: Result | None = None
            for way in ways.split(","):
                if way in PEERS and condition in OF_A_SCREEN:
                    continue
                python = wanted.peers if way in PEERS else sys.executable
                heard, told = play(server, way, condition, piece, python)
                results.append(judged(way, condition, heard, piece.times))
                own = results[-1] if way not in PEERS else own
                print(row(results[-1], own), told, flush=True)
    print("", *bars(results), sep="\n")


if __name__ == "__main__":
    main()
