"""What parts of a class are filled with: units at a hub, until the time of the part is used."""

from collections.abc import Callable
from random import Random

from conductor.draft import frame
from conductor.draft.choice import drawn_to, homes, leading, prepared
from conductor.draft.graph import shapes
from conductor.draft.peak import Peak, drawn, ready
from conductor.draft.pen import Pen
from conductor.draft.units import row, rows, travel, unit, units
from conductor.draft.wish import Focus, Wish
from conductor.shapes.model import Shape
from conductor.stance import Base


class Stage:
    """A class under way: its pen, its peak, and how much of its time is used."""

    def __init__(self, wish: Wish, chance: Random) -> None:
        self.pen = Pen(wish, chance)
        self.wish = wish
        self.peak: Peak = drawn(self.pen, brief=frame.brief(wish))
        self._used = 0  # ms of the parts written

    # what may fill them

    def _gentle(self, shape: Shape) -> bool:
        easy = max(shape.asks.values(), default=0) <= 2 and shape.level == 1
        back = shape.asks.get("spine extension", 0) > 1 and shape.place.base is not Base.HANDS_KNEE
        deep = back or shape.family == "fold"
        return easy and not deep and (not shape.loads or shape.id == "bird-dog")

    def _upright(self, shape: Shape) -> bool:
        wanted = shape.balance or drawn_to(shape, self.wish.focus) >= 4 or shape.family == "twist"
        works = shape.loads and self.wish.focus is Focus.SLOW
        return wanted and not works

    def _beyond(self, name: str) -> bool:
        """Whether one comes to a shape through the peak: it is deeper, and not for before it."""
        return self.peak.shape in {*leading(name), *shapes()[name].prepares}

    def _toward(self, shape: Shape) -> bool:
        """What leads toward the peak at its own hub: as near to the focus, and not stronger."""
        peak = shapes()[self.peak.shape]
        near = drawn_to(shape, self.wish.focus) >= 4 or shape.id in peak.prepares
        fits = shape.level <= peak.level and not shape.landing
        return near and fits and not self._beyond(shape.id)

    def _cooling(self, shape: Shape) -> bool:
        folds = shape.family in {"fold", "twist", "seated", "supine", "side-bend", "kneeling"}
        if self.wish.focus is not Focus.BACKBEND:
            folds = folds or shape.id == "bridge"
        strong = max(shape.asks.values(), default=0) > 2 and self.wish.focus is not Focus.HIPS
        works = shape.loads or shape.asks.get("core", 0) > 1
        return folds and not works and not strong

    def _fill(self, hub: str, until: float, wanted: Callable[[Shape], bool]) -> None:
        """Units at a hub until the time is used, the nearest to the focus most often."""
        pen = self.pen
        while self._now() < until:
            left = [
                name
                for name in units(hub, self.wish.level, pen.seen)
                if name not in pen.held and wanted(shapes()[name]) and name != self.peak.shape
            ]
            left = [name for name in left if self._fits(name, until)]
            if not left:
                return
            name = pen.weighed([(name, self._weight(name)) for name in left])
            unit(pen, name, self._seconds(shapes()[name]), may_move=self._may_move)

    @property
    def _may_move(self) -> bool:
        """Whether small shapes may be led to and fro: not where the class is slow."""
        return self.wish.focus is not Focus.SLOW

    def _weight(self, name: str) -> int:
        """The nearest to the focus most often, and what was passed through already hardly."""
        weight = 3 + drawn_to(shapes()[name], self.pen.focus)
        return 1 if name in self.pen.seen else 3 * weight

    def _fits(self, name: str, until: float) -> bool:
        seconds = self._seconds(shapes()[name])
        long = self._long(lambda: unit(self.pen, name, seconds, may_move=self._may_move))
        over = 0.1 if frame.brief(self.wish) else 0.4
        return self._now() + long <= until + over * long

    def _seconds(self, shape: Shape) -> float:
        """How long to stay: in the middle of what is usual, shorter in a short class."""
        least, most = shape.hold
        minutes = self.wish.minutes
        still = 24 if minutes <= 20 else 40 if minutes < 60 else 55
        slow = 70 if self.wish.focus is Focus.SLOW else still
        balances = self.wish.focus is Focus.BALANCE and not frame.brief(self.wish)
        work = 28 if balances else 20
        return min(most, max(least, work if shape.loads else slow))

    def _rows(self, hub: str, until: float) -> None:
        pen = self.pen
        left = [name for name in rows(hub, self.wish.level) if name != "bridge"]
        if left and self._now() < until:
            row(pen, pen.one(left), 3)

    def _prepare(self, name: str) -> None:
        """Lead what prepares the peak, from the nearest hub it belongs to."""
        pen = self.pen
        enough = frame.brief(self.wish) and self._ready()
        if name in pen.held or enough or not prepared(shapes()[name], pen.seen):
            return
        hub = pen.here.shape if pen.here.shape in homes(name) else homes(name)[0]
        travel(pen, hub)
        unit(pen, name, self._seconds(shapes()[name]))

    def _ready(self) -> bool:
        """Whether something prepares the peak already, or will on the way into it."""
        return ready(self.peak.shape, self.pen.seen)

    def _now(self) -> int:
        return self._used + self.pen.lasts(self.pen.steps)

    def _long(self, write: Callable[[], object]) -> int:
        """How long something would take; nothing is written and no chance is used."""
        return self.pen.long(write)
