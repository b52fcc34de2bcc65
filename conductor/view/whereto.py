"""The places of a class one can go to: its parts and every shape taken in it, found by name."""

from collections.abc import Iterable, Sequence
from functools import lru_cache

from conductor.score.model import Moment, Score
from conductor.shapes.names import key
from conductor.values import Struct
from conductor.view.clean import clean
from conductor.view.faces import face, info_of, part_of, place_of, same_shape
from conductor.view.spell import clock


class Place(Struct, frozen=True):
    """A moment to go to: `words` say what is there and `where` tells it from its likes.

    `name` is the part's or the shape's alone, `also` what it is called besides; `heads` tells the
    start of a part.
    """

    moment: str
    index: int
    name: str
    words: str
    also: str
    where: str
    at: str
    heads: bool = False

    def answers(self, wanted: Sequence[str], where: bool) -> bool:
        """Whether each word wanted begins one of its own words, or those of `where` it is."""
        own = (*_keys(f"{self.words} {self.also}"), *(_keys(self.where) if where else ()))
        return all(any(word.startswith(one) for word in own) for one in wanted)


@lru_cache(maxsize=4096)
def _keys(text: str) -> tuple[str, ...]:
    return tuple(key(text.replace(",", " ")).split())


def places(score: Score) -> tuple[Place, ...]:
    """All of them in the order of the class; the start of a part before its first shape."""
    found: list[Place] = []
    part = -1
    for index, moment in enumerate(score.moments):
        if moment.part != part:
            part = moment.part
            name = part_of(score, index)
            at = clock(moment.start)
            found.append(Place(moment.id, index, name, name, "", "part", at, heads=True))
        if not index or not same_shape(score.moments[index - 1], moment):
            found.append(_shape(score, index, moment))
    return tuple(found)


def _shape(score: Score, index: int, moment: Moment) -> Place:
    shown = face(score, index)
    where = (part_of(score, index), place_of(moment))
    sanskrit = clean(info_of(score, moment.shape).sanskrit)
    said = ", ".join(word for word in where if word)
    at = clock(moment.start)
    return Place(moment.id, index, shown.name, shown.phrase, sanskrit, said, at)


def matching(those: Iterable[Place], text: str) -> tuple[Place, ...]:
    """The places of that name; where there are none, those that also tell it by where they are."""
    wanted, all_ = _keys(text), tuple(those)
    named = tuple(one for one in all_ if one.answers(wanted, where=False))
    return named or tuple(one for one in all_ if one.answers(wanted, where=True))


def likeliest(those: Sequence[Place], text: str, after: int) -> int | None:
    """Which of some matching places is meant: one of just that name, and the next from here on."""
    named = [n for n, one in enumerate(those) if _keys(one.name) == _keys(text)]
    numbers = named or list(range(len(those)))
    coming = [n for n in numbers if those[n].index > after]
    return next(iter((*coming, *numbers)), None)


def found(score: Score, text: str, after: int) -> Place | None:
    """The place of that name: the next one after a moment, or else the first of the class."""
    those = matching(places(score), text)
    number = likeliest(those, text, after)
    return None if number is None else those[number]
