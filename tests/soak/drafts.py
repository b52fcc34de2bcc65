"""Hundreds of drafted plans: clean, on the minute, even, led to the end, and unlike each other.

Run by hand: python -m tests.soak.drafts [--plans 500]
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from itertools import combinations, pairwise
from pathlib import Path
from statistics import mean

from conductor.cli.opening import opened_text
from conductor.draft.draft import Draft, drafted
from conductor.draft.wish import Focus, Wish, usual_tempo
from conductor.engine.engine import Engine
from conductor.findings import Weight
from conductor.run.through import through
from conductor.score.model import Score
from conductor.settings import Settings
from conductor.sides import Breath, Side

LENGTHS = (10, 15, 20, 30, 40, 45, 50, 60, 75, 90)
COLUMNS = (
    "focus", "drafts", "errors", "warnings", "remarks", "length missed", "uneven", "breath twice",
    "not led", "cue too long", "layouts redrawn", "peaks", "shapes apart", "ms each",
)  # fmt: skip
PEOPLE = ("mixed level", "beginners", "experienced")


@dataclass
class Found:
    """What was found of the drafts of one focus."""

    plans: int = 0
    weights: Counter[Weight] = field(default_factory=Counter)
    missed: int = 0
    uneven: int = 0
    breath: int = 0
    unled: int = 0
    unfit: int = 0
    redrawn: int = 0
    seconds: list[float] = field(default_factory=list)
    peaks: set[str] = field(default_factory=set)
    shapes: dict[tuple[int, str], list[frozenset[str]]] = field(default_factory=dict)

    @property
    def bad(self) -> int:
        """Faults in all."""
        told = sum(self.weights.values())
        return told + self.missed + self.uneven + self.breath + self.unled + self.unfit


def wishes(plans: int) -> Iterator[Wish]:
    """As many wishes, over lengths, focuses and people, each with a seed of its own."""
    for number in range(plans):
        focus = list(Focus)[number % 4]
        minutes = LENGTHS[number // 4 % len(LENGTHS)]
        people = PEOPLE[number // 4 // len(LENGTHS) % 3]
        yield Wish(minutes, focus, people, usual_tempo(focus), seed=number)


def uneven(score: Score) -> bool:
    """Whether a shape of a passage lasts longer on one side."""
    sides: dict[Side, Counter[str]] = {side: Counter() for side in Side}
    for moment in score.moments:
        if moment.side and moment.pass_key:
            sides[moment.side][moment.shape] += moment.length
    return sides[Side.RIGHT] != sides[Side.LEFT]


def breathless(score: Score) -> bool:
    """Whether two inhales or two exhales follow each other."""
    return any(
        before.breath is after.breath is not Breath.FREE
        for before, after in pairwise(score.moments)
    )


def led(score: Score) -> bool:
    """Whether a class is led to its end with every moment at its time."""
    told = [one for some in through(Engine(score, {}, Settings())) for one in some]
    entered = [(one.moment, one.now) for one in told if one.kind == "moment"]
    begun = entered[0][1]
    at_time = entered == [(moment.id, begun + moment.start) for moment in score.moments]
    return at_time and told[-1].kind == "finished"


def look(wish: Wish, draft: Draft, found: Found) -> None:
    """Open a draft, and count what is wrong with it."""
    opened = opened_text(Path(f"{wish.seed}.yaml"), draft.text)
    found.plans += 1
    found.redrawn += draft.tries > 1
    found.peaks.add(draft.peak.shape)
    found.weights.update(one.weight for one in opened.findings)
    for one in opened.findings:
        print(f"{wish}: {one.weight} {one.words} [{one.rule}]", file=sys.stderr)
    score = opened.score
    if score is None:
        found.unled += 1
        return
    found.missed += score.length != wish.length
    found.uneven += uneven(score)
    found.breath += breathless(score)
    found.unled += not led(score)
    found.unfit += any(not cue.fits for cue in opened.cues)
    led_shapes = frozenset(moment.shape for moment in score.moments)
    found.shapes.setdefault((wish.minutes, wish.people), []).append(led_shapes)


def apart(found: Found) -> float:
    """The mean Jaccard distance of the shapes of drafts that differ in their seed alone."""
    pairs = [pair for row in found.shapes.values() for pair in combinations(row, 2)]
    return mean(1 - len(one & other) / len(one | other) for one, other in pairs) if pairs else 0


def main() -> int:
    """Draw the drafts and print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--plans", type=int, default=500)
    plans: int = parser.parse_args().plans
    found = {focus: Found() for focus in Focus}
    for wish in wishes(plans):
        began = time.perf_counter()
        draft = drafted(wish)
        found[wish.focus].seconds.append(time.perf_counter() - began)
        look(wish, draft, found[wish.focus])
    now = datetime.now(UTC).strftime("%Y-%m-%d")
    print(f"{now}: {plans} drafts of {LENGTHS[0]} to {LENGTHS[-1]} min\n")
    print(f"| {' | '.join(COLUMNS)} |")
    print("|---" * len(COLUMNS) + "|")
    for focus, one in found.items():
        weights = " | ".join(str(one.weights[weight]) for weight in Weight)
        print(
            f"| {focus} | {one.plans} | {weights} | {one.missed} | {one.uneven} | {one.breath} "
            f"| {one.unled} | {one.unfit} | {one.redrawn} | {len(one.peaks)} | {apart(one):.2f} "
            f"| {1000 * mean(one.seconds):.0f} |"
        )
    return 1 if any(one.bad for one in found.values()) else 0


if __name__ == "__main__":
    sys.exit(main())
