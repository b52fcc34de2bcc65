"""Sharing a length out among the stays of a plan, by the lines they are written on.

A line has one amount however often it is led, since that is what can be written. So all the times
it is led change together; the two sides always do.
"""

from collections.abc import Mapping, Sequence

from conductor.compiler.measure import Line, Measure
from conductor.plan.model import PartOf
from conductor.spans import Span
from conductor.timing.problem import Problem, Stay
from conductor.timing.solve import solve
from conductor.values import Struct

Amounts = dict[Span, int]


class Shared(Struct, frozen=True):
    """What each line gets, by how much it misses (ms), and how far that is from the plan.

    `distance` is ms times share: by how much each line changes, times that over what it was.
    """

    amounts: Amounts
    misses: int
    distance: int


class _Lines:
    """The lines of a class, each with all its parts."""

    def __init__(self, measures: Sequence[Measure]) -> None:
        self.measures = measures
        self.lines: dict[Span, Line] = {}
        self.parts: dict[Span, set[int]] = {}
        for number, measure in enumerate(measures):
            for span, line in measure.lines.items():
                self._add(span, line)
                self.parts.setdefault(span, set()).add(number)

    def _add(self, span: Span, line: Line) -> None:
        known = self.lines.get(span)
        if known is None:
            known = self.lines[span] = Line(
                line.amount, line.least, line.most, line.timed, line.half
            )
        known.least, known.most = max(known.least, line.least), min(known.most, line.most)
        for beat, times in line.times.items():
            known.times[beat] = known.times.get(beat, 0) + times

    def within(self, numbers: frozenset[int]) -> list[Span]:
        """The lines that stand in these parts and nowhere else."""
        return [span for span, parts in self.parts.items() if parts <= numbers]

    def length(self, numbers: frozenset[int], amounts: Amounts) -> int:
        """How long these parts are together with such amounts (ms)."""
        total = 0
        for number in numbers:
            measure = self.measures[number]
            total += measure.length({})
            for span, line in measure.lines.items():
                total += (amounts[span] - line.amount) * line.step({})
        return total


def share(
    measures: Sequence[Measure],
    parts: Sequence[PartOf],
    wishes: Mapping[int, int],
    target: int,
    rhythm: int,
    rest: Span | None,
) -> Shared:
    """Make a class last `target` ms by its stays: parts with a length or a wish first, then all."""
    lines = _Lines(measures)
    amounts = {span: line.amount for span, line in lines.lines.items()}
    bound: set[Span] = set()

    def solved(numbers: frozenset[int], wanted: int) -> int:
        free = [span for span in lines.within(numbers) if span not in bound]
        stays = [_stay(span, lines.lines[span], amounts[span], rest) for span in free]
        stays = [stay for stay in stays if stay.least < stay.most]
        fit = solve(Problem(tuple(stays), lines.length(numbers, amounts), wanted, rhythm))
        amounts.update({span: fit.amounts[str(span)] for span in free if str(span) in fit.amounts})
        return fit.misses

    every = frozenset(range(len(parts)))
    for number, part in enumerate(parts):
        if part.length:
            solved(frozenset({number}), part.length.ms)
            bound.update(span for span, here in lines.parts.items() if number in here)
    for number, wish in wishes.items():
        solved(frozenset({number}), wish)
    others = every - wishes.keys()
    if wishes and others:
        solved(others, target - lines.length(every - others, amounts))
    misses = solved(every, target)
    return Shared(amounts, misses, _far(lines.lines, amounts))


def _stay(span: Span, line: Line, amount: int, rest: Span | None) -> Stay:
    units = [inhale + exhale for _, inhale, exhale in line.times]
    fewest = 1 if line.timed or not line.half else 0  # a stay of nothing is none
    return Stay(
        ids=(str(span),),
        amount=amount,
        least=min(max(line.least, fewest), amount),
        most=max(line.most, amount),
        step=line.step({}),
        by=max(units) if line.timed else 1,
        rest=span == rest,
        timed=line.timed,
    )


def _far(lines: Mapping[Span, Line], amounts: Amounts) -> int:
    return sum(
        line.step({}) * (amounts[span] - line.amount) ** 2 // max(line.amount, 1)
        for span, line in lines.items()
    )
