"""Standing passages: walks through the catalogue from the dog and back to it, and salutations."""

from collections.abc import Sequence
from functools import cache

from conductor.draft.choice import HUBS, drawn_to, hold, may, prepared
from conductor.draft.graph import IN, OUT, Here, Move, goes_back, moves, shapes, stance, trail
from conductor.draft.pen import Pen
from conductor.draft.tree import Group
from conductor.draft.units import between
from conductor.draft.wish import Focus
from conductor.shapes.model import Shape
from conductor.sides import Breath
from conductor.stance import Base, Foot, Frame
from conductor.values import Struct

LINK = "link"
DOG = Here("downward-dog", OUT)
TOP = Here("mountain", OUT)

_STEPPING = frozenset(
    {Base.FEET, Base.FOOT, Base.FOOT_HAND, Base.FOOT_KNEE, Base.HANDS_FOOT_KNEE, Base.HANDS_FEET}
)
_EXITS = frozenset(
    "runners-lunge low-lunge half-lift standing-fold warrior-two reverse-warrior crescent-lunge "
    "warrior-one plank five-pointed-star pyramid-with-flat-back wide-legged-half-lift".split()
)
HELD_S = 10  # shapes usually held so long are stayed in; shorter ones are passed


class Way(Struct, frozen=True):
    """What a passage is to be: shapes it must lead, how many movements and stays, how long."""

    must: tuple[str, ...] = ()
    moves: int = 5
    seconds: float = 24
    stays: int = 3
    opens: bool = False  # to the long side, with the back foot turned out; else hips stay forward
    link: bool = True


