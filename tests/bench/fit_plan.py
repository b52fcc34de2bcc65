"""How long the nearest class of a length takes to find, against HiGHS on the same problem.

A plan of about 90 minutes is made by chance: parts with stays that may stretch, rounds that may
repeat, passages that may go, a breath that may stretch. Measuring the plan (once for all lengths)
and finding the best of a length are timed apart. The peer is `scipy.optimize.milp`: rounds,
passages and every amount of every line are binary choices, each preference is minimised in its
turn, for each breath there may be. Both must find the same price. Run it as
`python tests/bench/fit_plan.py [LENGTHS]`. The aim is 100 ms for a length.
"""

import random
import statistics
import sys
import time
from collections.abc import Sequence

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from conductor.compiler.nearest import Nearest
from conductor.fit.fitting import Fitter
from conductor.plan.reader import read
from conductor.shapes.catalogue import load
from tests.bench.common import machine, table

AIM_MS = 100
MIN = 60_000
PARTS = 7
WARM = "- in: arms overhead\n- out: standing fold\n- in: half lift\n- out: standing fold\n"
UP = "- in: arms overhead\n- out: mountain\n"


def ninety(chance: random.Random) -> str:
    """A plan of about 90 minutes."""
    lines = ["plan: 1", "title: Ninety", "kind: piece", "breath: 4 s in, 4 s out"]
    lines += ["breath may stretch: 7 to 10 s", "parts:"]
    for number in range(PARTS):
        lines += [f"  - part: P{number}", "    steps:", "      - come to: mountain"]
        for _ in range(5):
            lines += stay(chance, 6)
            lines += [f"      {line}" for line in (WARM + UP).splitlines()]
        rounds = chance.randint(2, 4)
        lines += [f"      - rounds: {rounds}", f"        may repeat: {rounds - 1} to {rounds + 2}"]
        lines += ["        steps:", *(f"          {line}" for line in (WARM + UP).splitlines())]
        lines += stay(chance, 10)
        if number % 2:
            lines += ["      - may drop: yes", "        steps:"]
            lines += [f"          {line}" for line in UP.splitlines()] + stay(chance, 10)
    lines += ["  - part: Rest", "    steps:", "      - free: 40 s", "        to: final rest"]
    lines += ["      - stay: 8 min", "        may stretch: 6 to 12 min"]
    return "\n".join(lines) + "\n"


def stay(chance: random.Random, indent: int) -> list[str]:
    """A stay with its bounds."""
    amount = chance.randint(4, 10)
    pad = " " * indent
    bounds = f"{amount - chance.randint(0, 2)} to {amount + chance.randint(0, 4)}"
    return [f"{pad}- stay: {amount} breaths", f"{pad}  may stretch: {bounds} breaths"]


# -- the peer ----------------------------------------------------------------------------------


def chosen(
    costs: Sequence[np.ndarray], rows: list[LinearConstraint], sizes: Sequence[int]
) -> float:
    """Minimise each cost in its turn over one choice of each group; give the last one's least."""
    count = sum(sizes)
    one_of = np.zeros((len(sizes), count))
    at = 0
    for row, size in enumerate(sizes):
        one_of[row, at : at + size] = 1
        at += size
    rows = [*rows, LinearConstraint(one_of, 1, 1)]
    best = 0.0
    for cost in costs:
        found = milp(cost, constraints=rows, integrality=np.ones(count), bounds=Bounds(0, 1))
        if not found.success:
            return float("inf")
        best = round(float(found.fun))
        rows.append(LinearConstraint(cost, -np.inf, best + 0.5))
    return best


