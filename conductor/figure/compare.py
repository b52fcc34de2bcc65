"""Two classes held against each other: what changed in time, shapes and sides, in words first."""

from collections.abc import Iterator, Mapping, Sequence

from conductor.figure.lanes import balance, side_of
from conductor.figure.model import Figure, Form, Kind, Lane, Timeline
from conductor.figure.pieces import Piece, info, planned, reach, runs
from conductor.score.model import Score
from conductor.sides import Breath, Side
from conductor.values import Struct, replace
from conductor.view.spell import count, span

LEAST_MS = 500  # below this two times are called the same
SHOWN = 6  # shapes named of those that became longer or shorter


class Pair(Struct, frozen=True):
    """One thing in both classes: its ms in each, and how often it comes; 0 where it is missing."""

    name: str
    first_ms: int = 0
    second_ms: int = 0
    first_times: int = 0
    second_times: int = 0

    @property
    def more(self) -> int:
        """By how many ms the second one is longer."""
        return self.second_ms - self.first_ms

    @property
    def new(self) -> bool:
        """Whether it is in the second class alone."""
        return not self.first_times

    @property
    def gone(self) -> bool:
        """Whether it is in the first class alone."""
        return not self.second_times

    @property
    def kept(self) -> bool:
        """Whether it is in both."""
        return bool(self.first_times and self.second_times)


class Comparison(Struct, frozen=True):
    """What there is to say of two classes; ms, the first class's before the second's."""

    names: tuple[str, str]
    lengths: tuple[int, int]
    parts: tuple[Pair, ...]
    shapes: tuple[Pair, ...]
    sides: tuple[Mapping[Side, int], Mapping[Side, int]]
    breaths: tuple[int, int]
    moved: bool  # the parts that both have stand in another order


def compared(first: Score, second: Score, names: tuple[str, str]) -> Comparison:
    """Hold two scores against each other."""
    one, other = planned(first), planned(second)
    here, there = _parts(one, first), _parts(other, second)
    both = [key for key in here if key in there]
    return Comparison(
        names,
        (first.length, second.length),
        tuple(_paired(here, there)),
        tuple(_paired(_shapes(one, first), _shapes(other, second))),
        (_sides(one), _sides(other)),
        (_breaths(one), _breaths(other)),
        both != [key for key in there if key in here],
    )


Spent = dict[str, tuple[int, int]]  # ms, times


def _parts(pieces: Sequence[Piece], score: Score) -> Spent:
    """Time by part; parts of one name are told apart by their number."""
    spent: Spent = {}
    for number, group in runs(pieces, lambda piece: piece.moment.part):
        name = score.parts[number].name
        again = sum(1 for key in spent if key == name or key.startswith(f"{name} ("))
        spent[f"{name} ({again + 1})" if again else name] = (reach(group)[1], 1)
    return spent


