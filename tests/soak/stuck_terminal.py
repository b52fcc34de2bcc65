"""A terminal that does not read for a minute: the class goes on and is heard.

`python tests/soak/stuck_terminal.py [--stuck 60]`. A real class, every cue a tone of its own, in a
pseudo-terminal that stops reading; the sink is recorded, the journal followed. Held are: every
moment at its time, every cue heard, the picture right again once the terminal reads.
"""

from __future__ import annotations

import argparse
import sys
import time
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench import common
from tests.soak.heard import Heard, heard
from tests.soak.tail import Line, Tail, lateness
from tests.soak.tones import Tones, made
from tests.sound import pulse

BEFORE_S, AFTER_S = 20.0, 10.0
NEAR_MS = 250.0
TRUE_HZ = 0.8
UNHEARD_MS = 1000  # before the recording's end: not recorded whole


def cue_errors(found: Heard, cues: list[Line], tones: Tones, zero: float) -> list[float | None]:
    """How far from its time each cue was heard (ms, with all that is constant); None: not at all.

    `zero` is the clock's reading at which the class's own time was 0.
    """
    errors: list[float | None] = []
    for cue in cues:
        due = zero + cue.now
        near = [one for one in found.stretches if abs(one.start - due) < NEAR_MS]
        right = [
            one
            for one in near
            if abs(found.hertz(one.start + 30, one.start + 430) - tones.hertz[cue.data["words"]])
            < TRUE_HZ
        ]
        errors.append(right[0].start - due if right else None)
    return errors


def main() -> None:
    """Run and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--stuck", type=float, default=60)
    wanted = parser.parse_args()
    if why := pulse.missing():
        sys.exit(why)
    with pulse.running() as server, common.home(server.env) as env:
        rows, held = led(server, env, wanted.stuck)
    print(f"A terminal that does not read for {wanted.stuck:g} s. {common.machine()}.\n")
    print(common.table(["what", "before", "not reading", "after"], rows))
    sys.exit(0 if held else "something that is held was not so")


def led(server: pulse.Server, env: dict[str, str], stuck_s: float) -> tuple[list[list[str]], bool]:
    """Lead a class past a terminal that is stuck."""
    tones = made(Path(env["HOME"]), round((BEFORE_S + stuck_s + AFTER_S) / 60) + 2)
    terminal = common.Terminal(common.class_command(str(tones.plan)), env)
    with pulse.Recorder(server) as recorder:
        tail = Tail(common.begin(terminal, env))
        marks = [tail.lines[-1].now]
        received = []
        for seconds, reading in ((BEFORE_S, True), (stuck_s, False), (AFTER_S, True)):
            (terminal.reading.set if reading else terminal.reading.clear)()
            before = terminal.received
            time.sleep(seconds)
            received.append((terminal.received - before) / seconds)
            marks.append(tail.lines[-1].now)
        alive = terminal.alive()
        found = heard(recorder)
        last = tail.of("moment")[-1].data["words"]
        status = common.finish(terminal)
    moments, cues = tail.of("moment"), tail.of("cue")
    zero = min(line.at - line.now for line in moments)
    rows = [["bytes a second read", *(f"{one:.0f}" for one in received)]]
    spans = list(pairwise(marks))
    errors = cue_errors(found, cues, tones, zero)
    shift = next(one for one in errors if one is not None)
    whole = True
    columns: list[list[str]] = []
    for low, high in spans:
        those = [line for line in moments if low <= line.now < high]
        done = high if high != marks[-1] else high - UNHEARD_MS
        told = [(c, e) for c, e in zip(cues, errors, strict=True) if low <= c.now < done]
        lost = [cue.data["words"] for cue, error in told if error is None]
        gaps = [abs(error - shift) for _, error in told if error is not None]
        late = lateness(those)
        whole = whole and not lost and late.off_score == 0
        columns.append(
            [
                f"{len(those)}",
                f"{late.off_score}",
                f"{late.at(1):.1f}",
                f"{len(told)}",
                f"{len(lost)}",
                f"{max(gaps, default=0):.2f}",
            ]
        )
    names = (
        "moments entered",
        "greatest difference from the score, class ms",
        "journal's lines late, at most, ms",
        "cues due",
        "cues not heard, or another heard",
        "cues heard off their time, at most, ms",
    )
    rows += [[name, *(column[at] for column in columns)] for at, name in enumerate(names)]
    rows.append(["runs on; exit code after `q`", "", "", f"{'yes' if alive else 'NO'}; {status}"])
    print(f"the last moment: {last}")
    return rows, whole and alive and status == 0


if __name__ == "__main__":
    main()
