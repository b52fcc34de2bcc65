"""The pen a draft is written with: it knows where the class is, and what was led before."""

from collections.abc import Callable, Iterable, Sequence
from random import Random
from typing import TypeVar

from conductor.draft import words
from conductor.draft.choice import Hold, hold
from conductor.draft.graph import OUT, Here, Move, shapes
from conductor.draft.tree import Call, Come, Free, Length, Rest, Stay, Step, Tempo, measure
from conductor.draft.tree import Move as Led
from conductor.draft.wish import Focus, Wish
from conductor.sides import Breath

T = TypeVar("T")
SAME = ""
STRONG = 3  # of the catalogue's levels


class Pen:
    """Writes steps one after the other; parts and passages are cut from what it wrote.

    All chance comes from the one generator it is given, and is drawn from ordered sequences only,
    so a seed gives the same class on every machine.
    """

    def __init__(self, wish: Wish, chance: Random) -> None:
        self.wish = wish
        self.chance = chance
        self.tempo: Tempo = wish.tempo
        self.here = Here("easy-seat", OUT)
        self.seen: dict[str, None] = {}  # in the order led
        self.held: set[str] = set()
        self.steps: list[Step] = []
        self.flows: dict[str, tuple[Step, ...]] = {}
        self.bounds: dict[int, Hold] = {}
        self._said: set[str] = set()
        self._offered: set[str] = set()
        self._changes = chance.randrange(len(words.OTHER_SIDE))

    # what is drawn

    def one(self, choices: Sequence[T]) -> T:
        """One of several."""
        return choices[self.chance.randrange(len(choices))]

    def weighed(self, choices: Sequence[tuple[T, int]]) -> T:
        """One of several by their weights."""
        at = self.chance.randrange(sum(weight for _, weight in choices))
        for choice, weight in choices:
            at -= weight
            if at < 0:
                return choice
        raise AssertionError  # the weights were summed above

    def fresh(self, lines: Sequence[str]) -> str:
        """Words not said before in this class, or none."""
        left = [line for line in lines if line not in self._said]
        if not left:
            return ""
        line = self.one(left)
        self._said.add(line)
        return line

    def other_side(self) -> str:
        """Words for the change of sides, another each time."""
        self._changes += 1
        return words.OTHER_SIDE[self._changes % len(words.OTHER_SIDE)]

    # what is written

    def move(self, breath: Breath, shape: str, say: str = "") -> None:
        """Write one movement; with the shape one is in, half a breath in place."""
        before = self.here.shape
        if shape == before:
            strong = shapes()[shape].level >= STRONG  # its other way holds while one waits in it
            ease, more = self._ways(shape) if strong else ("", "")
            self.steps.append(Led(breath, SAME, say=say, ease=ease, more=more))
        else:
            ease, more = self._ways(shape)
            self._offered.add(shape)
            self.steps.append(Led(breath, shape, say=say, ease=ease, more=more))
            self.seen.setdefault(shape)
        self.here = Here(shape, breath)

    def _ways(self, shape: str) -> tuple[str, str]:
        """The gentler and the fuller way: the first time; of a strong shape each time."""
        if shape in self._offered and shapes()[shape].level < STRONG:
            return "", ""
        return words.EASE.get(shape, ""), words.MORE.get(shape, "")

    def walk(self, moves: Iterable[Move], say: str = "") -> None:
        """Write movements in a row; the words go with the first."""
        for move in moves:
            self.move(move.breath, move.shape, say)
            say = ""

    def stay(self, seconds: float, *, quiet: bool = False, last: bool = False) -> None:
        """Stay for about so long in the shape reached, with a line or none."""
        shape = shapes()[self.here.shape]
        self.breaths(hold(shape, self.tempo, seconds), quiet=quiet, last=last)
        self.held.add(shape.id)

    def breaths(self, many: Hold, *, quiet: bool = False, last: bool = False) -> None:
        """Stay so many breaths."""
        said: list[tuple[str, str]] = []
        if not quiet:
            line = self.fresh(words.STAYS.get(self.here.shape, ()))
            said += [("first", line)] if line else []
        if last and many.usual >= 4 and (line := self.fresh(words.LAST)):
            said.append(("last", line))
        self.say_in(many, tuple(said))

    def say_in(self, many: Hold, said: tuple[tuple[str, str], ...]) -> None:
        """Stay so many breaths, with these words."""
        key = len(self.bounds)
        self.bounds[key] = many
        self.steps.append(Stay(key, many.least, many.most, said))

    def pause(self, breaths: int = 1) -> None:
        """Stay so many breaths, no more and no fewer, in silence."""
        self.breaths(Hold(breaths, breaths, breaths), quiet=True)

    def come(self, shape: str, say: str, breaths: int = 2) -> None:
        """Take a shape at leisure."""
        self.steps.append(Come(shape, say, breaths))
        self._arrived(shape)

    def free(self, seconds: int, to: str, say: str, side: str = "") -> None:
        """Give time to get to a shape in one's own way."""
        self.steps.append(Free(seconds, to, say, side=side))
        self._arrived(to)

    def rest(self, seconds: int, say: str = "", bounds: tuple[int, int] | None = None) -> None:
        """Rest for so many seconds; with bounds it may stretch."""
        if bounds is None:
            self.steps.append(Rest(seconds, say))
            return
        key = len(self.bounds)
        self.bounds[key] = Hold(bounds[0], seconds, bounds[1])
        self.steps.append(Rest(seconds, say, key, *bounds))

    def call(self, flow: str, to: Here) -> None:
        """Lead a passage by its name."""
        self.steps.append(Call(flow))
        self.seen.update(dict.fromkeys(_shapes_of(self.flows[flow])))
        self.here = to

    def _arrived(self, shape: str) -> None:
        self.here = Here(shape, OUT)
        self.seen.setdefault(shape)

    def cut(self, write: Callable[[], object]) -> tuple[Step, ...]:
        """What is written meanwhile, taken out of the row."""
        kept, self.steps = self.steps, []
        write()
        cut, self.steps = tuple(self.steps), kept
        return cut

    def long(self, write: Callable[[], object]) -> int:
        """Milliseconds that would be written; nothing is kept of it, and no chance is used up."""
        kept = (self.here, self.seen, self.held, self.flows, self.bounds, self._said, self._offered)
        self.seen, self.held, self.flows = dict(kept[1]), set(kept[2]), dict(kept[3])
        self.bounds, self._said, self._offered = dict(kept[4]), set(kept[5]), set(kept[6])
        state = self.chance.getstate()
        lasting = self.lasts(self.cut(write))
        (self.here, self.seen, self.held, self.flows, self.bounds, self._said, self._offered) = kept
        self.chance.setstate(state)
        return lasting

    # what is asked

    def lasts(self, steps: Iterable[Step]) -> int:
        """Milliseconds of steps, each stay as long as it usually is."""
        return lasting(measure(steps, self.flows, self.tempo), self.bounds, self.tempo)

    @property
    def focus(self) -> Focus:
        """What the class leads up to."""
        return self.wish.focus


def lasting(length: Length, bounds: dict[int, Hold], tempo: Tempo) -> int:
    """Milliseconds of a length with the stays as they usually are."""
    breaths = sum(bounds[key].usual * count for key, count in length.breaths.items())
    seconds = sum(bounds[key].usual * count for key, count in length.seconds.items())
    return length.fixed + breaths * tempo.breath + 1000 * seconds


def _shapes_of(steps: Iterable[Step]) -> list[str]:
    return [step.shape for step in steps if isinstance(step, Led) and step.shape]
