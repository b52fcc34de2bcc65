"""Rounds and sides: the stretches a block is led in, in order, each with what surrounds it."""

from collections.abc import Iterator

from conductor.compiler.around import Here
from conductor.plan.model import Block, Step
from conductor.sides import Side
from conductor.values import Struct, replace

Stretch = tuple[Here, tuple[Step, ...]]


def stretches(
    block: Block,
    steps: tuple[Step, ...],
    here: Here,
    first_side: Side,
    without: frozenset[str] = frozenset(),
) -> Iterator[Stretch]:
    """Give each stretch to be led; `without` has the keys of rounds that are left out.

    The rounds that are left are counted anew, so that the last one led is the last round.
    """
    return _Rounds(block, steps, first_side, without).all(here)


class _Rounds(Struct, frozen=True):
    block: Block
    steps: tuple[Step, ...]
    first_side: Side
    without: frozenset[str]

    def all(self, here: Here) -> Iterator[Stretch]:
        """Give the rounds of the block, each on the sides it is led on."""
        if self.block.alternate:
            yield from self.alternating(here)
            return
        written, rounds = self.block.rounds, self.left(here)
        for number in range(1, rounds + 1):
            around = here
            if written > 1 or self.block.most_rounds:
                around = replace(here.down(f"r{number}"), round=(number, rounds), in_rounds=True)
                around = replace(around, most_rounds=self.block.most_rounds)
            around = self.droppable(around, number)
            if self.block.each_side:
                yield from self.passes(around)
            else:
                yield around, self.steps

    def droppable(self, around: Here, number: int) -> Here:
        """Give a round beyond the least ones the key by which it is left out."""
        if self.block.least_rounds and number > self.block.least_rounds:
            return replace(around, drop=around.drop or around.twin)
        return around

    def left(self, here: Here) -> int:
        """How many rounds are led: the last ones go first, and never the least ones."""
        rounds, least = self.block.rounds, self.block.least_rounds
        while least and rounds > least and f"{here.twin}/r{self.key(rounds)}" in self.without:
            rounds -= 1
        return rounds

    def key(self, number: int) -> int:
        """The number in a round's key; two rounds that alternate are left out together."""
        return (number + 1) // 2 if self.block.alternate else number

    def order(self, here: Here) -> tuple[Side, Side]:
        """The side led first; a mirrored passage mirrors the order within it as well."""
        first = self.first_side.other if here.mirrored else self.first_side
        return first, first.other

    def passes(self, here: Here) -> Iterator[Stretch]:
        """Give the first side, what stands between, and the second side."""
        first, second = self.order(here)
        for number, side in ((1, first), (2, second)):
            if number == 2 and self.block.between:
                yield replace(here.down("between"), pass_side=side), self.block.between
            yield _pass(here, side, number, here.path), self.steps

    def alternating(self, here: Here) -> Iterator[Stretch]:
        """Give rounds that change sides each time; two of them are mates."""
        order = self.order(here)
        rounds = self.left(here)
        for number in range(1, rounds + 1):
            second = number % 2 == 0
            pair = replace(
                here,
                path=f"{here.path}/r{number}",
                twin=f"{here.twin}/r{self.key(number)}",
                round=(number, rounds),
                in_rounds=True,
                most_rounds=self.block.most_rounds,
            )
            pair = self.droppable(pair, number)
            stem = f"{here.path}/r{number - 1 if second else number + 1}"
            yield _pass(pair, order[1 if second else 0], 2 if second else 1, stem), self.steps


def _pass(here: Here, side: Side, number: int, stem: str) -> Here:
    return replace(
        here,
        path=f"{here.path}:{side}",
        pass_side=side,
        pass_no=number,
        pass_key=f"{here.path}:{side}",
        mate_key=f"{stem}:{side.other}",
    )
