"""Fifty losses of the sound device in one class: it never stops, and sound returns by itself.

`python tests/soak/losses.py [--losses 50]`. A real class in a pseudo-terminal on a PulseAudio of
its own. In turn the server is killed and started again, its only sink is taken out and put back,
and the server hangs (it is stopped by a signal, then let go on).
Measured after each loss: from the device being there again to the class's own stream on it, and to
a cue being heard; file descriptors, threads, memory. Held are: every moment at its time, sound back
within 3 s each time, no more descriptors and threads at the end than after the first losses.
"""

from __future__ import annotations

import argparse
import signal
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from statistics import median

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench import common
from tests.soak.heard import LOUD
from tests.soak.tail import Tail, lateness
from tests.soak.tones import made
from tests.sound import pulse

KINDS = ("server", "sink", "hang")
GONE_S = (0.5, 4.0, 1.5, 2.5)  # how long the device is away, in turn
BACK_S = 3.0
HALF_S = 3  # a cue to every half breath
HEARD_LIMIT_S = 3 * HALF_S + 3
WARM = 4  # losses after which descriptors and threads must not grow


@dataclass(frozen=True)
class Loss:
    """What followed one: seconds, and what the class held on to afterwards."""

    kind: str
    stream_s: float
    heard: bool
    descriptors: int
    threads: int
    rss_mb: float


def streams(server: pulse.Server) -> bool:
    """Whether anything plays on the sink."""
    done = subprocess.run(
        ["pactl", "list", "short", "sink-inputs"],
        env=server.env,
        capture_output=True,
        check=False,
    )
    return bool(done.stdout.strip())


def lose(server: pulse.Server, kind: str, gone_s: float) -> float:
    """Take the device away and give it back; monotonic seconds at which it was there again."""
    if kind == "server":
        server.kill()
        time.sleep(gone_s)
        server.start()
        return time.monotonic()
    if kind == "hang":
        assert server._process is not None
        server._process.send_signal(signal.SIGSTOP)
        time.sleep(gone_s)
        server._process.send_signal(signal.SIGCONT)
        return time.monotonic()
    server.control("unload-module", "module-null-sink")
    time.sleep(gone_s)
    sink = [f"rate={pulse.RATE}", "channels=1"]
    server.control("load-module", "module-null-sink", "sink_name=out", *sink)
    return time.monotonic()


def returns(server: pulse.Server, terminal: common.Terminal, kind: str, there: float) -> Loss:
    """Wait for the stream and for a cue."""
    found = common.until(lambda: streams(server), 15, every=0.05)
    stream_s = time.monotonic() - there if found else float("inf")
    with pulse.Recorder(server) as recorder:
        sounding = recorder.wait(_loud, HEARD_LIMIT_S)
    used = common.usage(terminal.pid)
    return Loss(kind, stream_s, sounding, used.descriptors, used.threads, used.rss / 2**20)


def _loud(samples: object) -> bool:
    last = samples[-2205:]  # type: ignore[index]
    return max(last, default=0) > LOUD


def main() -> None:
    """Run and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--losses", type=int, default=50)
    wanted = parser.parse_args()
    if why := pulse.missing():
        sys.exit(why)
    with pulse.running() as server, common.home(server.env) as env:
        rows, held = led(server, env, wanted.losses)
    print(f"\n{wanted.losses} losses in one class. {common.machine()}.\n")
    print(common.table(["what", "found"], rows))
    sys.exit(0 if held else "something that is held was not so")


def led(server: pulse.Server, env: dict[str, str], losses: int) -> tuple[list[list[str]], bool]:
    """Lead one class through all of them."""
    minutes = round(losses * (max(GONE_S) + HEARD_LIMIT_S) / 60) + 2
    tones = made(Path(env["HOME"]), minutes, HALF_S)
    terminal = common.Terminal(common.class_command(str(tones.plan)), env)
    tail = Tail(common.begin(terminal, env))
    assert common.until(lambda: streams(server), 10), "no sound to lose"
    time.sleep(2)
    first = common.usage(terminal.pid)
    found: list[Loss] = []
    for number in range(losses):
        kind = KINDS[number % len(KINDS)]
        there = lose(server, kind, GONE_S[number // len(KINDS) % len(GONE_S)])
        loss = returns(server, terminal, kind, there)
        found.append(loss)
        print(
            f"{number + 1:2} {kind:6} stream after {loss.stream_s:.2f} s, "
            f"heard {'yes' if loss.heard else 'NO'}, {loss.descriptors} descriptors, "
            f"{loss.threads} threads, {loss.rss_mb:.1f} MB",
            flush=True,
        )
        if not terminal.alive():
            break
    alive = terminal.alive()
    status = common.finish(terminal)
    return judged(tail, found, first, alive, status)


def judged(
    tail: Tail, found: list[Loss], first: common.Usage, alive: bool, status: int
) -> tuple[list[list[str]], bool]:
    """What came of it."""
    moments = tail.of("moment")
    late = lateness(moments)
    inorder = [line.data["index"] for line in moments] == list(range(len(moments)))
    back = sorted(loss.stream_s for loss in found)
    heard = sum(loss.heard for loss in found)
    warm, last = found[min(WARM, len(found) - 1)], found[-1]
    leaks = [
        max(loss.descriptors for loss in found[-2:]) - warm.descriptors,
        max(loss.threads for loss in found[-2:]) - warm.threads,
    ]
    stalls = len(tail.of("slept"))
    held = (
        alive
        and status == 0
        and inorder
        and late.off_score == 0
        and back[-1] <= BACK_S
        and heard == len(found)
        and max(leaks) <= 0
        and not stalls
    )
    rows = [
        [
            "moments entered, in order, none left out",
            f"{len(moments)}, {'yes' if inorder else 'NO'}",
        ],
        ["greatest difference from the score, class ms", f"{late.off_score}"],
        ["journal's lines late: p99, greatest, ms", f"{late.at(0.99):.1f}, {late.at(1):.1f}"],
        ["stalls noticed", f"{stalls}"],
        [
            "stream back after the device: median, greatest, s (aim: 3)",
            f"{median(back):.2f}, {back[-1]:.2f}",
        ],
        ["a cue heard after it", f"{heard} of {len(found)}"],
        [
            f"descriptors before, after {WARM + 1} losses, at the end",
            f"{first.descriptors}, {warm.descriptors}, {last.descriptors}",
        ],
        ["threads, likewise", f"{first.threads}, {warm.threads}, {last.threads}"],
        ["memory, likewise, MB", f"{first.rss / 2**20:.1f}, {warm.rss_mb:.1f}, {last.rss_mb:.1f}"],
        ["still running; exit code after `q`", f"{'yes' if alive else 'NO'}; {status}"],
    ]
    return rows, held


if __name__ == "__main__":
    main()
