"""Two hundred random commands in one class on a real null sink, and what was heard of them.

`python tests/soak/commands_heard.py [--commands 200] [--seed 1]`. Keys are pressed in a real class
in a pseudo-terminal, the sink is recorded, and every cue is a tone of its own. Heard is compared
with the journal: no sound that no cue due explains (two buffers and 20 ms after a command are
given for what was already handed to the device), every cue that nothing cut is heard and is the
right one, silence within that time after a stop, and no step from sample to sample above the
tones' own.
"""

from __future__ import annotations

import argparse
import math
import random
import sys
import time
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from typing import Any

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[2]))

from conductor.settings import BUFFER_MS
from tests.bench import common
from tests.soak.heard import Heard, heard
from tests.soak.tail import Line, Tail
from tests.soak.tones import TONE_MS, Tones, made
from tests.sound import pulse

UNDISTURBED_S = 25.0
HANDED_MS = 2 * BUFFER_MS + 20  # what had been handed over when a command came
EDGE_MS = 30.0
NEAR_MS = 250.0
TRUE_HZ = 0.8
LEAST_MS = 120.0  # of a tone, to tell how high it is
CLICK = 2.0  # times the tones' own greatest step: one goes out in 12 ms while the next comes in
KEYS = {
    "stop, go on": " ",
    "silence": ".",
    "hold, go on": "h",
    "next": "\x1b[C",
    "back": "\x1b[D",
    "next part": "\x1b[B",
    "previous part": "\x1b[A",
    "again": "a",
    "one more": "+",
    "one fewer": "-",
    "slower": "s",
    "faster": "f",
    "swap": "x",
}
CUTS = {"stop", "silence", "next", "back", "next part", "previous part", "again"}
STOPS = {"stop", "silence"}


@dataclass(frozen=True)
class Due:
    """A cue as the journal has it, by the class's clock: until when it may be heard, ms."""

    at: float
    until: float
    hertz: float
    steady: tuple[float, float] | None  # where nothing disturbs its tone


@dataclass(frozen=True)
class Ears:
    """A recording with the journal laid over it; times are `now` of the class, ms."""

    found: Heard
    shift: float  # ms by which what is heard comes after its `now`

    def real(self, now: float) -> float:
        """The recording's own time."""
        return now + self.shift


def press(terminal: common.Terminal, tail: Tail, commands: int, rnd: random.Random) -> int:
    """Press keys until so many commands were accepted or refused; how many keys it took."""
    pressed = 0
    while len(tail.of("command", "refused")) < commands + 1 and terminal.alive():
        state = tail.of("state", "finished")[-1]
        if state.kind == "finished":
            break
        stopped = state.data["state"] == "stopped"
        if rnd.random() < 0.5:  # in the middle of a cue
            tail.wait("cue", len(tail.of("cue")) + 1, 4.0)
            time.sleep(rnd.uniform(0, TONE_MS / 1000))
        often = stopped and rnd.random() < 0.6  # mostly it goes on
        terminal.press(" " if often else rnd.choice(list(KEYS.values())))
        pressed += 1
        time.sleep(rnd.choice((0.15, 0.4, 0.8, 1.3, 2.1)))
    return pressed


def dues(cues: Sequence[Line], commands: Sequence[Line], tones: Tones) -> list[Due]:
    """What may and must be heard of each cue, given the commands that came."""
    cuts = [line.now for line in commands if cuts_off(line)]
    every = [line.now for line in commands]
    starts = [line.now for line in cues]
    found = []
    for line in cues:
        at = line.now
        asked = at - HANDED_MS < _before(every, at)  # a cue a command gave rise to may come late
        late = HANDED_MS if asked else 0
        cut = _after(cuts, at)
        until = min(at + late + TONE_MS + EDGE_MS, cut + HANDED_MS + EDGE_MS)
        first = at + late + EDGE_MS
        last = min(at + TONE_MS - EDGE_MS, _after(every, at), _after(starts, at) - EDGE_MS)
        steady = (first, last) if last - first > LEAST_MS else None
        found.append(Due(at, until, tones.hertz[line.data["words"]], steady))
    return found


