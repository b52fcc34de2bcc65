"""A piece of a class to be rehearsed: some of its moments, with a way into each stretch of them."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby

from conductor.score.model import Moment, Part, Score, ShapeInfo, Words
from conductor.sides import Breath, Side
from conductor.timing.holds import retimed, without_empty_parts
from conductor.values import Struct, replace

LEAST_COME_IN_MS = 6_000  # to take a shape from wherever one is (common practice: a slow breath)
MOST_COME_IN_MS = 12_000


class Named(Struct, frozen=True):
    """A shape by its id, and the side it is taken on where that matters."""

    shape: str
    side: Side | None = None

    def is_(self, moment: Moment) -> bool:
        """Whether a moment is in that shape."""
        return moment.shape == self.shape and self.side in (None, moment.side)


class Wanted(Struct, frozen=True):
    """What is to be rehearsed: parts by number (all when there is none), a side, from, up to.

    The stay in the last shape is led whole.
    """

    parts: frozenset[int] = frozenset()
    side: Side | None = None
    first: Named | None = None
    last: Named | None = None


class NothingLeftError(ValueError):
    """No moment of the class is what was asked for; the words say which wish found none."""


def piece(score: Score, wanted: Wanted) -> Score:
    """The score of what is wanted alone; raises NothingLeftError.

    Where a stretch begins in the middle of the class, the shape it is entered from is taken first,
    so every movement is made from the stance it is made from in class.
    """
    kept = _kept(score, wanted)
    moments: list[Moment] = []
    for index in kept:
        before = score.moments[index - 1] if index else None
        if before is not None and not (moments and _stands_so(moments[-1], before)):
            moments.append(_come_in(before, score.moments[index], score.shapes))
        moments.append(score.moments[index])
    holds = {moment.hold for moment in moments}
    held = {name: hold for name, hold in score.holds.items() if name in holds}
    cut = replace(
        score,
        meta=replace(score.meta, kind="piece", length=0),
        moments=retimed(moments),
        parts=_parts(score, moments),
        holds={
            name: replace(hold, mates=tuple(mate for mate in hold.mates if mate in holds))
            for name, hold in held.items()
        },
    )
    return without_empty_parts(cut)


def _stands_so(last: Moment, before: Moment) -> bool:
    """Whether the class stands already as it does before the next moment."""
    return (last.shape, last.side, last.stance, last.with_) == (
        before.shape,
        before.side,
        before.stance,
        before.with_,
    )


def _kept(score: Score, wanted: Wanted) -> Sequence[int]:
    """The moments wanted; a wish that finds none is told."""
    kept = [
        index
        for index, moment in enumerate(score.moments)
        if not wanted.parts or moment.part in wanted.parts
    ]
    if wanted.side is not None:
        kept = [index for index in kept if _on(score.moments[index], wanted.side)]
        _some(kept, f"nothing there is led on the {wanted.side}")
    if wanted.first:
        entered = [n for n, index in enumerate(kept) if wanted.first.is_(score.moments[index])]
        _some(entered, f"there is no {_name(score, wanted.first)} in what is to be rehearsed")
        kept = kept[entered[0] :]
    if wanted.last:
        kept = kept[: _end(score, kept, wanted.last)]
    return kept


def _some(found: Sequence[int], words: str) -> None:
    if not found:
        raise NothingLeftError(words)


def _name(score: Score, named: Named) -> str:
    info = score.shapes.get(named.shape)
    side = f" on the {named.side}" if named.side else ""
    return f"{info.name if info else named.shape}{side}"


def _on(moment: Moment, side: Side) -> bool:
    """Whether a moment belongs to a side: its passage's, or where there is none its own."""
    return (moment.pass_side or moment.side) is side


def _end(score: Score, kept: Sequence[int], last: Named) -> int:
    """How many of the moments to keep, up to the end of the first stay in that shape."""
    there = [n for n, index in enumerate(kept) if last.is_(score.moments[index])]
    _some(there, f"there is no {_name(score, last)} after that to end with")
    end = there[0] + 1
    while end in there and kept[end] == kept[end - 1] + 1:
        end += 1
    return end


def _come_in(before: Moment, first: Moment, shapes: Mapping[str, ShapeInfo]) -> Moment:
    """Time to take the shape that a stretch is entered from."""
    info = shapes.get(before.shape)
    name = info.name if info else before.shape
    part = (info.side_part if info else "") or "side"
    side = f", {before.side} {part}" if before.side else ""
    return replace(
        before,
        id=f"to {first.id}",
        length=min(max(2 * first.length, LEAST_COME_IN_MS), MOST_COME_IN_MS),
        breath=Breath.FREE,
        words=Words(full=f"Come to {name}{side}."),
        part=first.part,
        through=(),
        cycle=(),
        lines=(),
        readings=None,
        note="",
        round=(1, 1),
        pass_side=None,
        pass_key="",
        mate="",
        hold="",
        of_stay=(0, 0),
        drop="",
        early=False,
        bells=0,
        variants=(),
        arriving=True,
        turn="",
        struck=0,
    )


def _parts(score: Score, moments: Iterable[Moment]) -> tuple[Part, ...]:
    """The parts with the bounds they have now; those with nothing left are empty."""
    counts = {part: len(list(those)) for part, those in groupby(moments, lambda one: one.part)}
    parts, at = [], 0
    for number, part in enumerate(score.parts):
        parts.append(Part(part.name, at, at + counts.get(number, 0)))
        at = parts[-1].last
    return tuple(parts)
