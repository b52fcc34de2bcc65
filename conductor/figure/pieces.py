"""Pieces: the moments of a class as they were planned or really took place, and what was heard."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import groupby
from typing import TypeVar

from conductor.figure.model import Kind
from conductor.score.model import Moment, Score, ShapeInfo
from conductor.values import Struct

T = TypeVar("T")
K = TypeVar("K")


class Piece(Struct, frozen=True):
    """A moment as it took place: from `start` on, for `length` ms, in any time that is followed.

    `kind` is PLAIN, or what became of it (HELD, STOPPED). Pieces stand in order.
    """

    moment: Moment
    start: int
    length: int
    kind: Kind = Kind.PLAIN

    @property
    def end(self) -> int:
        """When it was over, in ms."""
        return self.start + self.length


class Told(Struct, frozen=True):
    """Words or a bell that are heard: from `start` on for `length` ms."""

    start: int
    length: int
    text: str
    bell: bool = False


def planned(score: Score) -> tuple[Piece, ...]:
    """The pieces of a class that goes as its score says."""
    return tuple(Piece(moment, moment.start, moment.length) for moment in score.moments)


def runs(items: Iterable[T], key: Callable[[T], K]) -> Iterator[tuple[K, list[T]]]:
    """Rows of neighbours that are alike, each with what they have in common."""
    return ((name, list(group)) for name, group in groupby(items, key))


def reach(group: Sequence[Piece]) -> tuple[int, int]:
    """Where a row of pieces begins, and how long it is, in ms."""
    return group[0].start, group[-1].end - group[0].start


def info(score: Score, shape: str) -> ShapeInfo:
    """What the score knows of a shape; its own name stands where that is nothing."""
    return score.shapes.get(shape) or ShapeInfo(shape, shape)
