"""What a refit changes, in one line: who leads has to know it before it is done."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping

from conductor.score.model import Hold, Moment, Score
from conductor.timing.model import Refit
from conductor.values import Struct

NAMED = 2  # stays that are called by their shapes; more are counted


class _Changed(Struct, frozen=True):
    """Stays that changed as one: by so many breaths, or ms of time; positive is longer."""

    hold: Hold
    shape: str
    breaths: int
    ms: int


def told(before: Score, refit: Refit, brief: bool = True) -> str:
    """What becomes of the class: "triangle a breath shorter, the boat passage goes"; "" if nothing.

    Both sides of a stay count as one. What the rest takes of less than a breath is told only where
    it is all there is. If `brief`, stays that change by more than two amounts are told together.
    """
    changed = list(_changed(before, refit))
    rest = [one for one in changed if one.hold.rest]
    others = [one for one in changed if not one.hold.rest]
    less = [one for one in rest if abs(one.ms) < before.meta.inhale + before.meta.exhale]
    stays = _by_amount(others) if others else []
    if brief and len(stays) > NAMED:
        stays = [_together(others)]
    words = [*stays, *(_rest(one) for one in rest if one not in less)]
    words += _gone(before, [change.hold for change in refit.changes if _is_passage(before, change)])
    return _listed(words or [_rest(one) for one in less])


def _is_passage(before: Score, change: object) -> bool:
    return getattr(change, "hold", "") not in before.holds


def span(ms: int) -> str:
    """A length of time in words: "45 s", "2 min 5 s", "2 min"."""
    minutes, seconds = divmod(round(ms / 1000), 60)
    if not minutes:
        return f"{seconds} s"
    return f"{minutes} min {seconds} s" if seconds else f"{minutes} min"


def _changed(before: Score, refit: Refit) -> Iterator[_Changed]:
    shapes = {moment.hold: moment for moment in reversed(before.moments) if moment.hold}
    seen: set[str] = set()
    for change in refit.changes:
        hold = before.holds.get(change.hold)
        if hold is None or hold.id in seen or hold.id not in shapes:
            continue
        seen.update((hold.id, *hold.mates))
        by = change.after - change.before
        name = _name(before, shapes[hold.id].shape)
        yield _Changed(hold, name, 0 if hold.timed else by, by if hold.timed else by * hold.unit)


def _name(score: Score, shape: str) -> str:
    info = score.shapes.get(shape)
    return info.name if info else shape


def _by_amount(changed: Iterable[_Changed]) -> list[str]:
    """Stays that change by the same, in the order of the class: those that change most first."""
    alike: dict[tuple[int, int], list[_Changed]] = defaultdict(list)
    for one in changed:
        alike[(one.breaths, 0 if one.breaths else one.ms)].append(one)
    words = []
    for (breaths, ms), those in sorted(alike.items(), key=lambda item: -abs(item[1][0].ms)):
        amount = _breaths(abs(breaths)) if breaths else span(abs(ms))
        words.append(f"{_called(those)} {amount} {_way(those[0])}")
    return words


def _together(those: list[_Changed]) -> str:
    """Stays that change by this and that: "9 stays up to 4 breaths shorter"."""
    most = max(those, key=lambda one: abs(one.ms))
    amount = _breaths(abs(most.breaths)) if most.breaths else span(abs(most.ms))
    return f"{len(those)} stays up to {amount} {_way(most)}"


def _way(one: _Changed) -> str:
    return "longer" if one.ms > 0 else "shorter"


def _breaths(count: int) -> str:
    return "a breath" if count == 1 else f"{count} breaths"


def _called(those: list[_Changed]) -> str:
    names = list(dict.fromkeys(one.shape for one in those))
    if len(those) > NAMED or len(names) < len(those):
        return f"{len(those)} stays"
    return " and ".join(names)


def _rest(one: _Changed) -> str:
    return f"the rest {span(abs(one.ms))} {_way(one)}"


def _gone(score: Score, keys: list[str]) -> Iterator[str]:
    """The passages that go: rounds counted, a part by its name, others by their telling shape."""
    if not keys:
        return
    those: dict[str, list[Moment]] = {key: [] for key in keys}
    for moment in score.moments:
        if moment.drop in those:
            those[moment.drop].append(moment)
    rounds: Counter[str] = Counter()
    for key, moments in those.items():
        part = score.parts[moments[0].part]
        end = key.rpartition("/")[2]
        if end[:1] == "r" and end[1:].isdigit():
            rounds[part.name] += 1
        elif part.last - part.first == len(moments):
            yield f"the part {part.name} goes"
        else:
            yield f"the {_telling(score, moments)} passage goes"
    for name, count in rounds.items():
        yield f"a round of {name} goes" if count == 1 else f"{count} rounds of {name} go"


def _telling(score: Score, moments: list[Moment]) -> str:
    """The shape a passage is known by: one that is nowhere else, the strongest, the longest."""
    spent: Counter[str] = Counter()
    for moment in moments:
        spent[moment.shape] += moment.length
    own = {id(moment) for moment in moments}
    elsewhere = {moment.shape for moment in score.moments if id(moment) not in own}
    return _name(score, max(spent, key=lambda shape: _weight(score, shape, spent, elsewhere)))


def _weight(
    score: Score, shape: str, spent: Mapping[str, int], elsewhere: set[str]
) -> tuple[bool, int, int]:
    info = score.shapes.get(shape)
    return shape not in elsewhere, info.level if info else 0, spent[shape]


def _listed(words: list[str]) -> str:
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])}, and {words[-1]}"