def peer_course(nearest: Nearest, target: int) -> tuple[int, int, int] | None:
    """Passages gone, rounds moved and percents of breath, by HiGHS, for a length within reach."""
    groups = nearest._options or []
    best = None
    for level, breaths in nearest._paces:
        options = [[nearest._lengths(one, breaths) for one in group] for group in groups]
        flat = [one for group in options for one in group]
        start = nearest._found(target, breaths, level, ())
        least = np.array([one.all[0] for one in flat]) / 1000
        most = np.array([one.all[1] for one in flat]) / 1000
        gone = np.array([len(one.option.gone) for one in flat], dtype=float)
        moved = np.array([one.option.moved for one in flat], dtype=float)
        rows = [
            LinearConstraint(least, -np.inf, (target - start.least) / 1000),
            LinearConstraint(most, (target - start.most) / 1000, np.inf),
        ]
        sizes = [len(group) for group in options]
        first = chosen([gone], list(rows), sizes)
        if first == float("inf"):
            continue
        second = chosen([gone, moved], list(rows), sizes)
        price = (int(first), int(second), level)
        best = min(best or price, price)
    return best


def peer_stays(fitter: Fitter, target: int) -> float:
    """The least distance from the plan at which the stays meet the length, by HiGHS."""
    found, measures, shared = fitter.optimum(target)
    lines = {span: line for one in measures for span, line in one.lines.items()}
    length = sum(one.length({}) for one in measures)
    up = target > length
    rest = fitter._rest
    changes, costs, sizes = [], [], []
    for span, line in lines.items():
        if span == rest:
            continue
        room = range(line.most - line.amount + 1) if up else range(line.amount - line.least + 1)
        step = line.step({})
        changes += [(k if up else -k) * step / 1000 for k in room]
        costs += [step * k * k // max(line.amount, 1) for k in room]
        sizes.append(len(room))
    # the final rest takes exactly what it takes in the fit compared with
    own = lines[rest] if rest else None
    given = (shared.amounts[rest] - own.amount) / 1000 if rest and own else 0.0
    want = (target + shared.misses - length) / 1000 - given
    row = LinearConstraint(np.array(changes), want - 1e-6, want + 1e-6)
    extra = 0
    if rest and own:
        extra = own.step({}) * (shared.amounts[rest] - own.amount) ** 2 // own.amount
    assert found.price.beyond == 0
    return chosen([np.array(costs, dtype=float)], [row], sizes) + extra


def main() -> None:
    """Measure and print."""
    lengths = [int(one) for one in sys.argv[1].split(",")] if len(sys.argv) > 1 else []
    lengths = lengths or [60, 70, 75, 80, 90, 100, 110, 120]
    text = ninety(random.Random(7))  # noqa: S311 -- no secret, but the same plan each time
    plan, findings = read(text, "ninety.yaml")
    assert plan is not None, findings
    began = time.perf_counter()
    fitter = Fitter(text, plan, load())
    fitter.nearest.best(1)  # measures every choice
    measured = (time.perf_counter() - began) * 1000
    written = sum(one.length({}) for one in fitter.nearest.measures)
    ours, rows = [], []
    for length in lengths:
        target = length * MIN
        times = []
        for _ in range(5):
            began = time.perf_counter()
            found, _, shared = fitter.optimum(target)
            times.append((time.perf_counter() - began) * 1000)
        mine = statistics.median(times)
        ours.append(mine)
        if found.price.beyond:
            rows.append((f"{length} min", f"{mine:.1f}", "", "", "out of reach"))
            continue
        began = time.perf_counter()
        price, far = peer_course(fitter.nearest, target), peer_stays(fitter, target)
        theirs = (time.perf_counter() - began) * 1000
        same = price == (found.price.gone, found.price.moved, found.price.breath)
        same = same and abs(far - shared.distance) < 1
        words = "the same" if same else f"{price} {far:.0f}, not {found.price} {shared.distance}"
        rows.append(
            (f"{length} min", f"{mine:.1f}", f"{theirs:.0f}", f"{theirs / mine:.0f}", words)
        )
    print(machine())
    print(f"a plan of {written / MIN:.1f} min, {len(text.splitlines())} lines; ", end="")
    print(f"reading, compiling and measuring it once: {measured:.0f} ms")
    print(table(("length", "ours, ms", "HiGHS, ms", "times as fast", "optimum"), rows))
    print(f"median {statistics.median(ours):.1f} ms, greatest {max(ours):.1f} (aim: {AIM_MS})")


if __name__ == "__main__":
    main()
