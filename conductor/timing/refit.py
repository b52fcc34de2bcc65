"""Fitting a score to a time: the problem a score poses, solved, and the score that comes of it.

The order of preference stands in `timing.problem`. All of it is integer arithmetic in a fixed
order, so every machine finds the same fit.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping

from conductor.score.model import Hold, Score
from conductor.spans import Span
from conductor.timing.holds import dropped, resized
from conductor.timing.leaving import Leaving
from conductor.timing.model import Change, Refit
from conductor.timing.problem import Fit, Order, Problem, Stay
from conductor.timing.search import bare, search
from conductor.timing.solve import solve
from conductor.values import replace

TIGHTER = 12  # times that stays are held back for what they would do, before nothing is changed

Veto = Callable[[Score, Score], frozenset[Span]]
"""From a score and what would be made of it, the places where that would go wrong anew."""


def no_veto(_before: Score, _after: Score) -> frozenset[Span]:
    """Nothing that meets the time goes wrong."""
    return frozenset()


def refit(
    score: Score,
    at: int,
    left_ms: int,
    done: int,
    *,
    passages: bool = True,
    veto: Veto = no_veto,
) -> Refit:
    """Make what is left of a class under way last exactly `left_ms`.

    Moments up to index `at` have begun and stay; of moment `at`, `done` ms are led already, and
    `left_ms` counts from there. Stays whose mates have been led whole keep their length. Without
    `passages` nothing is left out. What `veto` has something against is not done: a passage stays,
    a stay changes by less.
    """
    begun = min(at + 1, len(score.moments))
    leaving = Leaving(score, begun)
    ahead = _Ahead(score, at, done, begun)
    problem = ahead.problem(left_ms + done, Order.UNDER_WAY)
    if passages:
        problem = replace(problem, passages=leaving.passages())
    trial = _Trial(score, at, begun, leaving, veto)
    return trial.refit(search(problem, trial.solved))


def fit(score: Score, length: int) -> Refit:
    """Make a score that nobody has begun last exactly `length` ms, by its stays alone."""
    return _Trial(score).refit(solve(problem_of(score, length)))


def problem_of(score: Score, length: int, order: Order = Order.PLAN) -> Problem:
    """The problem that a score which nobody has begun poses, so that it lasts `length` ms."""
    return _Ahead(score, 0, 0, 0).problem(length, order)


def to_leave_out(score: Score, length: int, leaving: Leaving) -> tuple[str, ...]:
    """The drop keys without which a score would best last `length` ms."""
    problem = replace(problem_of(score, length), passages=leaving.passages())
    return search(problem, _Trial(score, leaving=leaving).solved).gone


class _Trial:
    """Fits tried on a score: whether the class could be led on, and what would go wrong."""

    def __init__(
        self,
        score: Score,
        at: int = 0,
        begun: int = 0,
        leaving: Leaving | None = None,
        veto: Veto = no_veto,
    ) -> None:
        self._score, self._at, self._begun = score, at, begun
        self._leaving, self._veto = leaving, veto

    def solved(self, problem: Problem, gone: frozenset[str]) -> Fit | None:
        """The best fit without these that nothing can be said against, or None."""
        if gone and (self._leaving is None or self._leaving.trouble(gone)):
            return None
        left = bare(problem, gone)
        for _ in range(TIGHTER):
            found = solve(left)
            price = replace(found.price, gone=len(gone))
            found = replace(found, gone=tuple(sorted(gone)), price=price)
            wrong = self._wrong(found)
            if not wrong:
                return found
            if not (blamed := self._blamed(left, found, wrong)):
                break
            left = self._held_back(left, found, blamed)
        left = replace(left, stays=())
        return None if gone else solve(left)

    def _wrong(self, found: Fit) -> frozenset[Span]:
        if self._veto is no_veto:
            return frozenset()
        changed = self.score(found)
        return self._veto(self._score, changed) if changed is not self._score else frozenset()

    def _blamed(self, problem: Problem, found: Fit, wrong: frozenset[Span]) -> list[Stay]:
        """The stays that were changed and stand where something would go wrong, else do it."""
        names = {moment.hold for moment in self._score.moments if moment.origin in wrong}
        changed = [one for one in problem.stays if found.amounts[one.ids[0]] != one.amount]
        there = [stay for stay in changed if names.intersection(stay.ids)]
        return there or [one for one in changed if self._wrong(_moved(found, one, 0)) < wrong]

    def _held_back(self, problem: Problem, found: Fit, blamed: list[Stay]) -> Problem:
        """The problem with new bounds for these stays: as far as each can go and do no harm."""
        bounds = {stay.ids: self._bound(stay, found) for stay in blamed}
        stays = []
        for stay in problem.stays:
            bound = bounds.get(stay.ids)
            if bound is not None:
                name = "most" if found.amounts[stay.ids[0]] > stay.amount else "least"
                stay = replace(stay, **{name: bound})  # noqa: PLW2901 -- the same stay, held back
            stays.append(stay)
        return replace(problem, stays=tuple(stays))

    def _bound(self, stay: Stay, found: Fit) -> int:
        """How far from its plan towards what was found a stay can go, by halves, in whole steps."""
        good, bad = 0, abs(found.amounts[stay.ids[0]] - stay.amount) // stay.by + 1
        sign = 1 if found.amounts[stay.ids[0]] > stay.amount else -1
        least = self._wrong(_moved(found, stay, 0))
        while bad - good > 1:
            half = (good + bad) // 2
            if self._wrong(_moved(found, stay, sign * half * stay.by)) <= least:
                good = half
            else:
                bad = half
        return stay.amount + sign * good * stay.by

    def score(self, found: Fit) -> Score:
        """The score that comes of a fit."""
        left = dropped(self._score, found.gone, self._begun) if found.gone else self._score
        here = {name: amount for name, amount in found.amounts.items() if name in left.holds}
        return resized(left, here, self._at)

    def refit(self, found: Fit) -> Refit:
        """The score of a fit, with what it changes."""
        gone = [Change(key, 1, 0) for key in found.gone]
        holds = self._score.holds
        stays = [
            Change(name, holds[name].amount, amount)
            for name, amount in found.amounts.items()
            if holds[name].amount != amount
        ]
        return Refit(self.score(found), (*gone, *stays), found.misses)


def _moved(found: Fit, stay: Stay, by: int) -> Fit:
    """A fit with one stay so far from its plan instead."""
    amounts = dict.fromkeys(stay.ids, stay.amount + by)
    return replace(found, amounts={**found.amounts, **amounts})


class _Ahead:
    """What there is to fit: the stays ahead of what has begun."""

    def __init__(self, score: Score, at: int, done: int, begun: int) -> None:
        self._score, self._at, self._done, self._begun = score, at, done, begun
        self._led: dict[str, int] = defaultdict(int)
        self._coming: dict[str, int] = defaultdict(int)
        for moment in score.moments[:begun]:
            self._led[moment.hold] += 1
        for moment in score.moments[begun:]:
            self._coming[moment.hold] += 1

    def problem(self, target: int, order: Order) -> Problem:
        """To make what begins with the present moment last `target` ms."""
        meta, moments = self._score.meta, self._score.moments[self._at :]
        length = sum(moment.length for moment in moments)
        return Problem(tuple(self._stays()), length, target, meta.inhale + meta.exhale, order)

    def _stays(self) -> Iterable[Stay]:
        """The stays that may change, mates together, in the order of the class."""
        seen: set[str] = set()
        for name in dict.fromkeys((*self._led, *self._coming)):
            if name in seen or name not in self._score.holds:
                continue
            names = _together(name, self._score.holds)
            seen.update(names)
            stay = self._stay(sorted(names))
            if stay is not None:
                yield stay

    def _stay(self, names: list[str]) -> Stay | None:
        """One stay with its mates; None when one is led whole, or they are unequal by choice."""
        holds = [self._score.holds[name] for name in names]
        one = holds[0]
        if any(not self._open(hold) for hold in holds) or len({hold.amount for hold in holds}) > 1:
            return None
        least = max(self._least(hold) for hold in holds)
        return Stay(
            ids=tuple(names),
            amount=one.amount,
            least=min(least, one.amount),
            most=max(min(hold.most for hold in holds), one.amount),
            step=sum(1 if hold.timed else hold.unit for hold in holds),
            by=max(hold.unit for hold in holds) if one.timed else 1,
            rest=any(hold.rest for hold in holds),
            timed=one.timed,
        )

    def _open(self, hold: Hold) -> bool:
        """Whether some of it is still to be led; a stretch of time may be under way."""
        if self._coming.get(hold.id):
            return True
        moments = self._score.moments
        under_way = moments[self._at].hold if self._begun > self._at else ""
        return hold.timed and under_way == hold.id

    def _least(self, hold: Hold) -> int:
        """Its least amount, and never less than what has been led of it."""
        led = self._led.get(hold.id, 0)
        if hold.timed:
            return max(hold.least, self._done if led else 0, 1)
        return max(hold.least, -(-(led - hold.half) // 2), 1 - hold.half)


def _together(name: str, holds: Mapping[str, Hold]) -> set[str]:
    """A hold with its mates, and theirs."""
    names: set[str] = set()
    todo = [name]
    while todo:
        one = todo.pop()
        if one not in names and one in holds:
            names.add(one)
            todo.extend(holds[one].mates)
    return names
