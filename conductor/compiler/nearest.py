"""The course nearest to the plan by which a class can last as long as it shall.

What is sought, each before the next:

1. The length lies between the class with every stay at its least and with every stay at its most,
   or is missed by least.
2. The fewest passages are left out.
3. Parts with a share or a length of their own come as near to it as their stays can.
4. The fewest rounds are changed; two in two places rather than two in one (squares, summed).
5. The breath differs by the fewest percent.
6. With all stays as written the class comes nearest to the length.
7. What changes comes later in the class.

Stays come after all that: they are shared out by `timing.solve`. The search is exact: by branch and
bound over every choice there is, what can be no better than the best one found is passed over.
"""

from collections.abc import Callable, Mapping, Sequence
from itertools import product

from conductor.compiler.courses import Breath, Course, Varying, choices, led, paces
from conductor.compiler.measure import Measure, Sum, measure
from conductor.compiler.resolve import Names
from conductor.compiler.unfold import unfold
from conductor.plan.model import Plan
from conductor.shapes.catalogue import Catalogue
from conductor.sides import Breath as Half
from conductor.spans import Span
from conductor.values import Struct

TOGETHER = 400  # ways to choose among rounds within rounds; the nearest ones, where there are more
WHOLE = 10_000  # hundredths of a percent
BREATH_MS = 8_000  # where a plan does not say

Barred = Callable[[Course], bool]
"""Whether a class cannot be led on such a course."""


class Price(Struct, frozen=True, order=True):
    """How far a course is from the plan, by the preferences in their order."""

    beyond: int
    gone: int = 0
    shares: int = 0
    moved: int = 0
    breath: int = 0
    off: int = 0


class Found(Struct, frozen=True):
    """A course with its price, and the shortest and the longest class its stays can make (ms)."""

    course: Course
    price: Price
    least: int
    most: int


_Three = tuple[int, int, int]
"""The shortest, the longest and the length as written (ms)."""


class _Ends(Struct, frozen=True):
    """The shortest and the longest of one part, and with its stays as written."""

    least: Sum
    most: Sum
    written: Sum

    def lengths(self, breaths: Mapping[Span, Breath]) -> "_Three":
        """The three of them in ms."""
        return (
            self.least.length(breaths),
            self.most.length(breaths),
            self.written.length(breaths),
        )


class _Option(Struct, frozen=True):
    """One way to choose in a group: what it costs, and the parts it changes."""

    rounds: Mapping[Span, int]
    gone: frozenset[Span]
    moved: int
    ends: Mapping[int, _Ends]


class _Lengths(Struct, frozen=True):
    """An option under certain breaths: ms it adds to the three lengths, in all and by part."""

    option: _Option
    all: _Three
    parts: Mapping[int, _Three]


