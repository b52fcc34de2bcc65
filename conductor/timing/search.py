"""The exact choice of what to leave out: whatever company of passages may be best is looked at.

Branch and bound: by how many go, fewest first, and among those by the least they could cost. What
is worse than the best one found at its very least is never solved.
"""

from collections.abc import Callable, Iterator
from itertools import islice

from conductor.timing.problem import NEAR_MS, Fit, Order, Passage, Price, Problem, far, without
from conductor.timing.solve import solve
from conductor.values import replace

MOST = 20_000  # companies looked at; more than any class has, so that no plan takes for ever

Solved = Callable[[Problem, frozenset[str]], Fit | None]
"""A problem with some passages gone, solved; None where they cannot go."""


def plainly(problem: Problem, gone: frozenset[str]) -> Fit:
    """Solve a problem with these passages gone, whatever they are."""
    fit = solve(bare(problem, gone))
    return replace(fit, gone=tuple(sorted(gone)), price=replace(fit.price, gone=len(gone)))


def bare(problem: Problem, gone: frozenset[str]) -> Problem:
    """The problem that is left without some passages."""
    lost = [one for one in problem.passages if one.key in gone]
    holds = {name for one in lost for name in one.holds}
    length = problem.length - sum(one.ms for one in lost)
    return replace(problem, stays=without(problem.stays, holds), length=length, passages=())


def search(problem: Problem, solved: Solved = plainly) -> Fit:
    """The best fit there is, passages left out where it takes that; `solved` may refuse some.

    With nothing gone it is asked only once that is known to be best: asking takes its time.
    """
    plain = plainly(problem, frozenset())
    if plain.price.far:
        best = _shorter(problem, solved, plain)
        if best is not plain:
            return best
    whole = solved(problem, frozenset())
    if whole is None:
        raise ValueError("a problem that is refused with nothing gone")
    return whole if whole.price == plain.price else _shorter(problem, solved, whole)


def _shorter(problem: Problem, solved: Solved, best: Fit) -> Fit:
    """The best fit with passages left out, where it is better than the best one so far."""
    if problem.length <= problem.target:
        return best  # leaving something out would only make it shorter
    looked = 0
    for count in range(1, len(problem.passages) + 1):
        if not best.price.far:
            break
        some = list(islice(_companies(problem.passages, count), max(MOST - looked, 1)))
        looked += len(some)
        bounded = sorted((_least(problem, company), k) for k, company in enumerate(some))
        for bound, k in bounded:
            if bound >= best.price:
                break
            fit = solved(problem, frozenset(one.key for one in some[k]))
            if fit is not None and fit.price < best.price:
                best = fit
    return best


def _companies(passages: tuple[Passage, ...], count: int) -> Iterator[tuple[Passage, ...]]:
    """All ways to leave out so many, the last in the class first; no round before the one after."""

    def grown(first: int, left: int, gone: tuple[Passage, ...]) -> Iterator[tuple[Passage, ...]]:
        if not left:
            yield gone
            return
        for index in range(first, len(passages) - left + 1):
            one = passages[index]
            if not one.after or any(other.key == one.after for other in gone):
                yield from grown(index + 1, left - 1, (*gone, one))

    return grown(0, count, ())


def _least(problem: Problem, company: tuple[Passage, ...]) -> Price:
    """No fit without these passages can be better than this."""
    holds = {name for one in company for name in one.holds}
    need = problem.target - problem.length + sum(one.ms for one in company)
    up, over = need > 0, abs(need)
    stays = without(problem.stays, holds)
    rooms = sorted((stay.room(up) * stay.step for stay in stays), reverse=True)
    missed = max(over - sum(rooms), 0)
    changes = 0
    if problem.order is Order.UNDER_WAY:
        timed = max((stay.room(up) * stay.step for stay in stays if stay.timed), default=0)
        left = min(over, sum(rooms)) - timed - NEAR_MS
        while left > 0 and changes < len(rooms):
            left -= rooms[changes]
            changes += 1
    whole = sum(stay.step * max(stay.amount, 1) for stay in stays)
    moved = max(over - missed - NEAR_MS, 0)
    distance = max(moved * moved // max(whole, 1) - len(stays), 0)
    return Price(far(missed), len(company), problem.missed(missed), 0, changes, distance)
