"""The exact fit of stays: a dynamic programme over the time they can give or take.

Every stay adds its whole breaths to what the stays before it reach, the best way to each length is
kept, and the stretch of time that takes what is left over closes the sum. Steps that have a unit of
100 ms or more in common share one exact axis; breaths of odd lengths meet on the grid of 100 ms.
"""

from collections.abc import Iterator, Sequence
from math import gcd

from conductor.timing.problem import GRID_MS, Fit, Order, Price, Problem, Stay, far
from conductor.values import Struct

_CHANGE = 1 << 44  # more than any distance: one change more outweighs it
_REST = 1 << 60  # a breath of the final rest outweighs any number of changes
_NEVER = 1 << 90

Moves = dict[int, int]
"""By how much some stays change, by their number."""


def solve(problem: Problem) -> Fit:
    """Fit the stays of a problem; its passages all stay."""
    need = problem.target - problem.length
    up = need > 0
    taker = _taker(problem.stays)
    movers = [k for k in range(len(problem.stays)) if k != taker and problem.stays[k].room(up)]
    prices = _Prices(problem, up)
    closing = _Taker(None if taker is None else problem.stays[taker], prices, up)
    ways = _ways([(k, problem.stays[k]) for k in movers], abs(need), up, prices)
    closed = (closing.closed(abs(need), way) for way in ways)
    best = min(closed, key=lambda one: (problem.missed(one.missing), one.price))
    moves = dict(best.way.moves())
    if taker is not None:
        moves[taker] = best.shift
    return _fit(problem, moves, best, up)


class _Way(Struct, frozen=True):
    """One length that can be reached, at its price; `picks` are the cells it comes from."""

    ms: int
    price: int
    picks: "tuple[tuple[_Table, int], ...]" = ()

    def moves(self) -> Iterator[tuple[int, int]]:
        """By how much each stay changes to reach it."""
        for table, cell in self.picks:
            yield from table.moves(cell)


class _Closed(Struct, frozen=True):
    """A way with what the taker gives to it: `shift` in the taker's unit, ms still missing."""

    way: _Way
    shift: int
    missing: int
    price: int


def _taker(stays: Sequence[Stay]) -> int | None:
    """Which stretch of time takes what is left over: the final rest, else the last one."""
    able = [k for k, stay in enumerate(stays) if stay.timed and stay.least < stay.most]
    return max(able, key=lambda k: (stays[k].rest, k), default=None)


class _Prices:
    """What it costs that a stay changes by so much, in one number: rest, changes, distance."""

    def __init__(self, problem: Problem, up: bool) -> None:
        self._breath = max(problem.breath, 1)
        self._under_way = problem.order is Order.UNDER_WAY
        self._up = up

    def of(self, stay: Stay, change: int, remainder: bool = False) -> int:
        """The price of a change, along with what is sought or (negative) against it.

        As a remainder less than a breath counts as nothing but the distance it is.
        """
        if not change:
            return 0
        breaths = abs(change) * stay.step // self._breath
        price = stay.cost(change)
        if self._under_way and not stay.rest and (breaths or not remainder):
            price += _CHANGE
        gives = (change > 0) is not self._up
        if stay.rest and (gives or self._under_way):
            price += breaths * _REST
        return price


class _Taker:
    """The stretch of time that closes the sum, as far as it goes either way."""

    def __init__(self, stay: Stay | None, prices: _Prices, up: bool) -> None:
        self._stay, self._prices = stay, prices
        self._along = stay.room(up) if stay else 0
        self._against = stay.room(not up) if stay else 0

    def closed(self, need: int, way: _Way) -> _Closed:
        """Close one way: what is still missing of `need` goes to the taker (ms)."""
        missing = need - way.ms
        if self._stay is None:
            return _Closed(way, 0, missing, way.price)
        step = self._stay.step
        whole = abs(missing) // step
        shift = min(whole, self._along) if missing > 0 else -min(whole, self._against)
        price = way.price + self._prices.of(self._stay, shift, remainder=True)
        return _Closed(way, shift, missing - shift * step, price)


