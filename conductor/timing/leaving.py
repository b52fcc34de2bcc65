"""Leaving passages out: which may go, so that the class can be led on without them."""

import re
from collections import defaultdict
from collections.abc import Container, Iterator, Sequence
from itertools import pairwise

from conductor.body.ways import way
from conductor.score.model import Moment, Score, Words
from conductor.sides import Breath
from conductor.spans import Span
from conductor.timing.problem import Passage
from conductor.values import replace

BESIDE = 8  # passages side by side that are tried together
NOTHING_LEFT = "nothing would be left"
OTHER_SIDE = "its other side stays"
NOT_ALL = "not all of these may go"
_ROUND = re.compile(r"r(\d+)$")


class Leaving:
    """What may be left out of a score, one passage at a time and in which company.

    Moments before index `begun` have begun. `anew` says that the score is made anew without what
    goes: rounds are then counted again, and the last one left is the last round. Else a last round
    with an ending of its own stays. `within` are the moments to choose from, some of which stay;
    of the passages in each company of `apart` some stay too.
    """

    def __init__(
        self,
        score: Score,
        begun: int = 0,
        anew: bool = False,
        barred: Container[str] = (),
        within: slice = slice(None),
        apart: Sequence[frozenset[str]] = (),
    ) -> None:
        self._score, self._anew, self._apart = score, anew, apart
        self._those = score.moments[within]
        led = {moment.drop for moment in score.moments[:begun]}
        self._moments: dict[str, list[Moment]] = defaultdict(list)
        for moment in self._those:
            if moment.drop and moment.drop not in led and moment.drop not in barred:
                self._moments[moment.drop].append(moment)
        kept = {name for name, hold in score.holds.items() if hold.keep}
        self._holds = {
            key: frozenset(one.hold for one in those if one.hold)
            for key, those in self._moments.items()
        }
        for key in [key for key, holds in self._holds.items() if holds & kept]:
            del self._moments[key], self._holds[key]

    @property
    def keys(self) -> tuple[str, ...]:
        """The drop keys there are, the last in the class first."""
        return tuple(sorted(self._moments, key=lambda key: -self._moments[key][-1].start))

    def passages(self) -> tuple[Passage, ...]:
        """What may go, the last in the class first; rounds go from the last on."""
        found: list[Passage] = []
        last: dict[str, str] = {}
        for key in self.keys:
            block = key.rpartition("/")[0] if _ROUND.search(key.rpartition("/")[2]) else key
            ms = sum(moment.length for moment in self._moments[key])
            found.append(Passage(key, ms, self._holds[key], last.get(block, "")))
            last[block] = key
        return tuple(found)

    def trouble(self, keys: Container[str]) -> str:
        """Say why the class could not be led on without all of these; "" where it can."""
        going = [key for key in self.keys if key in keys]
        if all(moment.drop in going for moment in self._those):
            return NOTHING_LEFT
        if any(company.issubset(going) for company in self._apart):
            return NOT_ALL
        holds = frozenset().union(*(self._holds[key] for key in going))
        mates = {mate for name in holds for mate in self._mates(name)}
        if not mates <= holds:
            return OTHER_SIDE
        trouble = _trouble(self._score, set(going), self._anew)
        if trouble or self._anew:
            return trouble
        gone: set[str] = set()
        for key in going:
            if ending := _ending(self._score, key, gone):
                return ending
            gone.add(key)
        return ""

    def _mates(self, name: str) -> Iterator[str]:
        hold = self._score.holds.get(name)
        return (mate for mate in (hold.mates if hold else ()) if mate in self._score.holds)


def stuck(score: Score) -> dict[str, str]:
    """What may be dropped, yet never goes, and why: neither alone nor with what stands beside it.

    What stays for the sake of its other side, or because nothing else is there, is not told.
    """
    leaving = Leaving(score, anew=True)
    why: dict[str, str] = {}
    free: set[str] = set()
    for run in _rows(score, leaving.keys):
        for first in range(len(run)):
            for last in range(first + 1, len(run) + 1):
                some = run[first:last]
                trouble = leaving.trouble(some)
                if not trouble:
                    free.update(some)
                elif len(some) == 1:
                    why[some[0]] = trouble
    untold = {NOTHING_LEFT, OTHER_SIDE}
    return {key: words for key, words in why.items() if key not in free and words not in untold}


def _rows(score: Score, keys: Sequence[str]) -> list[list[str]]:
    """Passages in the order of the class, those side by side in one row, of few at most."""
    rows: list[list[str]] = []
    before = ""
    for moment in score.moments:
        if moment.drop != before and moment.drop in keys:
            if before in keys and len(rows[-1]) < BESIDE:
                rows[-1].append(moment.drop)
            else:
                rows.append([moment.drop])
        before = moment.drop
    return rows


def _trouble(score: Score, keys: set[str], anew: bool) -> str:
    """Say why the class could not be led on without these; "" where it can."""
    for before, gone, after in _seams(score.moments, keys):
        if anew and _ROUND.search(gone.drop.rpartition("/")[2]):
            continue
        there = way(before.stance, after.stance)
        if there.effort > max(1, way(gone.stance, after.stance).effort):
            return there.trouble
        breath = after.breath
        repeats = _breath(before, after) is breath is not _breath(gone, after)
        if repeats and breath is not Breath.FREE:
            return f"one {'in' if breath is Breath.IN else 'ex'}hale would follow on another"
    return ""


