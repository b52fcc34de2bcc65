"""How long `conductor check` of an hour takes, against merely importing yaml and click.

Whole processes, alternating, wall clock and processor time; medians and their ratio are printed.
Both find their bytecode compiled, as an installed program does.
Run it as `python tests/bench/check_start.py [ROUNDS] [PLAN]`. The aim is a ratio of at most 2.5.
"""

import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
BAR = 2.5
WAYS = {
    "bare": ("-c", "pass"),
    "peer": ("-c", "import yaml, click"),
    "check": ("-m", "conductor", "check"),
}


def run(args: tuple[str, ...], bytecode: str) -> tuple[float, float]:
    """One whole process: seconds of wall clock and of processor time."""
    env = {**os.environ, "PYTHONPYCACHEPREFIX": bytecode}
    env.pop("PYTHONDONTWRITEBYTECODE", None)
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    began = time.perf_counter()
    done = subprocess.run(
        [sys.executable, *args], cwd=ROOT, env=env, capture_output=True, check=False
    )
    wall = time.perf_counter() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert done.returncode in {0, 1}, done.stderr.decode()
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main() -> None:
    """Measure and print."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    plan = sys.argv[2] if len(sys.argv) > 2 else "plans/harbour-hour.yaml"
    ways = {**WAYS, "check": (*WAYS["check"], plan)}
    taken: dict[str, list[tuple[float, float]]] = {name: [] for name in ways}
    with tempfile.TemporaryDirectory() as bytecode:
        for args in ways.values():
            run(args, bytecode)  # compiles, and warms the disk's memory
        for _ in range(rounds):
            for name, args in ways.items():
                taken[name].append(run(args, bytecode))
    print(
        f"{plan}, {rounds} alternating rounds, Python {sys.version.split()[0]}, "
        f"{os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}"
    )
    medians = {}
    for name, pairs in taken.items():
        wall, cpu = (statistics.median(column) for column in zip(*pairs, strict=True))
        medians[name] = wall, cpu
        print(f"{name:<6} wall {wall * 1000:6.1f} ms   processor {cpu * 1000:6.1f} ms")
    for index, what in enumerate(("wall", "processor")):
        ratio = medians["check"][index] / medians["peer"][index]
        print(f"ratio by {what}: {ratio:.2f} (aim: at most {BAR})")


if __name__ == "__main__":
    main()
