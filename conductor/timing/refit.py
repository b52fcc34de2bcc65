"""Fitting a score to a time: whole breaths shared among stays, both sides equal, then the rest.

All of it is integer arithmetic in a fixed order, so every machine finds the same fit.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from conductor.score.model import Hold, Score
from conductor.timing.holds import dropped, resized
from conductor.timing.leaving import choose
from conductor.timing.model import Change, Refit
from conductor.values import Struct


class _Stay(Struct):
    """Stays that change as one (mates), in breaths or ms; one more of `amount` lasts `step` ms."""

    ids: tuple[str, ...]
    amount: int
    least: int
    most: int
    step: int
    timed: bool
    rest: bool
    breath: int

    def room(self, up: bool) -> int:
        """How far it can still go, in its own unit."""
        return self.most - self.amount if up else self.amount - self.least

    def move(self, count: int, up: bool) -> None:
        """Make it longer or shorter by that many of its unit."""
        self.amount += count if up else -count


class _Try(Struct, frozen=True):
    """One way to fit: drop keys left out, amounts by hold, ms still missing (positive: long)."""

    keys: tuple[str, ...]
    amounts: Mapping[str, int]
    misses: int


def refit(score: Score, at: int, left_ms: int, done: int) -> Refit:
    """Make what is left of a class under way last exactly `left_ms`, in this order.

    Moments up to index `at` have begun and stay; of moment `at`, `done` ms are led already, and
    `left_ms` counts from there. Whole breaths are shared among stays in proportion to their
    room; mates stay equal, so a stay whose mate has been led whole keeps its length. Too long:
    the other stays give first, then passages that may be dropped go, last ones first, and the
    final rest gives last; less than a breath it gives at once. Too short: all grow, the rest
    too. What is over goes to time, the final rest before other stretches.
    """
    begun = min(at + 1, len(score.moments))
    case = _Case(score, at, left_ms + done, done, begun)
    best = _best(case, choose(score, begun, anew=False).groups if _long(case) else ())
    fitted = resized(dropped(score, best.keys, begun), best.amounts, at)
    changes = [Change(key, 1, 0) for key in best.keys]
    return Refit(fitted, (*changes, *_changes(score, best)), best.misses)


def fit(score: Score, length: int) -> Refit:
    """Make a score that nobody has begun last exactly `length` ms, by its stays alone."""
    best = _best(_Case(score, 0, length, 0, 0), ())
    return Refit(resized(score, best.amounts), _changes(score, best), best.misses)


def to_leave_out(score: Score, length: int, groups: Sequence[tuple[str, ...]]) -> tuple[str, ...]:
    """The drop keys, of these groups in order, without which a score would last `length` ms."""
    return _best(_Case(score, 0, length, 0, 0), groups).keys


def _long(case: "_Case") -> bool:
    return case.length > case.target  # leaving something out would only make it shorter


def _changes(score: Score, best: _Try) -> tuple[Change, ...]:
    return tuple(
        Change(key, score.holds[key].amount, amount)
        for key, amount in best.amounts.items()
        if score.holds[key].amount != amount
    )


def _best(case: "_Case", groups: Sequence[tuple[str, ...]]) -> _Try:
    """The first exact fit, sparing the rest, then with it; else within a breath, else nearest."""
    first = case.attempt((), with_rest=False)
    if not _long(case):
        return first
    tried = []
    for with_rest in (False, True):
        for count in range(len(groups) + 1):
            found = case.attempt([key for group in groups[:count] for key in group], with_rest)
            if not found.misses:
                return found
            tried.append(found)
    near = [found for found in tried if abs(found.misses) < case.breath]
    return near[0] if near else min(tried, key=lambda found: abs(found.misses))


class _Case:
    """What there is to fit: the stays ahead of what has begun."""

    def __init__(self, score: Score, at: int, target: int, done: int, begun: int) -> None:
        self.score, self.target, self.done = score, target, done
        self.at = at
        moments = score.moments
        self.length = sum(moment.length for moment in moments[at:])
        self.breath = score.meta.inhale + score.meta.exhale
        self.led: dict[str, int] = defaultdict(int)
        self.ahead: dict[str, int] = defaultdict(int)
        for moment in moments[:begun]:
            self.led[moment.hold] += 1
        for moment in moments[begun:]:
            self.ahead[moment.hold] += 1
        self.begun = begun

    def attempt(self, keys: Sequence[str], with_rest: bool) -> _Try:
        """Fit with these passages left out; without the rest, it gives less than a breath."""
        gone = set(keys)
        lost = [moment for moment in self.score.moments[self.begun :] if moment.drop in gone]
        lost = lost if gone else []
        stays = self.stays({moment.hold for moment in lost})
        over = self.length - sum(moment.length for moment in lost) - self.target
        left = _grown(stays, -over) if over < 0 else _shrunk(stays, over, with_rest, self.breath)
        amounts = {name: stay.amount for stay in stays for name in stay.ids}
        return _Try(tuple(keys), amounts, -left if over < 0 else left)

    def stays(self, gone: set[str]) -> list[_Stay]:
        """The stays that may change, mates together, in the order of the class."""
        found = []
        seen: set[str] = set()
        for name in dict.fromkeys((*self.led, *self.ahead)):
            if name in seen or name in gone or name not in self.score.holds:
                continue
            names = _together(name, self.score.holds, gone)
            seen.update(names)
            stay = self.stay(sorted(names))
            if stay is not None:
                found.append(stay)
        return found

    def stay(self, names: list[str]) -> _Stay | None:
        """One stay with its mates; None when one is led whole, or they are unequal by choice."""
        holds = [self.score.holds[name] for name in names]
        one = holds[0]
        if any(not self.open(hold) for hold in holds) or len({hold.amount for hold in holds}) > 1:
            return None
        least = max(self.least(hold) for hold in holds)
        return _Stay(
            ids=tuple(names),
            amount=one.amount,
            least=min(least, one.amount),
            most=max(min(hold.most for hold in holds), one.amount),
            step=sum(1 if hold.timed else hold.unit for hold in holds),
            timed=one.timed,
            rest=any(hold.rest for hold in holds),
            breath=max(hold.unit for hold in holds),
        )

    def open(self, hold: Hold) -> bool:
        """Whether some of it is still to be led; a stretch of time may be under way."""
        if self.ahead.get(hold.id):
            return True
        under_way = self.score.moments[self.at].hold if self.begun > self.at else ""
        return hold.timed and under_way == hold.id

    def least(self, hold: Hold) -> int:
        """Its least amount, and never less than what has been led of it."""
        led = self.led.get(hold.id, 0)
        if hold.timed:
            return max(hold.least, self.done if led else 0, 1)
        return max(hold.least, -(-(led - hold.half) // 2), 1 - hold.half)


def _together(name: str, holds: Mapping[str, Hold], gone: set[str]) -> set[str]:
    """A hold with its mates, and theirs, that are still in the class."""
    names: set[str] = set()
    todo = [name]
    while todo:
        one = todo.pop()
        if one not in names and one in holds and one not in gone:
            names.add(one)
            todo.extend(holds[one].mates)
    return names


def _grown(stays: list[_Stay], need: int) -> int:
    """Make stays longer by `need` ms in all; give back what could not be placed."""
    left = _share(stays, need, up=True)
    left = _fill(_times(stays), left, up=True)
    return _trade(stays, left, up=True)


def _shrunk(stays: list[_Stay], need: int, with_rest: bool, breath: int) -> int:
    """Make stays shorter by `need` ms in all; give back what could not be taken."""
    others = [stay for stay in stays if not stay.rest]
    left = _share(others, need, up=False)
    if with_rest:
        left = _share([stay for stay in stays if stay.rest], left, up=False)
    if with_rest or left < breath:
        left = _fill(_times(stays), left, up=False)
    else:
        left = _fill(_times(others), left, up=False)
    return _trade(stays if with_rest else others, left, up=False, all_stays=stays)


def _times(stays: Iterable[_Stay]) -> list[_Stay]:
    """Stretches of time that may change, the final rest first, then from the end of the class."""
    timed = [stay for stay in stays if stay.timed][::-1]
    return sorted(timed, key=lambda stay: not stay.rest)


def _share(stays: list[_Stay], need: int, up: bool) -> int:
    """Share ms in proportion to room, in whole units, the largest remainder first."""
    rooms = [stay.room(up) * stay.step for stay in stays]
    total = sum(rooms)
    if not total or not need:
        return need
    if need >= total:
        for stay in stays:
            stay.move(stay.room(up), up)
        return need - total
    left = need
    for stay, room in zip(stays, rooms, strict=True):
        count = need * room // (total * stay.step)
        stay.move(count, up)
        left -= count * stay.step
    order = sorted(
        (k for k, stay in enumerate(stays) if not stay.timed),
        key=lambda k: (-(need * rooms[k] % (total * stays[k].step)), k),
    )
    return _round_robin([stays[k] for k in order], left, up)


def _round_robin(stays: list[_Stay], left: int, up: bool) -> int:
    """Give one breath each in this order while one more fits."""
    went = True
    while went:
        went = False
        for stay in stays:
            if stay.step <= left and stay.room(up):
                stay.move(1, up)
                left -= stay.step
                went = True
    return left


def _fill(stays: list[_Stay], left: int, up: bool) -> int:
    """Put ms into stretches of time, one after the other."""
    for stay in stays:
        count = min(left // stay.step, stay.room(up))
        stay.move(count, up)
        left -= count * stay.step
    return left


def _trade(stays: list[_Stay], left: int, up: bool, all_stays: list[_Stay] | None = None) -> int:
    """Where ms are still left, take one breath too many and give the surplus back to time.

    Done only if it comes nearer; negative when it ends up beyond what was asked.
    """
    able = [stay for stay in stays if not stay.timed and stay.room(up)]
    if not left or not able:
        return left
    stay = min(able, key=lambda one: one.step)
    times = _times(stays if all_stays is None else all_stays)
    surplus = stay.step - left
    back = sum(min(one.room(not up), surplus // one.step) * one.step for one in times)
    if surplus - min(surplus, back) >= left:
        return left
    stay.move(1, up)
    return -_fill(times, surplus, not up)