def _breath(before: Moment, after: Moment) -> Breath:
    """The breath before another moment; a stay after free time takes it for an exhale."""
    if before.breath is Breath.FREE and after.hold:
        return Breath.OUT
    return before.breath


def _seams(
    moments: Sequence[Moment], keys: Container[str]
) -> Iterator[tuple[Moment, Moment, Moment]]:
    """Where these keys go: the moment before, the last one gone, and the one after."""
    before = gone = None
    for moment in moments:
        if moment.drop and moment.drop in keys:
            gone = moment
            continue
        if gone is not None and before is not None:
            yield before, gone, moment
        before, gone = moment, None


def leads_worse(less: Score, full: Score) -> bool:
    """Whether a score made anew without something asks for what the full one nowhere asks for.

    Sides are chosen anew and a stay may begin with the other half of a breath: what was well where
    it was measured may then be a movement that cannot be made, or a breath that comes twice.
    """
    known: dict[Span, tuple[int, bool]] = defaultdict(lambda: (1, False))
    for origin, effort, twice in _demands(full):
        before = known[origin]
        known[origin] = max(effort, before[0]), twice or before[1]
    return any(
        effort > known[origin][0] or twice > known[origin][1]
        for origin, effort, twice in _demands(less)
    )


def _demands(score: Score) -> Iterator[tuple[Span, int, bool]]:
    """What each moment asks for after the one before it: effort, and whether its breath repeats."""
    for before, moment in pairwise(score.moments):
        twice = before.breath is moment.breath is not Breath.FREE
        yield moment.origin, way(before.stance, moment.stance).effort, twice


def _place(id_: str) -> list[str]:
    """Split a moment's id into the steps of its source path, without sides."""
    return [name.partition(":")[0] for name in id_.split("/")]


def _ending(score: Score, key: str, gone: Container[str]) -> str:
    """Why a round cannot go from a class under way: the next one stays, or it ends otherwise."""
    depth = key.count("/")
    if not _ROUND.search(key.rpartition("/")[2]):
        return ""
    block = key.split("/")[:depth]
    rounds: dict[int, set[tuple[str, ...]]] = defaultdict(set)
    for moment in score.moments:
        if moment.drop in gone and moment.drop != key:
            continue
        place = _place(moment.id)
        number = _ROUND.match(place[depth]) if place[:depth] == block and place[depth:] else None
        if number:
            rounds[int(number[1])].add(tuple(place[depth + 1 :]))
    here = {int(match[1]) for match in _numbers(score, key, depth)}
    if any(number > max(here) for number in rounds):
        return "the round after it stays"
    before = rounds.get(min(here) - 1, set())
    return "" if rounds[max(here)] <= before else "the last round has an ending of its own"


def _numbers(score: Score, key: str, depth: int) -> Iterator[re.Match[str]]:
    for moment in score.moments:
        if moment.drop == key and (found := _ROUND.match(_place(moment.id)[depth])):
            yield found


def joined(
    score: Score, moments: Sequence[Moment], keys: Container[str], begun: int
) -> list[Moment]:
    """The moments that are left, from index `begun` on told truly: words across a gap, rounds."""
    after = {id(late): (early, gone) for early, gone, late in _seams(score.moments, keys)}
    fewer = _fewer(score, keys)
    mended = list(moments[:begun])
    for moment in moments[begun:]:
        seam = after.get(id(moment))
        if seam and seam[0].stance != seam[1].stance and not moment.words.written:
            moment = replace(moment, words=_plain(moment.words))  # noqa: PLW2901
        lost = fewer.get(_rounds(moment), 0) if fewer else 0
        if lost:
            number, of = moment.round
            moment = replace(moment, round=(number, of - lost))  # noqa: PLW2901
        mended.append(moment)
    return mended


def _plain(words: Words) -> Words:
    """Words that name the shape alone: the way there was worded from elsewhere."""
    return replace(words, full=words.short)


def _rounds(moment: Moment) -> tuple[str, ...]:
    """The innermost rounds around a moment, as the path of their block."""
    place = _place(moment.id)
    for depth in range(len(place) - 1, -1, -1):
        if place[depth] == f"r{moment.round[0]}" and moment.round[1] > 1:
            return tuple(place[:depth])
    return ()


def _fewer(score: Score, keys: Container[str]) -> dict[tuple[str, ...], int]:
    """How many rounds each block loses."""
    lost: dict[tuple[str, ...], set[int]] = defaultdict(set)
    for moment in score.moments:
        if moment.drop and moment.drop in keys and _ROUND.search(moment.drop.rpartition("/")[2]):
            depth = moment.drop.count("/")
            place = _place(moment.id)
            number = _ROUND.match(place[depth])
            if number and place[:depth] == moment.drop.split("/")[:depth]:
                lost[tuple(place[:depth])].add(int(number[1]))
    return {block: len(numbers) for block, numbers in lost.items()}