class _Table:
    """The cheapest way to every multiple of `unit`, and how the stays get there."""

    def __init__(self, unit: int, limit: int) -> None:
        self.unit = unit
        self._limit = limit // unit
        self._added: list[tuple[int, dict[int, tuple[int, int]]]] = []
        self._layers: list[list[int]] = [[0]]

    @property
    def prices(self) -> list[int]:
        """The price of each cell; a cell that cannot be reached costs more than anything."""
        return self._layers[-1]

    def add(self, number: int, options: dict[int, int], prices: dict[int, int]) -> None:
        """Let one more stay change: ms by option, and what each option costs."""
        before = self._layers[-1]
        cells = {change: ms // self.unit for change, ms in options.items()}
        size = min(len(before) + max(cells.values()), self._limit + 1)
        after = before + [_NEVER] * (size - len(before))
        for change, cell in cells.items():
            price = prices[change]
            row = [old + price for old in before[: max(size - cell, 0)]]
            here = after[cell : cell + len(row)]
            after[cell : cell + len(row)] = [
                old if old <= new else new  # noqa: FURB136 -- twice as fast as min
                for old, new in zip(here, row, strict=True)
            ]
        self._added.append((number, {change: (cells[change], prices[change]) for change in cells}))
        self._layers.append(after)

    def moves(self, cell: int) -> Iterator[tuple[int, int]]:
        """Walk back from a cell: by how much each stay changes."""
        for index in range(len(self._added) - 1, -1, -1):
            number, options = self._added[index]
            price, before = self._layers[index + 1][cell], self._layers[index]
            if cell < len(before) and before[cell] == price:
                continue
            for change, (cells, cost) in options.items():
                if 0 <= cell - cells < len(before) and before[cell - cells] + cost == price:
                    yield number, change
                    cell -= cells
                    break


def _ways(
    movers: Sequence[tuple[int, Stay]], need: int, up: bool, prices: _Prices
) -> Iterator[_Way]:
    """Every length that whole breaths reach, up to one step beyond the need."""
    offers = []
    for number, stay in movers:
        steps = {change: change * stay.step for change in stay.options(up)}
        if steps:
            offers.append((number, stay, steps))
    beyond = max((min(steps.values()) for _, _, steps in offers), default=0)
    limit = min(need + beyond, sum(max(steps.values()) for _, _, steps in offers))
    tables: list[_Table] = []
    for unit, members in _families(offers):
        table = _Table(unit, limit)
        for number, stay, steps in members:
            table.add(number, steps, {one: prices.of(stay, one) for one in steps})
        tables.append(table)
    return iter(_joined(tables, limit))


_Offer = tuple[int, Stay, dict[int, int]]


def _families(offers: Sequence[_Offer]) -> list[tuple[int, list[_Offer]]]:
    """Stays whose steps are whole multiples of one unit, as large as can be, of 100 ms or more."""
    families: list[tuple[int, list[_Offer]]] = []
    for offer in offers:
        own = gcd(*offer[2].values())
        for index, (unit, members) in enumerate(families):
            if gcd(unit, own) >= GRID_MS:
                families[index] = (gcd(unit, own), [*members, offer])
                break
        else:
            families.append((own, [offer]))
    return families


def _joined(tables: Sequence[_Table], limit: int) -> list[_Way]:
    """The ways of all families together; of those on one grid line the cheapest."""
    ways = [_Way(0, 0)]
    for table in tables:
        cells = [(k * table.unit, price, k) for k, price in enumerate(table.prices)]
        cells = [one for one in cells if one[1] < _NEVER]
        if len(ways) == 1:
            ways = [_Way(ms, price, ((table, k),)) for ms, price, k in cells]
            continue
        kept: dict[int, tuple[int, int, _Way, int]] = {}
        for way in ways:
            for ms, price, k in cells:
                if way.ms + ms > limit:
                    break
                line, total = (way.ms + ms) // GRID_MS, way.price + price
                if line not in kept or total < kept[line][0]:
                    kept[line] = (total, way.ms + ms, way, k)
        ways = [_Way(ms, price, (*way.picks, (table, k))) for price, ms, way, k in kept.values()]
    return ways


def _fit(problem: Problem, moves: Moves, best: _Closed, up: bool) -> Fit:
    sign = 1 if up else -1
    amounts = {
        name: stay.amount + sign * moves.get(number, 0)
        for number, stay in enumerate(problem.stays)
        for name in stay.ids
    }
    misses = -best.missing if up else best.missing
    rest, left = divmod(best.price, _REST)
    changes, distance = divmod(left, _CHANGE)
    missed = problem.missed(misses)
    return Fit(amounts, (), misses, Price(far(misses), 0, missed, rest, changes, distance))