class _Walk:
    """One walk, from the step through until the class is ready to go home."""

    def __init__(self, pen: Pen, way: Way, home: Here) -> None:
        self._pen = pen
        self._way = way
        self._to_go = home
        self._led: list[str] = []
        self._stays = 0
        self._back = False

    def write(self) -> None:
        """Step through, walk, and go home."""
        pen = self._pen
        if self._to_go == DOG:
            pen.move(IN, "three-legged-dog")
            pen.move(OUT, self._first())
        else:
            pen.move(IN, "five-pointed-star")
        self._led = [pen.here.shape]
        for must in self._way.must:
            self._to(must)
        while len(self._led) <= self._way.moves and (move := self._next()):
            self._lead(move)
        if not self._stays:
            pen.stay(self._way.seconds)
        self._home()

    def _first(self) -> str:
        if self._way.must:
            kneels = {shapes()[name].place.knees for name in self._way.must[:1]} == {("other",)}
            return "low-lunge" if kneels else "runners-lunge"
        return self._pen.one(("low-lunge", "runners-lunge"))

    def _to(self, must: str) -> None:
        """Lead a shape that has to come, by the easiest way there."""
        if must in self._led:
            return
        lead = _EXITS | {"triangle", "warrior-three", must, *self._led, *shapes()[must].before}
        found = [
            way
            for breath in (shapes()[must].breath, "in", "out")
            if breath != "either"
            and (way := trail(self._pen.here, Here(must, Breath(breath)), lead))
        ]
        assert found, must  # noqa: S101 -- what must come is led before the hips turn away from it
        for move in found[0]:
            self._lead(move, stays=move.shape == must)

    def _lead(self, move: Move, *, stays: bool | None = None) -> None:
        pen = self._pen
        back = move.shape in self._led
        pen.move(move.breath, move.shape)
        shape = shapes()[move.shape]
        if move.shape != self._led[-1]:
            self._led.append(move.shape)
        self._back = back
        held = not back and shape.hold[0] >= HELD_S and shape.id != "runners-lunge"
        if stays is None:
            free = self._stays < self._way.stays
            stays = held and free and pen.chance.random() < self._likely(shape)
        if stays:
            pen.stay(self._way.seconds, last=not self._stays)
            self._stays += 1

    def _likely(self, shape: Shape) -> float:
        drawn = drawn_to(shape, self._pen.focus) >= 6
        return 0.75 if drawn else 0.4

    def _next(self) -> Move | None:
        """One of the movements that may come now, by weight."""
        choices = [
            (move, self._weight(move))
            for move, _ in moves(self._pen.here.shape)
            if move.breath is self._pen.here.breath.other and self._may(move.shape)
        ]
        return self._pen.weighed(choices) if choices else None

    def _may(self, name: str) -> bool:
        shape, here = shapes()[name], self._pen.here.shape
        if name in self._led and (self._back or not goes_back(here, name)):
            return False
        place = shape.place
        wide = place.own is Foot.TOP and place.other is Foot.BACK and not shape.sided
        if name in HUBS or not (shape.sided or (wide and self._way.opens)):
            return False
        works = shape.loads and self._pen.focus is Focus.SLOW
        if place.base not in _STEPPING or works or not may(shape, self._pen.wish.level):
            return False
        leads = _home(Here(name, self._pen.here.breath.other), self._to_go) is not None
        return leads and prepared(shape, self._pen.seen) and self._turns(name)

    def _turns(self, name: str) -> bool:
        """Whether the hips may turn so: once to the long side, and not back on the way.

        Stephens, Yoga Sequencing (2012): no going back and forth between the two rotations.
        """
        now, then = stance(self._pen.here.shape).frame, stance(name).frame
        if then is Frame.LONG:
            return self._way.opens
        return now is not Frame.LONG

    def _weight(self, move: Move) -> int:
        shape = shapes()[move.shape]
        back = move.shape in self._led
        weight = 4 + drawn_to(shape, self._pen.focus)
        if self._way.opens and stance(move.shape).frame is Frame.LONG:
            weight += 10
        if move.shape not in self._pen.seen:
            weight += 4
        return max(1, weight // 3) if back else weight

    def _home(self) -> None:
        pen, goal = self._pen, self._to_go
        to_plank = trail(pen.here, Here("plank", IN), _EXITS - {"plank"})
        if self._way.link and goal == DOG and to_plank is not None:
            pen.walk(to_plank[:-1])
            pen.call(LINK, DOG)
        else:
            home = _home(pen.here, goal)
            assert home is not None  # noqa: S101 -- every stepping shape leads home
            pen.walk(home)
        if goal == DOG:
            pen.breaths(hold(shapes()["downward-dog"], pen.tempo, min(14, self._way.seconds / 2)))


@cache
def _home(here: Here, goal: Here) -> tuple[Move, ...] | None:
    """The way home from a shape of a walk."""
    return trail(here, goal, _EXITS)


def passage(pen: Pen, name: str, way: Way) -> None:
    """Write a passage under `flows` and lead it on both sides, from the dog and back to it."""
    if way.link:
        link(pen)
    pen.flows[name] = pen.cut(_Walk(pen, way, DOG).write)
    lead = pen.cut(lambda: pen.call(name, DOG))
    pen.steps.append(Group(lead, sides=True, between=between(pen)))


def wide(pen: Pen, way: Way) -> None:
    """Write a passage from the top of the mat: one foot steps back, wide, on both sides."""
    steps = pen.cut(_Walk(pen, way, TOP).write)
    pen.steps.append(Group(steps, sides=True, between=between(pen)))


_LINKS = {
    1: "in:plank out:eight-points in:cobra out:downward-dog",
    2: "in:plank out:low-plank in:upward-dog out:downward-dog",
}


def link(pen: Pen) -> None:
    """Have the passage between standing sequences under `flows`."""
    if LINK not in pen.flows:
        here, level = pen.here, min(2, pen.wish.level)
        pen.flows[LINK] = pen.cut(lambda: pen.walk(_row(_LINKS[level])))
        pen.here = here


def _row(text: str) -> tuple[Move, ...]:
    row: list[Move] = []
    for word in text.split():
        breath, _, shape = word.partition(":")
        row.append(Move(Breath(breath), row[-1].shape if shape == "same" else shape))
    return tuple(row)


class Form(Struct, frozen=True):
    """A salutation: its movements, `link` and `stay` among them, and whether sides alternate."""

    name: str
    steps: str
    level: int = 1
    alternate: bool = False


_FORMS = (
    Form("plain", "in:arms-overhead out:standing-fold in:half-lift out:standing-fold link stay "
         "in:half-lift out:standing-fold in:arms-overhead out:mountain"),
    Form("wave", "in:arms-overhead out:standing-fold in:half-lift out:downward-dog in:plank "
         "out:downward-dog in:plank out:downward-dog stay in:half-lift out:standing-fold "
         "in:arms-overhead out:mountain"),
    Form("lunge", "in:arms-overhead out:standing-fold in:half-lift out:downward-dog "
         "in:three-legged-dog out:low-lunge in:crescent-lunge out:runners-lunge link stay "
         "in:half-lift out:standing-fold in:arms-overhead out:mountain", alternate=True),
    Form("low", "in:arms-overhead out:standing-fold in:half-lift out:downward-dog "
         "in:three-legged-dog out:low-lunge stay in:plank out:downward-dog stay in:half-lift "
         "out:standing-fold in:arms-overhead out:mountain", alternate=True),
    Form("chair", "in:chair out:standing-fold in:half-lift out:standing-fold link stay "
         "in:half-lift out:standing-fold in:chair out:mountain"),
    Form("chair and warrior", "in:chair out:standing-fold in:half-lift out:standing-fold link "
         "in:three-legged-dog out:runners-lunge in:warrior-one out:runners-lunge link stay "
         "in:half-lift out:standing-fold in:chair out:mountain", level=2, alternate=True),
)  # fmt: skip


def forms(level: int) -> tuple[Form, ...]:
    """The salutations a class of that level may have."""
    return tuple(form for form in _FORMS if form.level <= level)


def plain(level: int) -> Form:
    """The salutation everybody knows."""
    return forms(level)[0]


def salute(pen: Pen, form: Form, rounds: int) -> None:
    """Write rounds of a salutation, from the top of the mat and back to it."""
    if "link" in form.steps:
        link(pen)
    steps = pen.cut(lambda: _salute(pen, form.steps.split()))
    if rounds == 1:
        pen.steps += steps
        return
    alternate = form.alternate
    pen.steps.append(
        Group(steps, rounds=rounds, alternate=alternate, speak="full, then short, then breath")
    )


def _salute(pen: Pen, row: Sequence[str]) -> None:
    for word in row:
        if word == "link":
            pen.call(LINK, DOG)
        elif word == "stay":
            pen.breaths(hold(shapes()[pen.here.shape], pen.tempo, 24), last=False)
        else:
            pen.walk(_row(word))
