"""Problems for the solver, drawn at random, and the slow ways to solve them."""

from collections.abc import Iterator
from itertools import combinations, product

from hypothesis import strategies as st

from conductor.timing.problem import NEAR_MS, Order, Passage, Price, Problem, Stay, without
from conductor.timing.search import bare
from conductor.values import replace


def breaths(name: str, amount: int, least: int, most: int, step: int = 8000) -> Stay:
    return Stay((name,), amount, least, most, step)


def rest(amount: int, least: int, most: int) -> Stay:
    return Stay(("rest",), amount, least, most, 1, 8000, rest=True, timed=True)


@st.composite
def stays(draw: st.DrawFn, name: str) -> Stay:
    amount = draw(st.integers(1, 5))
    least, most = draw(st.integers(1, amount)), draw(st.integers(amount, 7))
    unit = draw(st.sampled_from([8000, 10_000, 7500, 9100, 8571]))
    both = draw(st.booleans())
    if draw(st.integers(0, 3)):
        return Stay((name,), amount, least, most, unit * (1 + both))
    return Stay((name,), amount * unit, least * unit, most * unit, 1 + both, unit, timed=True)


@st.composite
def problems(draw: st.DrawFn, odd: bool = True) -> Problem:
    """A small problem: some stays, perhaps a rest, perhaps passages with stays of their own."""
    those = [draw(stays(f"s{k}")) for k in range(draw(st.integers(0, 4)))]
    if not odd:
        those = [one for one in those if one.step * one.by % 100 == 0]
    if draw(st.integers(0, 3)) == 0:
        those.append(Stay(("rest",), 8, draw(st.integers(4, 8)), 10, 8000, rest=True))
    elif draw(st.booleans()):
        low, high = draw(st.sampled_from([(60, 60), (40, 60), (30, 90), (60, 100)]))
        those.append(rest(60_000, 1000 * low, 1000 * high))
    passages = []
    for k in range(draw(st.integers(0, 3))):
        names = frozenset(name for one in those if not one.rest for name in one.ids)
        held = draw(st.sets(st.sampled_from(sorted(names)), max_size=1)) if names else set()
        after = f"p{k - 1}" if k and draw(st.booleans()) else ""
        ms = 1000 * draw(st.integers(8, 60)) + 8000 * 14 * len(held)
        passages.append(Passage(f"p{k}", ms, frozenset(held), after))
    length = 400_000
    target = length + draw(st.integers(-200_000, 150_000))
    order = draw(st.sampled_from(list(Order)))
    return Problem(tuple(those), length, target, 8000, order, tuple(passages))


def companies(problem: Problem) -> Iterator[frozenset[str]]:
    """Every set of passages that may go, the empty one too."""
    after = {one.key: one.after for one in problem.passages}
    for count in range(len(after) + 1):
        for some in combinations(after, count):
            if all(after[key] in ("", *some) for key in some):
                yield frozenset(some)


def priced(problem: Problem, gone: int, changes: tuple[int, ...], taker: int | None) -> Price:
    """The price of one choice of amounts, straight from what the preferences say."""
    now = problem.length + sum(
        one.step * change for one, change in zip(problem.stays, changes, strict=True)
    )
    missed = abs(problem.target - now)
    rest, many, distance = 0, 0, 0
    for k, (one, change) in enumerate(zip(problem.stays, changes, strict=True)):
        whole = abs(change) * one.step // problem.breath
        if one.rest and (change < 0 or problem.order is Order.UNDER_WAY):
            rest += whole
        if not one.rest and change and (k != taker or whole):
            many += problem.order is Order.UNDER_WAY
        distance += one.step * change * change // max(one.amount, 1)
    near = missed < NEAR_MS
    met = near and problem.order is Order.UNDER_WAY
    return Price(0 if near else missed, gone, 0 if met else missed, rest, many, distance)


def taking(problem: Problem) -> int | None:
    """Which stretch of time takes what is left over, as the preferences have it."""
    able = [k for k, one in enumerate(problem.stays) if one.timed and one.least < one.most]
    rests = [k for k in able if problem.stays[k].rest]
    return (rests or able)[-1] if able else None


def choices(problem: Problem) -> Iterator[tuple[int, ...]]:
    """Every choice of amounts; of the taker only the one that comes nearest."""
    up = problem.target > problem.length
    sign = 1 if up else -1
    taker = taking(problem)
    ranges = [
        (0,) if k == taker else (0, *(sign * one for one in stay.options(up)))
        for k, stay in enumerate(problem.stays)
    ]
    for changes in product(*ranges):
        if taker is None:
            yield changes
            continue
        stay = problem.stays[taker]
        now = problem.length + sum(
            one.step * change for one, change in zip(problem.stays, changes, strict=True)
        )
        missing = problem.target - now
        whole = abs(missing) // stay.step
        shift = min(whole, stay.room(up=missing > 0)) * (1 if missing > 0 else -1)
        yield (*changes[:taker], shift, *changes[taker + 1 :])


def slowly(problem: Problem) -> Price:
    """The best price there is, by looking at every choice."""
    best: list[Price] = []
    for gone in companies(problem):
        if gone and problem.length <= problem.target:
            continue
        left = bare(problem, gone)
        taker = taking(left)
        best += [priced(left, len(gone), changes, taker) for changes in choices(left)]
    return min(best)


def reckoned(problem: Problem, amounts: dict[str, int], gone: tuple[str, ...]) -> Price:
    """The price of a fit as it was given, and whether every law was kept."""
    left = bare(problem, frozenset(gone))
    held = {name for one in problem.passages if one.key in gone for name in one.holds}
    assert left.stays == without(problem.stays, held)
    changes = []
    for stay in left.stays:
        (amount,) = {amounts[name] for name in stay.ids}
        assert stay.least <= amount <= stay.most
        changes.append(amount - stay.amount)
    return priced(replace(left), len(gone), tuple(changes), taking(left))