def cuts_off(line: Line) -> bool:
    """Whether a command ends what sounds; back does not where it takes back a mere change."""
    words = str(line.data.get("words", ""))
    changed = words.startswith("Undone:") and "Back to" not in words
    return line.data["do"] in CUTS and not changed


def _after(times: Sequence[int], at: float) -> float:
    place = bisect_right(times, at)
    return times[place] if place < len(times) else float("inf")


def _before(times: Sequence[int], at: float) -> float:
    place = bisect_right(times, at)
    return times[place - 1] if place else float("-inf")


def unexplained(ears: Ears, those: Sequence[Due], commands: Sequence[Line]) -> list[float]:
    """Times at which there is sound that no cue explains."""
    every = [line.now for line in commands]
    starts = [due.at for due in those]
    found = []
    for one in ears.found.stretches:
        at = one.start - ears.shift
        while at < one.end - ears.shift - EDGE_MS:
            place = bisect_left(starts, at + EDGE_MS)
            near = those[max(place - 3, 0) : place]
            handed = at - _before(every, at) <= HANDED_MS + EDGE_MS
            if not handed and not any(due.at - EDGE_MS <= at <= due.until for due in near):
                found.append(at)
            at += 10
    return found


def wrong(ears: Ears, those: Sequence[Due]) -> list[Due]:
    """Cues that should be heard and are not, or are another."""
    found = []
    for due in those:
        if due.steady is None:
            continue
        first, last = (ears.real(at) for at in due.steady)
        if abs(ears.found.hertz(first, last) - due.hertz) > TRUE_HZ:
            found.append(due)
    return found


def tails(ears: Ears, commands: Sequence[Line], cues: Sequence[Line]) -> list[float]:
    """How long after each stop there was still sound, where something sounded then; ms."""
    every = [line.now for line in commands]
    found = []
    for line in commands:
        if line.data["do"] not in STOPS:
            continue
        sounding = any(cue.now <= line.now <= cue.now + TONE_MS for cue in cues)
        until = min(_after(every, line.now), line.now + 3000)
        last = ears.found.last_loud(ears.real(line.now), ears.real(until))
        if last is not None and sounding and until - line.now > HANDED_MS:
            found.append(last - ears.shift - line.now)
    return sorted(found)


def shift_of(found: Heard, cues: Sequence[Line], zero: float) -> float:
    """By how much all is heard later than it is due: recorder and clocks, constant."""
    late = [
        one.start - zero - cue.now
        for cue in cues
        for one in found.stretches
        if abs(one.start - zero - cue.now) < NEAR_MS
    ]
    return median(late)


def main() -> None:
    """Run and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--commands", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--keep", type=Path, help="folder for the recording and the journal")
    wanted = parser.parse_args()
    if why := pulse.missing():
        sys.exit(why)
    with pulse.running() as server, common.home(server.env) as env:
        rows, held = led(server, env, wanted)
    print(f"{wanted.commands} random commands, seed {wanted.seed}. {common.machine()}.\n")
    print(common.table(["what", "found"], rows))
    sys.exit(0 if held else "something that is held was not so")


def led(
    server: pulse.Server, env: dict[str, str], wanted: argparse.Namespace
) -> tuple[list[list[str]], bool]:
    """Lead, press, listen."""
    tones = made(Path(env["HOME"]), 15)
    rnd = random.Random(wanted.seed)  # noqa: S311 - not for secrets
    terminal = common.Terminal(common.class_command(str(tones.plan)), env)
    with pulse.Recorder(server) as recorder:
        journal = common.begin(terminal, env)
        tail = Tail(journal)
        time.sleep(UNDISTURBED_S)
        quiet_until = tail.lines[-1].now
        pressed = press(terminal, tail, wanted.commands, rnd)
        time.sleep(4)
        found = heard(recorder)
        alive, heard_until = terminal.alive(), tail.lines[-1].now
        if wanted.keep:
            keep(wanted.keep, journal, found, tail)
    status = common.finish(terminal)
    lines = [line for line in tail.lines if "now" in line.data and line.now <= heard_until]
    rows, held = judged(found, lines, tones, quiet_until)
    rows = [["keys pressed", f"{pressed}"], *rows]
    rows.append(["still running; exit code after `q`", f"{'yes' if alive else 'NO'}; {status}"])
    return rows, held and alive and status == 0


def keep(folder: Path, journal: Path, found: Heard, tail: Tail) -> None:
    """Keep what was heard and told, to look into it."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "heard.raw").write_bytes(found.samples.tobytes())
    (folder / "journal.jsonl").write_bytes(journal.read_bytes())
    zero = min(line.at - line.now for line in tail.lines if "now" in line.data)
    (folder / "clock").write_text(f"{found.zero - zero} {found.per_frame}\n")


