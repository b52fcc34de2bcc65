"""Leaving passages out: which may go, so that the class can be led on without them."""

import re
from collections import defaultdict
from collections.abc import Container, Iterator, Mapping, Sequence
from itertools import pairwise

from conductor.body.ways import way
from conductor.score.model import Moment, Score, Words
from conductor.sides import Breath
from conductor.spans import Span
from conductor.values import Struct, replace

NOTHING_LEFT = "nothing would be left"
_ROUND = re.compile(r"r(\d+)$")


class Choice(Struct, frozen=True):
    """Drop keys in the order they go, those in one group together, and why others never go."""

    groups: tuple[tuple[str, ...], ...] = ()
    refused: Mapping[str, str] = {}


def choose(
    score: Score,
    begun: int,
    anew: bool,
    barred: Container[str] = (),
    within: slice = slice(None),
) -> Choice:
    """Find what may go, the last in the class first; moments before index `begun` have begun.

    A passage stays where its mate stays, where the class could not be led on without it, and where
    nothing would be left. Passages side by side that can only go together go together. `anew`
    says that the score is made anew without them: rounds are then counted again, and the last one
    left is the last round. Else a last round with an ending of its own stays. `within` are the
    moments to choose from, of which some are left.
    """
    those = score.moments[within]
    last = {one.drop: index for index, one in enumerate(those) if one.drop}
    keys = last.keys() - _kept(score, begun)
    groups: list[tuple[str, ...]] = []
    refused: dict[str, str] = {}
    waiting: list[str] = []
    gone: set[str] = set()
    for key in sorted((key for key in keys if key not in barred), key=lambda key: -last[key]):
        if waiting and not _side_by_side(score, key, waiting[-1]):
            waiting.clear()
        going = gone.union(waiting, [key])
        trouble = _trouble(score, going, anew)
        if all(moment.drop in going for moment in those):
            trouble = NOTHING_LEFT
        if not trouble and not anew:
            trouble = _ending(score, key, gone)
        if trouble:
            refused[key] = trouble
            waiting.append(key)
            continue
        groups.append((*waiting, key))
        gone.update(groups[-1])
        for name in groups[-1]:
            refused.pop(name, None)
        waiting.clear()
    return Choice(tuple(groups), refused)


def _kept(score: Score, begun: int) -> set[str]:
    """Keys of passages that are led, hold what is kept, or whose mate stays."""
    kept = {moment.drop for moment in score.moments[:begun]}
    held: dict[str, set[str]] = defaultdict(set)
    for moment in score.moments:
        if moment.drop:
            held[moment.drop].add(moment.hold)
    for key, names in held.items():
        holds = [score.holds[name] for name in names if name in score.holds]
        mates = {mate for hold in holds for mate in hold.mates if mate in score.holds}
        if any(hold.keep for hold in holds) or not mates <= names:
            kept.add(key)
    return kept


def _side_by_side(score: Score, key: str, after: str) -> bool:
    pairs = pairwise(score.moments)
    return any(one.drop == key and other.drop == after for one, other in pairs)


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
