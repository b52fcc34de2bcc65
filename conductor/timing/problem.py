"""What it means to meet a time: the stays and passages there are, the order of preference, the fit.

One problem serves every use: a class under way that must land, a late start, a plan's `length:`,
one part of it, or several lengths in a row. A problem knows nothing of scores, so it can be made
from anything that lasts: `timing.refit` makes it from a score, and so may others.

    stays = (Stay(("r", "l"), 5, 3, 8, step=16_000), Stay(("rest",), 300_000, 240_000, 600_000,
             step=1, by=8_000, rest=True))
    fit = solve(Problem(stays, length=3_600_000, target=3_540_000, breath=8_000))
    fit.amounts, fit.misses, fit.price          what each hold gets; 0 when it is met
    reach(problem)                              the shortest and the longest there is

What is sought, each before the next:

1. The time is met, or missed by least. A miss below a second passes for none.
2. The fewest passages are left out.
3. `Order.PLAN`: it is missed by the fewest ms, be it less than a second.
4. The final rest gives least; less than a breath of it is what is left over and counts as nothing.
   `Order.UNDER_WAY`: it also gets least, so that time to spare goes to the other stays first.
5. `Order.UNDER_WAY`: the fewest stays change, since whoever leads has to be told of each. A plan
   is fitted by everything giving a little.
6. It is nearest to the plan in proportion: ms moved, times the share of its stay they are, summed.

Always: whole breaths, stretches of time too, save where a bound ends them; within least and most;
mates equal; nothing grows while time lacks and nothing shrinks while there is time to spare, save
for the one stretch of time that takes what is left over. That is the final rest, or the last other
stretch of time that may change.
"""

from collections.abc import Mapping
from enum import Enum

from conductor.values import Struct

GRID_MS = 100  # lengths closer than that are one to the solver, where breaths have odd lengths
NEAR_MS = 1000  # no passage goes for less than that


class Order(Enum):
    """Which preferences count: those of a class that is led, or those of a plan on the table."""

    UNDER_WAY = "under way"
    PLAN = "plan"


class Stay(Struct, frozen=True):
    """Stays that change as one: a hold with its mates, of equal `amount`.

    `amount`, `least` and `most` are breaths or ms; one more of it makes the whole `step` ms longer,
    all mates counted. It changes by whole multiples of `by` (1 breath, or a breath's ms). `rest` is
    the final rest; `timed` says that the amounts are ms.
    """

    ids: tuple[str, ...]
    amount: int
    least: int
    most: int
    step: int
    by: int = 1
    rest: bool = False
    timed: bool = False

    def room(self, up: bool) -> int:
        """How far it can still go, in its own unit."""
        return self.most - self.amount if up else self.amount - self.least

    def cost(self, change: int) -> int:
        """How far from the plan it is, so much longer or shorter (ms times share)."""
        return self.step * change * change // max(self.amount, 1)

    def options(self, up: bool) -> tuple[int, ...]:
        """By how much it can change that way: whole breaths, and the bound itself."""
        room = self.room(up)
        found = list(range(self.by, room + 1, self.by))
        if room % self.by and room * self.step % GRID_MS == 0:
            found.append(room)
        return tuple(found)


class Passage(Struct, frozen=True):
    """What may be left out whole: `ms` go, and the stays of these holds with it.

    `after` is the passage that must have gone first (rounds go from the last on), "" for none.
    """

    key: str
    ms: int
    holds: frozenset[str] = frozenset()
    after: str = ""


class Problem(Struct, frozen=True):
    """What lasts `length` ms and is to last `target`; `breath` (ms) is the least that counts."""

    stays: tuple[Stay, ...]
    length: int
    target: int
    breath: int
    order: Order = Order.PLAN
    passages: tuple[Passage, ...] = ()

    def missed(self, ms: int) -> int:
        """What a miss of so many ms counts for, with what goes settled."""
        return 0 if self.order is Order.UNDER_WAY and far(ms) == 0 else abs(ms)


def far(ms: int) -> int:
    """What a miss of so many ms counts for before anything else."""
    return abs(ms) if abs(ms) >= NEAR_MS else 0


class Price(Struct, frozen=True, order=True):
    """How good a fit is, by the preferences in their order; less is better."""

    far: int
    gone: int
    missed: int
    rest: int
    changes: int
    distance: int


class Fit(Struct, frozen=True):
    """The best there is: amounts by hold, passages left out, ms over (positive: too long)."""

    amounts: Mapping[str, int]
    gone: tuple[str, ...]
    misses: int
    price: Price


class Reach(Struct, frozen=True):
    """The shortest and the longest that stays alone can make of a problem (ms)."""

    shortest: int
    longest: int


def reach(problem: Problem, gone: frozenset[str] = frozenset()) -> Reach:
    """How far a problem can be shortened and lengthened once these passages are left out."""
    lost = [one for one in problem.passages if one.key in gone]
    holds = {name for one in lost for name in one.holds}
    length = problem.length - sum(one.ms for one in lost)
    stays = without(problem.stays, holds)
    down, up = (sum(stay.room(way) * stay.step for stay in stays) for way in (False, True))
    return Reach(length - down, length + up)


def without(stays: tuple[Stay, ...], holds: set[str] | frozenset[str]) -> tuple[Stay, ...]:
    """The stays that are left where these holds are gone."""
    return tuple(stay for stay in stays if not holds.intersection(stay.ids)) if holds else stays