def judged(
    found: Heard, lines: Sequence[Line], tones: Tones, quiet_until: int
) -> tuple[list[list[str]], bool]:
    """Lay the journal over the recording."""
    zero = min(line.at - line.now for line in lines)
    cues = [line for line in lines if line.kind == "cue"]
    commands = [line for line in lines if line.kind == "command"]
    refused = sum(line.kind == "refused" for line in lines)
    early = [cue for cue in cues if cue.now < quiet_until - 1000]
    ears = Ears(found, zero + shift_of(found, early, zero))
    those = dues(cues, commands, tones)
    stale, false = unexplained(ears, those, commands), wrong(ears, those[:-1])
    after = tails(ears, commands, cues)
    own, most, place = clicks(ears, those, quiet_until)
    told = sum(due.steady is not None for due in those[:-1])
    held = not stale and not false and most <= CLICK * own and (not after or after[-1] <= HANDED_MS)
    kinds: dict[Any, int] = {}
    for line in commands:
        kinds[line.data["do"]] = kinds.get(line.data["do"], 0) + 1
    rows = [
        ["commands obeyed, refused", f"{len(commands)}, {refused}"],
        ["of these", ", ".join(f"{count} {do}" for do, count in sorted(kinds.items()))],
        ["cues due, of which a tone could be told", f"{len(cues)}, {told}"],
        ["not heard, or another heard", _named(due.at for due in false)],
        ["sound that no cue explains", _named(_once(stale))],
        [
            f"sound after a stop that cut a cue: times, median, longest, ms (aim: {HANDED_MS})",
            f"{len(after)}, {median(after):.0f}, {after[-1]:.0f}" if after else "none",
        ],
        [
            f"greatest step of a sample: of the tones, in all (aim: {CLICK:g} times)",
            f"{own:.0f}, {most} ({most / own:.2f} times, at {place:.0f} ms)",
        ],
    ]
    return rows, held


def clicks(ears: Ears, those: Sequence[Due], quiet_until: int) -> tuple[float, int, float]:
    """The greatest step that the highest tone takes by itself; the greatest of all; and where."""
    first, last = (ears.found.frame(ears.real(at)) for at in (0, quiet_until))
    part = ears.found.samples[first:last]
    loudest = int(np.abs(part.astype(np.int32)).max())
    own = 2 * math.pi * loudest * max(due.hertz for due in those) / pulse.RATE
    step, at = ears.found.greatest_step()
    return own, step, at - ears.shift


def _once(times: Sequence[float]) -> list[float]:
    """Only the first of times that follow each other closely."""
    return [at for at, before in zip(times, [-1e9, *times], strict=False) if at - before > 50]


def _named(times: Any) -> str:
    those = list(times)
    shown = ", ".join(f"{at:.0f}" for at in those[:6])
    return f"{len(those)} (at {shown} ms)" if those else "0"


if __name__ == "__main__":
    main()
