"""How long compiling an hour takes, against yaml's own pure-Python `compose` of the same file.

Both in one process, alternating, medians; all passes from text to score, the catalogue loaded.
Run it as `python tests/bench/compile_ratio.py [ROUNDS] [PLAN]`. The aim is a ratio of at most 1.0.
"""

import gc
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

import yaml

from conductor.compiler.compile import compile as compile_plan
from conductor.shapes.catalogue import load

ROOT = Path(__file__).parents[2]
BAR = 1.0


def timed(work: Callable[[], object]) -> float:
    """Seconds of processor time for one go."""
    gc.collect()
    began = time.process_time()
    work()
    return time.process_time() - began


def main() -> None:
    """Measure and print."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    plan = Path(sys.argv[2]) if len(sys.argv) > 2 else ROOT / "plans/harbour-hour.yaml"
    text = plan.read_text("utf-8")
    catalogue = load()
    ours, theirs = [], []
    for _ in range(rounds + 1):
        ours.append(timed(lambda: compile_plan(text, plan.name, catalogue)))
        theirs.append(timed(lambda: yaml.compose(text, Loader=yaml.Loader)))
    first = ours[0]
    mine, peer = statistics.median(ours[1:]), statistics.median(theirs[1:])
    score, _ = compile_plan(text, plan.name, catalogue)
    moments = len(score.moments) if score else 0
    print(f"{plan.name}: {len(text):,} characters, {moments} moments, {rounds} rounds")
    print(f"compile       {mine * 1000:7.2f} ms (the first time {first * 1000:.2f})")
    print(f"yaml.compose  {peer * 1000:7.2f} ms")
    print(f"ratio {mine / peer:.2f} (aim: at most {BAR})")


if __name__ == "__main__":
    main()