def _shapes(pieces: Sequence[Piece], score: Score) -> Spent:
    spent: Spent = {}
    key = lambda piece: (piece.moment.shape, piece.moment.side, piece.moment.cycle)  # noqa: E731
    for (shape, _, cycle), group in runs(pieces, key):
        for one in cycle or (shape,):
            name = info(score, one).name
            ms, times = spent.get(name, (0, 0))
            spent[name] = (ms + reach(group)[1] // max(len(cycle), 1), times + 1)
    return spent


def _sides(pieces: Sequence[Piece]) -> dict[Side, int]:
    spent = dict.fromkeys(Side, 0)
    for piece in pieces:
        if side := side_of(piece):
            spent[side] += piece.length
    return spent


def _breaths(pieces: Sequence[Piece]) -> int:
    """Whole breaths that are led."""
    return sum(piece.moment.breath is not Breath.FREE for piece in pieces) // 2


def _paired(first: Spent, second: Spent) -> Iterator[Pair]:
    """What is in either, in the order of the second, what is gone where it stood."""
    order = [*second]
    before = ""
    for name in first:
        if name not in second:
            order.insert(order.index(before) + 1 if before else 0, name)
        before = name
    for name in order:
        (ms, times), (then_ms, then_times) = first.get(name, (0, 0)), second.get(name, (0, 0))
        yield Pair(name, ms, then_ms, times, then_times)


def words(one: Comparison) -> tuple[str, ...]:
    """What changed, in a teacher's words: time first, then shapes, then sides."""
    return (_length(one), *_part_words(one), *_shape_words(one), *_side_words(one))


def _length(one: Comparison) -> str:
    first, second = one.lengths
    more = second - first
    if abs(more) < LEAST_MS:
        return f"Both last {span(first)}."
    word = "longer" if more > 0 else "shorter"
    return (
        f"{_class(one.names[1])} is {span(abs(more))} {word} than {one.names[0]}: "
        f"{span(second)}, not {span(first)}."
    )


def _class(name: str) -> str:
    """A name that begins a sentence: a file's own, or the class "for 45 min"."""
    return f"The class {name}" if name.startswith("for ") else name


def _part_words(one: Comparison) -> Iterator[str]:
    changed = [f"{pair.name} {signed(pair.more)}" for pair in one.parts if _differs(pair)]
    new = [f"{pair.name} ({span(pair.second_ms)})" for pair in one.parts if pair.new]
    gone = [f"{pair.name} ({span(pair.first_ms)})" for pair in one.parts if pair.gone]
    said = "; ".join(
        text
        for text in (
            ", ".join(changed),
            f"new: {', '.join(new)}" if new else "",
            f"left out: {', '.join(gone)}" if gone else "",
            "in another order" if one.moved else "",
        )
        if text
    )
    yield f"Parts: {said or 'each as long as before'}."


def _shape_words(one: Comparison) -> Iterator[str]:
    new = [pair.name for pair in one.shapes if pair.new]
    gone = [pair.name for pair in one.shapes if pair.gone]
    if new:
        yield f"New shapes: {', '.join(new)}."
    if gone:
        yield f"Shapes left out: {', '.join(gone)}."
    for word, sign in (("Longer", 1), ("Shorter", -1)):
        changed = sorted(
            (pair for pair in one.shapes if _differs(pair) and pair.more * sign > 0),
            key=lambda pair: -abs(pair.more),
        )
        if changed:
            shown = [f"{pair.name} {signed(pair.more)}{_times(pair)}" for pair in changed[:SHOWN]]
            rest = f" and {len(changed) - SHOWN} more" if len(changed) > SHOWN else ""
            yield f"{word} in: {', '.join(shown)}{rest}."
    if not any(new or gone or _differs(pair) for pair in one.shapes):
        yield "Shapes: the same, each as long as before."
    first, second = one.breaths
    if first != second:
        yield f"Breaths led: {second}, not {first}."


def _times(pair: Pair) -> str:
    """How often it comes, where that changed."""
    if pair.first_times == pair.second_times:
        return ""
    return f" ({count(pair.second_times, 'time')}, not {pair.first_times})"


def _side_words(one: Comparison) -> Iterator[str]:
    first, second = (balance(spent[Side.RIGHT], spent[Side.LEFT]) for spent in one.sides)
    yield f"Sides: {second}." if first == second else f"Sides: {second}; before: {first}."


def _differs(pair: Pair) -> bool:
    return pair.kept and abs(pair.more) >= LEAST_MS


def signed(ms: int) -> str:
    """A difference: +2 min, -30 s."""
    return f"{'+' if ms > 0 else '-'}{span(abs(ms))}"


def figure(
    title: str, first: Timeline, second: Timeline, one: Comparison, also: tuple[str, ...] = ()
) -> Figure:
    """Both classes on one scale, parts that only one of them has marked as such.

    `also` is said after the lengths.
    """
    new = {pair.name for pair in one.parts if pair.new}
    gone = {pair.name for pair in one.parts if pair.gone}
    timelines = (_marked(first, gone, Kind.LEFT_OUT), _marked(second, new, Kind.ADDED))
    length, *rest = words(one)
    return Figure(title, timelines, (length, *also, *rest))


def _marked(timeline: Timeline, names: set[str], kind: Kind) -> Timeline:
    lanes = tuple(_marked_parts(lane, names, kind) for lane in timeline.lanes)
    return replace(timeline, lanes=lanes)


def _marked_parts(lane: Lane, names: set[str], kind: Kind) -> Lane:
    if lane.form is not Form.BANNERS:
        return lane
    marked = (replace(one, kind=kind) if one.label in names else one for one in lane.stretches)
    return replace(lane, stretches=tuple(marked))
