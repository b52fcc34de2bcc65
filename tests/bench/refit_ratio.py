"""How long a class of 90 minutes takes to be fitted to another time, against HiGHS beside it.

The class is the shipped hour with seven of its parts led twice, which may be left out. HiGHS
(through scipy) gets the stays alone, one yes or no for each amount, and is asked for one preference
after the other; whether both found the same is printed with the ratio. Our column goes on to what
a landing needs: passages chosen too, the score made anew, the check watching over it.
Run it as `python tests/bench/refit_ratio.py [ROUNDS]`. The aim: under 100 ms, check and all.
"""

import re
import statistics
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from conductor.compiler.compile import Compiled, compiled
from conductor.fit.veto import Checked
from conductor.plan.reader import read
from conductor.score.model import Score
from conductor.settings import Settings
from conductor.shapes.catalogue import load
from conductor.timing.problem import Order, Problem
from conductor.timing.refit import problem_of, refit
from conductor.timing.solve import solve
from conductor.values import replace

ROOT = Path(__file__).parents[2]
MINUTES = (-12, -6, -3, -1, 2, 6)


def class_of_90() -> Compiled:
    """The hour's plan with parts led twice until it is an hour and a half."""
    text = (ROOT / "plans/harbour-hour.yaml").read_text("utf-8")
    head, *parts = re.split(r"(?m)^(?=  - part: )", text)
    rest = next(k for k, part in enumerate(parts) if "to: final rest" in part)
    again = [
        re.sub(r"  - part: (.*)\n", r"  - part: \1 again\n    may drop: yes\n", part, count=1)
        for part in parts[rest - 7 : rest]
    ]
    plan, findings = read(head + "".join([*parts[:rest], *again, *parts[rest:]]), "long.yaml")
    if plan is None:
        raise SystemExit(f"the plan cannot be read: {findings}")
    done = compiled(replace(plan, length=None), load())
    if done.score is None:
        raise SystemExit(f"the plan cannot be led: {done.findings}")
    return done


def timed(work: Callable[[], object]) -> float:
    """Milliseconds of processor time for one go."""
    began = time.process_time()
    work()
    return (time.process_time() - began) * 1000


def by_highs(problem: Problem) -> tuple[int, int]:
    """The ms missed and the stays changed at best, as HiGHS has them."""
    up = problem.target > problem.length
    stays = [one for one in problem.stays if not one.rest]
    (rest,) = [one for one in problem.stays if one.rest]
    columns = [(k, c) for k, one in enumerate(stays) for c in (0, *one.options(up))]
    count = len(columns)
    choose = np.zeros((len(stays), count + 4))
    time_, many, far, missed, gives = (np.zeros(count + 4) for _ in range(5))
    for column, (k, change) in enumerate(columns):
        choose[k, column] = 1
        time_[column] = stays[k].step * change
        many[column] = bool(change)
        far[column] = stays[k].cost(change)
    time_[count:] = 1, -1, 1, -1  # missing, beyond, the rest along, the rest against
    missed[count : count + 2] = 1
    gives[count + 2 :] = 1
    need = abs(problem.target - problem.length)
    ends = [np.inf, np.inf, rest.room(up), rest.room(not up)]
    bounds = Bounds(np.zeros(count + 4), np.array([1.0] * count + ends))
    limits = [LinearConstraint(choose, 1, 1), LinearConstraint(time_, need, need)]
    whole = np.array([1] * count + [0] * 4)
    told = []
    for goal in (missed, gives, many, far):
        found = milp(goal, constraints=limits, integrality=whole, bounds=bounds)
        told.append(round(found.fun))
        most = found.fun + 0.5
        if goal is gives:  # less than a breath more of the rest counts as nothing
            most = (round(found.fun) // problem.breath + 1) * problem.breath - 1
        limits.append(LinearConstraint(goal, -np.inf, most))
    return told[0], told[2]


def main() -> None:
    """Measure and print."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    done = class_of_90()
    assert done.score is not None
    score: Score = done.score
    drops = {one.drop for one in score.moments if one.drop}
    print(f"{score.length / 60_000:.1f} min, {len(score.moments)} moments, {len(drops)} passages,")
    print(f"{len(problem_of(score, 0).stays)} stays that may change; medians of {rounds}, ms")
    print("minutes   solved   HiGHS   ratio   same   fitted   with check   the first time")
    for minutes in MINUTES:
        target = score.length + 60_000 * minutes
        problem = problem_of(score, target, Order.UNDER_WAY)
        price = solve(problem).price
        same = (price.missed, price.changes) == by_highs(problem)
        ours = statistics.median(timed(partial(solve, problem)) for _ in range(rounds))
        theirs = statistics.median(timed(partial(by_highs, problem)) for _ in range(rounds))
        bare = [timed(partial(refit, score, 0, target, 0)) for _ in range(rounds)]
        watched = Checked(done.shapes, {}, Settings())
        watched.know(score)  # as the class does before it begins
        seen = [timed(partial(watched, score, 0, target, 0)) for _ in range(rounds + 1)]
        fitted, checked = statistics.median(bare), statistics.median(seen[1:])
        row = f"{minutes:+7d} {ours:8.2f} {theirs:7.0f} {theirs / ours:7.0f} {same!s:>6}"
        print(f"{row} {fitted:8.1f} {checked:12.1f} {seen[0]:16.1f}")


if __name__ == "__main__":
    main()
