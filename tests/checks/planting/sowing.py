"""What planters are made of: places in a sound plan, words of a step, the lines to find it in."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise
from random import Random

from conductor.score.model import Moment
from conductor.sides import Breath
from tests.checks.planting.sound import Field, Slot


@dataclass(frozen=True)
class Planted:
    """A plan with a fault, and the lines (from 1) at one of which it has to be found."""

    text: str
    lines: frozenset[int]


@dataclass(frozen=True)
class Planter:
    """One kind of fault: the family it belongs to, the sentence, and how it is planted.

    `found_by` names the families of rules that speak of it.
    """

    family: str
    sentence: str
    plant: Callable[[Field, Random], Planted | None]
    found_by: tuple[str, ...] = ()


Plant = Callable[[Field, Random], Planted | None]


def a_table() -> tuple[list[Planter], Callable[..., Callable[[Plant], Plant]]]:
    """A table of planters, and what enters one: its family, its sentence, other families."""
    planters: list[Planter] = []

    def planter(family: str, sentence: str, *others: str) -> Callable[[Plant], Plant]:
        def entered(plant: Plant) -> Plant:
            planters.append(Planter(family, sentence, plant, (family, *others)))
            return plant

        return entered

    return planters, planter


def steps(field: Field, slots: list[Slot], chance: Random, text: str, *at: int) -> Planted | None:
    """Put steps into one of the places; the fault is in their lines `at` (from 0; none: all)."""
    if not slots:
        return None
    planted, first = field.put(chance.choice(slots), text)
    count = len(text.strip("\n").splitlines())
    return Planted(planted, frozenset(first + one for one in (at or range(count))))


def pick(chance: Random, found: Iterable[Moment]) -> Moment | None:
    """One of some moments, or None where there are none."""
    moments = list(found)
    return chance.choice(moments) if moments else None


def is_class(field: Field) -> bool:
    return field.score.meta.kind == "class"


def reached(field: Field) -> list[tuple[Moment, Moment]]:
    """Every movement that was written as a step of its own, with the moment before it."""
    moments = field.score.moments
    return [
        (before, moment)
        for before, moment in pairwise(moments)
        if moment.arriving
        and not moment.hold
        and moment.breath is not Breath.FREE
        and before.origin != moment.origin
        and field.lines[moment.origin.line - 1].lstrip().startswith("- ")
    ]


def with_words(field: Field, line: int, words: str) -> str:
    """The text with other words for the step on a line."""
    step = field.step(line)
    pad = " " * (field.depth(line) + 2)
    kept, dropping = [step[0]], False
    for row in step[1:]:
        own = row.startswith(pad) and not row.startswith(f"{pad} ")
        if own:
            dropping = row.strip().split(":")[0] in {"say", "short", "say again", "speak"}
        if not dropping:
            kept.append(row)
    return field.changed(line, [*kept, f"{pad}say: {words}"], field.end(line))


def said(field: Field, moment: Moment, words: str) -> Planted:
    """Give the step of a moment these words; the line of the step is where it is found."""
    line = moment.origin.line
    text = with_words(field, line, words)
    last = line + len(text.splitlines()) - len(field.lines) + field.end(line) - line
    return Planted(text, frozenset(range(line, last + 1)))
