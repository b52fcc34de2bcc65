"""What a class costs while it runs, against the least that could be drawn (bare_app.py).

`python tests/bench/live_cost.py [--seconds 60] [--rounds 3] [--plan PLAN]`. Each runs in a real
pseudo-terminal of 120x40 that is read to the end, on a null sink of its own server. Both programs
run at the same time, so that other load hits both alike; ours is measured after its class has
begun and its voice is rendered, children left out; `--press " "` measures it stopped, h holding,
q with the question over it, ? with help. Never a gate. Aims: processor time at most 1.5
times the bare one's, memory growth at most the bare one's plus 1 MB.
"""

from __future__ import annotations

import argparse
import math
import statistics
import sys
import time
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench import common
from tests.sound import pulse

BARE = [common.PYTHON, str(Path(__file__).with_name("bare_app.py"))]
SETTLE_S = 5.0
WARM_S = 300.0  # a class fills its caches first; growth counts from here on if it runs that long
MB = 1024 * 1024


@dataclass(frozen=True)
class Cost:
    """What one stretch of running cost."""

    cpu: float  # per cent of one core
    written: float  # bytes a second to the terminal
    rss: tuple[float, float]  # MB at its start and end
    waits: float  # times a second a thread slept and woke
    forced: float
    by_thread: dict[str, float]  # per cent of one core

    @property
    def growth(self) -> float:
        """MB."""
        return self.rss[1] - self.rss[0]


def cost(before: common.Usage, after: common.Usage, written: int) -> Cost:
    """Between two readings."""
    passed = after.at - before.at
    threads = {
        name: 100 * (cpu - before.by_thread.get(name, 0.0)) / passed
        for name, cpu in after.by_thread.items()
    }
    return Cost(
        100 * (after.cpu - before.cpu) / passed,
        written / passed,
        (before.rss / MB, after.rss / MB),
        (after.waited - before.waited) / passed,
        (after.forced - before.forced) / passed,
        threads,
    )


def stretch(terminals: list[common.Terminal], seconds: float) -> list[Cost]:
    """Let them run side by side."""
    before = [(common.usage(one.pid), one.received) for one in terminals]
    time.sleep(seconds)
    after = [(common.usage(one.pid), one.received) for one in terminals]
    pairs = zip(before, after, strict=True)
    return [cost(old, new, there - here) for (old, here), (new, there) in pairs]


def both(env: dict[str, str], wanted: argparse.Namespace) -> list[tuple[Cost, Cost]]:
    """Ours and the bare one, in stretches."""
    bare = common.Terminal(BARE, env)
    ours = common.Terminal(common.class_command(wanted.plan, *wanted.option), env)
    try:
        common.begin(ours, env)
        time.sleep(SETTLE_S)
        ours.press(wanted.press)
        time.sleep(SETTLE_S if wanted.press else 0)
        found = []
        for number in range(wanted.rounds):
            mine, peer = stretch([ours, bare], wanted.seconds)
            found.append((mine, peer))
            memory = ", ".join(f"{one.rss[1]:.1f} MB" for one in (mine, peer))
            print(f"{number + 1}: {mine.cpu:.2f} % {peer.cpu:.2f} %, {memory}", flush=True)
        return found
    finally:
        common.finish(ours)
        bare.press("q")
        bare.end()


def row(name: str, mine: float, peer: float, form: str = ".2f") -> list[str]:
    """A figure of both, and how many times the bare one's ours is."""
    ratio = f"{mine / peer:.2f}" if peer > 0 else "-"
    return [name, f"{mine:{form}}", f"{peer:{form}}", ratio]


def told(found: list[tuple[Cost, Cost]], seconds: float) -> str:
    """The table: medians over the stretches, memory from first to last."""

    def mid(what: str) -> tuple[float, float]:
        mine, peer = ([getattr(pair[k], what) for pair in found] for k in (0, 1))
        return statistics.median(mine), statistics.median(peer)

    warm = min(math.ceil(WARM_S / seconds), len(found) - 1)
    first, last = found[warm], found[-1]
    growth = [last[k].rss[1] - first[k].rss[0] for k in (0, 1)]
    minutes = warm * seconds / 60, len(found) * seconds / 60
    rows = [
        row("processor, % of a core (aim: ratio at most 1.5)", *mid("cpu")),
        row("bytes a second to the terminal", *mid("written"), ".0f"),
        row("waits and wakings a second, all threads", *mid("waits"), ".0f"),
        row("taken off the processor, times a second", *mid("forced"), ".1f"),
        row("memory as the class begins, MB", found[0][0].rss[0], found[0][1].rss[0], ".1f"),
        row(f"memory after {minutes[0]:.0f} min, MB", first[0].rss[0], first[1].rss[0], ".1f"),
        row(f"memory after {minutes[1]:.0f} min, MB", last[0].rss[1], last[1].rss[1], ".1f"),
        [
            "memory growth between the two, MB (aim: bare + 1)",
            f"{growth[0]:+.2f}",
            f"{growth[1]:+.2f}",
            f"{growth[0] - growth[1]:+.2f} MB",
        ],
    ]
    head = ["120x40, 20 Hz, 200 ms buffer", "a class", "bare app", "ratio"]
    note = f"{len(found)} stretches of {seconds:.0f} s side by side, medians. {common.machine()}."
    return f"{note}\n\n{common.table(head, rows)}"


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--seconds", type=float, default=60)
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--plan", default="plans/lighthouse-morning.yaml")
    parser.add_argument("--option", action="append", default=[], help="more options of lead")
    parser.add_argument("--press", default="", help="keys that bring about what is measured")
    parser.add_argument("--threads", action="store_true", help="also what each thread costs")
    wanted = parser.parse_args()
    if why := pulse.missing():
        sys.exit(why)
    with pulse.running() as server, common.home(server.env) as env:
        found = both(env, wanted)
    print(told(found, wanted.seconds))
    if wanted.threads:
        for name, of in (("ours", 0), ("bare", 1)):
            costs = found[-1][of].by_thread.items()
            shares = sorted(costs, key=lambda item: -item[1])
            print(name, ", ".join(f"{thread} {share:.2f} %" for thread, share in shares))


if __name__ == "__main__":
    main()
