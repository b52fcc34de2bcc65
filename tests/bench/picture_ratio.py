"""How long drawing an hour takes, against compiling the same plan, in one process, alternating.

Run it as `python -m tests.bench.picture_ratio [ROUNDS] [PLAN]`; medians of processor time.
"""

import statistics
import sys
from pathlib import Path

from conductor.cli.opening import opened
from conductor.compiler.compile import compile as compile_plan
from conductor.figure.model import Figure
from conductor.figure.svg import svg
from conductor.figure.text import text
from conductor.figure.timeline import timeline
from conductor.shapes.catalogue import load
from tests.bench.compile_ratio import ROOT, timed


def main() -> None:
    """Measure and print."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    plan = Path(sys.argv[2]) if len(sys.argv) > 2 else ROOT / "plans/harbour-hour.yaml"
    source, catalogue, found = plan.read_text("utf-8"), load(), opened(plan)
    assert found.score is not None
    score, drawn = found.score, Figure("T", (timeline(found.score, found.cues, found.shapes),))
    ways = {
        "compile": lambda: compile_plan(source, plan.name, catalogue),
        "lanes": lambda: timeline(score, found.cues, found.shapes),
        "text": lambda: text(drawn),
        "svg": lambda: svg(drawn),
    }
    took: dict[str, list[float]] = {name: [] for name in ways}
    for _ in range(rounds):
        for name, way in ways.items():
            took[name].append(timed(way))
    peer = statistics.median(took["compile"])
    for name, seconds in took.items():
        median = statistics.median(seconds)
        print(f"{name:<8} {median * 1000:7.2f} ms, {median / peer:.2f} of compiling")


if __name__ == "__main__":
    main()