class Nearest:
    """Every choice there is in a plan, measured once for all lengths that are asked for."""

    def __init__(self, plan: Plan, known: Catalogue, passages: bool = True) -> None:
        self.plan, self._known = plan, known
        self.choices = choices(plan, passages)
        self._own = {
            number: part.length.ms for number, part in enumerate(plan.parts) if part.length
        }
        self.measures = self.measured(Course())
        self._ends = [_ends(one) for one in self.measures]
        self._paces = list(paces(self.choices.breaths))
        self._options: list[list[_Option]] | None = None
        self._last: tuple[Mapping[Span, Breath] | None, list[_Three]] = None, []

    @property
    def rhythm(self) -> int:
        """How long a breath is at the top of the plan (ms)."""
        breath = self.plan.breath
        return breath.inhale + breath.exhale if breath else BREATH_MS

    def measured(self, course: Course) -> list[Measure]:
        """All parts as a course leads them, one after the other."""
        unfolded = unfold(led(self.plan, course), Names(self._known))
        found: list[Measure] = []
        last = Half.OUT
        for number in range(len(self.plan.parts)):
            bits = tuple(bit for bit in unfolded.bits if bit.part == number)
            found.append(measure(bits, last))
            last = found[-1].last
        return found

    def best(self, target: int, barred: Barred = lambda _: False) -> Found:
        """The course nearest to the plan for a length (ms)."""
        written = self.written(target)
        if written.price <= Price(0, 0, 0, 0, 0, target):
            return written
        if self._options is None:
            self._options = [self._group(group) for group in self.choices.groups]
        best: Found | None = None
        for level, breaths in self._paces:
            search = _Search(self, target, level, breaths, barred, best)
            best = search.searched([[self._lengths(o, breaths) for o in g] for g in self._options])
        return best or written

    def written(self, target: int) -> Found:
        """How near the plan itself comes."""
        return self._found(target, {}, 0, ())

    def wishes(self, target: int) -> dict[int, int]:
        """The length (ms) each part wishes for, by its number."""
        return {
            number: target * part.share.of // WHOLE
            for number, part in enumerate(self.plan.parts)
            if part.share
        }

    def _found(
        self,
        target: int,
        breaths: Mapping[Span, Breath],
        level: int,
        chosen: Sequence[_Lengths],
    ) -> Found:
        """What a choice comes to."""
        parts = [self.part(number, breaths, chosen) for number in range(len(self._ends))]
        least, most, now = (sum(part[k] for part in parts) for k in range(3))
        wishes = [*self.wishes(target).items(), *self._own.items()]
        course = Course(
            {span: count for one in chosen for span, count in one.option.rounds.items()},
            breaths,
            frozenset().union(*(one.option.gone for one in chosen)),
        )
        price = Price(
            _outside(target, least, most),
            len(course.gone),
            sum(_outside(wish, *parts[number][:2]) for number, wish in wishes),
            sum(one.option.moved for one in chosen),
            level,
            abs(target - now),
        )
        return Found(course, price, least, most)

    def part(
        self, number: int, breaths: Mapping[Span, Breath], chosen: Sequence[_Lengths]
    ) -> _Three:
        """The lengths there can be of a part; one of its own fixes them."""
        least, most, now = self.lengths(number, breaths)
        for one in chosen:
            if number in one.parts:
                down, up, more = one.parts[number]
                least, most, now = least + down, most + up, now + more
        own = self._own.get(number)
        if own is not None:
            least = most = now = min(max(own, least), most)
        return least, most, now

    def lengths(self, number: int, breaths: Mapping[Span, Breath]) -> _Three:
        """The lengths of a part as written, but for its breath."""
        if self._last[0] is not breaths:
            self._last = breaths, [ends.lengths(breaths) for ends in self._ends]
        return self._last[1][number]

    def _group(self, group: tuple[Varying, ...]) -> list[_Option]:
        """Every way to choose in a group, what is written first."""
        ways = sorted(
            product(*(one.counts for one in group)),
            key=lambda counts: (_moved(group, counts), counts),
        )
        return [self._option(group, counts) for counts in ways[:TOGETHER]]

    def _option(self, group: tuple[Varying, ...], counts: tuple[int, ...]) -> _Option:
        pairs = list(zip(group, counts, strict=True))
        rounds = {
            one.span: count for one, count in pairs if not one.passage and count != one.written
        }
        gone = frozenset(one.span for one, count in pairs if one.passage and not count)
        if not rounds and not gone:
            return _Option({}, frozenset(), 0, {})
        numbers = frozenset().union(*(one.parts for one, count in pairs if count != one.written))
        unfolded = unfold(
            led(self.plan, Course(rounds, {}, gone)), Names(self._known), parts=numbers
        )
        ends = {}
        for number in numbers:
            bits = tuple(bit for bit in unfolded.bits if bit.part == number)
            before = self.measures[number - 1].last if number else Half.OUT
            ends[number] = _ends(measure(bits, before))
        return _Option(rounds, gone, _moved(group, counts), ends)

    def _lengths(self, option: _Option, breaths: Mapping[Span, Breath]) -> _Lengths:
        parts = {}
        for number, ends in option.ends.items():
            here, there = self.lengths(number, breaths), ends.lengths(breaths)
            parts[number] = there[0] - here[0], there[1] - here[1], there[2] - here[2]
        least, most, now = (sum(change[k] for change in parts.values()) for k in range(3))
        return _Lengths(option, (least, most, now), parts)


class _Search:
    """All choices under certain breaths; the nearest one is kept, or the one known before."""

    def __init__(
        self,
        nearest: Nearest,
        target: int,
        level: int,
        breaths: Mapping[Span, Breath],
        barred: Barred,
        best: Found | None,
    ) -> None:
        self._nearest, self._target = nearest, target
        self._level, self._breaths = level, breaths
        self._barred = barred
        self._best = best
        self._fixed = bool(nearest._own)

    def searched(self, groups: list[list[_Lengths]]) -> Found | None:
        """The best of what is known and of all ways to choose one of each group."""
        self._groups = groups
        self._room = [(0, 0)]  # by how much the groups from here on can shorten and lengthen
        for group in reversed(groups):
            down, up = self._room[0]
            least = min(one.all[0] for one in group)
            most = max(one.all[1] for one in group)
            self._room.insert(0, (down + least, up + most))
        start = self._nearest._found(self._target, self._breaths, self._level, ())
        self._try((), start.least, start.most, 0, 0)
        return self._best

    def _try(
        self, chosen: tuple[_Lengths, ...], least: int, most: int, gone: int, moved: int
    ) -> None:
        down, up = self._room[len(chosen)]
        beyond = 0 if self._fixed else _outside(self._target, least + down, most + up)
        bound = Price(beyond, gone, 0, moved, self._level)
        if self._best and bound > self._best.price:
            return
        if len(chosen) == len(self._groups):
            self._keep(chosen)
            return
        for one in self._groups[len(chosen)]:
            self._try(
                (*chosen, one),
                least + one.all[0],
                most + one.all[1],
                gone + len(one.option.gone),
                moved + one.option.moved,
            )

    def _keep(self, chosen: tuple[_Lengths, ...]) -> None:
        found = self._nearest._found(self._target, self._breaths, self._level, chosen)
        if self._best and found.price >= self._best.price:
            return
        if not self._barred(found.course):
            self._best = found


def _ends(of: Measure) -> _Ends:
    return _Ends(of.sum("least"), of.sum("most"), of.sum("amount"))


def _moved(group: tuple[Varying, ...], counts: tuple[int, ...]) -> int:
    pairs = zip(group, counts, strict=True)
    return sum((count - one.written) ** 2 for one, count in pairs if not one.passage)


def _outside(target: int, least: int, most: int) -> int:
    """By how much a length lies outside of what can be reached."""
    return max(least - target, target - most, 0)
