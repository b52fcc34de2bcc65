"""How long a class takes from being called to its first picture, against the bare app.

`python tests/bench/live_start.py [--rounds 15] [--imports]`. Whole processes in a pseudo-terminal,
alternating, wall clock until the first picture has come whole and processor time used by then
(children left out); medians and their ratio. The aim is a ratio of at most 1.6. Both open their
sound after the first picture. `--imports` also lists what importing costs. Never a gate.
"""

from __future__ import annotations

import argparse
import re
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench import common
from tests.sound import pulse

BARE = [common.PYTHON, str(Path(__file__).with_name("bare_app.py"))]
PLAN = "lighthouse-morning"
BAR = 1.6
WAYS: dict[str, tuple[list[str], str]] = {
    "a class": (common.class_command(PLAN), "Lighthouse Morning"),
    "bare app": (BARE, "╶─╮"),
}


def first_picture(args: list[str], awaited: str, env: dict[str, str]) -> tuple[float, float]:
    """One whole process: seconds of wall clock and of processor time until it is there."""
    terminal = common.Terminal(args, env, awaited)
    try:
        there = common.until(lambda: terminal.first_at, 30, every=0.002)
        used = common.usage(terminal.pid).cpu
        assert there, "no first picture came"
        assert terminal.first_at is not None
        time.sleep(0.3)
        return terminal.first_at - terminal.began, used
    finally:
        terminal.press("q")
        if terminal.end(20) != 0:
            print("left with an error", terminal.screen[-500:])


def imports(name: str, env: dict[str, str], most: int) -> list[tuple[float, str]]:
    """The modules that cost most to import, each with what it alone took (ms)."""
    args, awaited = WAYS[name]
    script = f"exec {' '.join([args[0], '-X', 'importtime', *args[1:]])}"
    terminal = common.Terminal(["sh", "-c", script], env, awaited)
    common.until(lambda: terminal.first_at, 30)
    terminal.press("q")
    terminal.end(20)
    text = terminal.screen.decode(errors="replace")
    found = re.findall(r"import time:\s+(\d+) \|\s+\d+ \| +(\S+)", text)
    return sorted(((int(own) / 1000, module) for own, module in found), reverse=True)[:most]


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--rounds", type=int, default=15)
    parser.add_argument("--imports", action="store_true")
    wanted = parser.parse_args()
    if why := pulse.missing():
        sys.exit(why)
    taken: dict[str, list[tuple[float, float]]] = {name: [] for name in WAYS}
    with pulse.running() as server, common.home(server.env) as env:
        for args, awaited in WAYS.values():
            first_picture(args, awaited, env)  # warms the disk's memory and the voice's cache
        for _ in range(wanted.rounds):
            for name, (args, awaited) in WAYS.items():
                taken[name].append(first_picture(args, awaited, env))
        print(told(taken, wanted.rounds))
        for name in WAYS if wanted.imports else ():
            costly = imports(name, env, 25)
            print(f"\n{name}:", ", ".join(f"{module} {ms:.1f}" for ms, module in costly))


def told(taken: dict[str, list[tuple[float, float]]], rounds: int) -> str:
    """The table."""
    medians = {
        name: [1000 * statistics.median(column) for column in zip(*pairs, strict=True)]
        for name, pairs in taken.items()
    }
    pick: Callable[[str, int], float] = lambda name, at: medians[name][at]  # noqa: E731
    rows = []
    for at, what in enumerate(("wall clock, ms", "processor time, ms")):
        mine, peer = pick("a class", at), pick("bare app", at)
        rows.append([what, f"{mine:.0f}", f"{peer:.0f}", f"{mine / peer:.2f}"])
    head = [f"start to first picture (aim: at most {BAR})", "a class", "bare app", "ratio"]
    return f"{rounds} alternating rounds, medians. {common.machine()}.\n\n" + common.table(
        head, rows
    )


if __name__ == "__main__":
    main()
