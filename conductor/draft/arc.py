"""The arc of a class: arrive, warm up, stand, lead to the peak, undo it, cool, rest, close."""

from collections.abc import Callable
from random import Random

from conductor.draft import frame
from conductor.draft.choice import HUBS
from conductor.draft.graph import OUT, Here, shapes, trail
from conductor.draft.passages import Form, Way, forms, passage, plain, salute, wide
from conductor.draft.peak import peaks, ready
from conductor.draft.stage import Stage
from conductor.draft.text import Part
from conductor.draft.units import ON_THE_WAY, row, travel, unit
from conductor.draft.wish import Focus, Wish
from conductor.shapes.model import Shape
from conductor.stance import Base
from conductor.values import Struct

NAMES = (
    "long shore", "narrow water", "over the bar", "round the point", "high ground", "slow river",
    "between the lights", "open roads", "along the wall", "against the tide",
)  # fmt: skip


LONG_MS = 360_000  # of standing, from which on some of it is salutations
PASSAGE_MS = 220_000  # a standing passage on both sides
LONG_WARM_MS = 90_000  # of warm-up left, for which the class lies down on its belly
LEAST_PASSAGE_MS = 45_000
LEAST_SEAT_MS = 30_000  # with less left, the class goes straight to its back
WIDE = 0.35  # how often a passage that opens begins at the top of the mat, feet wide
MOVE_MS = 14_000  # of one side, for each movement with what is stayed in on the way
HOME_MOVES = 6  # movements of stepping through and of going home


class Shares(Struct, frozen=True):
    """How the time between arrival and rest is shared; Stephens's five parts, common practice."""

    warm: float
    stand: float
    peak: float
    cool: float


_SHARES = {
    Focus.HIPS: Shares(0.18, 0.45, 0.18, 0.19),
    Focus.BACKBEND: Shares(0.20, 0.41, 0.20, 0.19),
    Focus.BALANCE: Shares(0.18, 0.43, 0.21, 0.18),
    Focus.SLOW: Shares(0.28, 0.20, 0.25, 0.27),
}


class Arc(Stage):
    """One class being laid out, part by part, each until its share of the time is used."""

    def __init__(self, wish: Wish, chance: Random) -> None:
        super().__init__(wish, chance)
        self.parts: list[Part] = []
        self.about: dict[str, str] = {}
        self._names = list(NAMES)

    # laying out

    def lay(self) -> None:
        """Write all the parts."""
        wish = self.wish
        share = _SHARES[wish.focus]
        self._part("Arrive", frame.WHY_ARRIVE, lambda: frame.arrive(self.pen))
        ends = self._long(lambda: frame.end(self.pen))
        work = wish.length - self._used - ends
        at = self._used
        self._part("Warm up", frame.why_warm(self.peak), lambda: self._warm(at + work * share.warm))
        at += round(work * (share.warm + share.stand))
        self._salutes(at)
        self._part(
            "Stand",
            frame.why_stand(self.peak, wish),
            lambda: self._stand(at),
            speak="full, then short",
        )
        at += round(work * share.peak)
        self._part("Peak", frame.why_peak(self.peak), lambda: self._lead_peak(at))
        at += round(work * share.cool)
        self._part("Cool down", frame.WHY_COOL, lambda: self._cool(at))
        self._part("Rest", frame.WHY_REST, lambda: frame.rest(self.pen))
        self._part("Close", frame.WHY_CLOSE, lambda: frame.close(self.pen))

    def _part(self, name: str, why: str, write: Callable[[], object], speak: str = "") -> None:
        steps = self.pen.cut(write)
        if steps:
            self.parts.append(Part(name, why, steps, speak))
            self._used += self.pen.lasts(steps)

    # the parts

    def _warm(self, until: float) -> None:
        pen = self.pen
        start, brief = pen.here.shape, frame.brief(self.wish)
        half = self._now() + 0.4 * (until - self._now())
        if start != "childs-pose" and not brief:
            self._rows(start, half)
            self._fill(start, half, self._gentle)
        travel(pen, "all-fours")
        row(pen, "cow", 3 if brief else 3 + pen.chance.randrange(3))
        for name in self.peak.warm:
            self._prepare(name)
        travel(pen, "all-fours")
        self._fill("all-fours", until - 30_000, self._gentle)
        if until - self._now() > LONG_WARM_MS:
            travel(pen, "crocodile")
            self._fill("crocodile", until - 30_000, self._gentle)
        travel(pen, "childs-pose")
        pen.stay(10 if brief else 20)
        if not brief or not self._stays_low():
            travel(pen, "downward-dog")
            pen.stay(8 if brief else 20)

    def _stays_low(self) -> bool:
        """Whether a brief class has nothing standing between its warm-up and its peak."""
        slow = self.wish.focus is Focus.SLOW and bool(self.peak.hub) and not self.peak.walked
        return slow and self.peak.hub != "downward-dog"

    def _stand(self, until: float) -> None:
        pen, wish = self.pen, self.wish
        if frame.brief(wish) and (self._ready() or not self.peak.hub):
            if wish.focus is not Focus.SLOW:
                self._greet(until)
            return
        for name in self.peak.stood:
            travel(pen, "mountain")
            self._prepare(name)
        self._walks(until)
        if wish.focus is Focus.BALANCE or until - self._now() > 60_000:
            travel(pen, "mountain")
            self._fill("mountain", until, self._upright)

    def _greet(self, until: float) -> None:
        """A round or more of the plain salutation, where a brief class has time for it."""
        pen, form = self.pen, plain(self.wish.level)
        least = 1 if self.peak.hub else 0
        rounds = max(least, min(3, self._rounds(form, until - 24_000)))
        if rounds:
            travel(pen, "mountain")
            salute(pen, form, rounds)

    def _salutes(self, stand_until: float) -> None:
        """A part of its own before the standing passages, where there is time for both."""
        time = stand_until - self._used
        if self.wish.focus is Focus.SLOW or frame.brief(self.wish) or time < LONG_MS:
            return
        until = self._used + 0.35 * time
        self._part("Salutes", frame.WHY_SALUTES, lambda: self._greetings(until))

    def _greetings(self, until: float) -> None:
        pen = self.pen
        left = list(forms(self.wish.level))
        while left and self._now() < until - 60_000:
            travel(pen, "mountain")
            form = left.pop(pen.chance.randrange(len(left)))
            rounds = max(2, min(self._rounds(form, until), 4))
            salute(pen, form, rounds + rounds % 2 if form.alternate else rounds)

    def _rounds(self, form: Form, until: float) -> int:
        """How many rounds of a salutation there is time for."""
        one = self._long(lambda: salute(self.pen, form, 1))
        return int((until - self._now()) // one)

    def _walks(self, until: float) -> None:
        """Standing passages, those that open to the side before those that stay closed.

        Stephens, Yoga Sequencing (2012): externally rotated standing shapes first.
        """
        pen, slow = self.pen, self.wish.focus is Focus.SLOW
        many = max(1, min(2 if slow else 5, round((until - self._now()) / PASSAGE_MS)))
        must = list(self.peak.walked)
        opens = sorted((pen.chance.random() < 0.5 for _ in range(many)), reverse=True)
        for at, opening in enumerate(opens):
            each = (until - self._now()) / (many - at)
            last = at == many - 1 or each < LEAST_PASSAGE_MS
            here = [name for name in must if self._long_side(name) == opening or last]
            must = [name for name in must if name not in here]
            if not here and at and each < LEAST_PASSAGE_MS:
                return
            way = self._way(here, each, opening=opening)
            if way.opens and not here and not frame.brief(self.wish) and pen.chance.random() < WIDE:
                travel(pen, "mountain")
                wide(pen, way)
            else:
                self._passage(way)

    def _way(self, must: list[str], each: float, *, opening: bool) -> Way:
        """A passage of about so many milliseconds on both sides."""
        slow = self.wish.focus is Focus.SLOW
        opens = opening or any(self._long_side(name) for name in must)
        if opens and "warrior-two" not in must:
            must = [*must, "warrior-two"]
        must = sorted(must, key=lambda name: (self._long_side(name), name != "warrior-two"))
        moves = max(4, min(8, round(each / 2 / MOVE_MS)))
        seconds = 40.0 if slow else max(16.0, min(30.0, each / 8_000))
        moving = (moves + HOME_MOVES) * self.pen.tempo.breath / 2
        stays = max(1, min(4, round((each / 2 - moving) / 1000 / seconds)))
        link = not slow and self.pen.chance.random() < 0.6
        return Way(tuple(must), moves, seconds, stays, opens, link)

    def _passage(self, way: Way) -> None:
        travel(self.pen, "downward-dog")
        name = self._names.pop(self.pen.chance.randrange(len(self._names)))
        passage(self.pen, name, way)
        self.about[name] = frame.about_passage(way, self.peak)

    def _long_side(self, name: str) -> bool:
        return shapes()[name].place.frame.value == "long side"

    def _lead_peak(self, until: float) -> None:
        pen, peak = self.pen, self.peak
        shape = shapes()[peak.shape]
        if not peak.hub:
            chain = [name for name in peak.walked if name in pen.seen or frame.brief(self.wish)][:1]
            way = Way(
                (*chain, peak.shape),
                1 if frame.brief(self.wish) else 3,
                self._peak_seconds(until),
                opens=self._long_side(shape.id),
                link=False,
            )
            self._passage(way)
        else:
            self._lead_at_hub(until)
        if peak.hub or not frame.brief(self.wish):
            self._undo(shape)

    def _lead_at_hub(self, until: float) -> None:
        """A peak that is reached from a hub, after lesser ones on the way and its preparations."""
        pen, peak = self.pen, self.peak
        shape = shapes()[peak.shape]
        if not frame.brief(self.wish):
            self._foothills(self._now() + 0.4 * (until - self._now()))
        travel(pen, peak.hub)
        for name in peak.near:
            self._prepare(name)
        if not frame.brief(self.wish):
            self._fill(peak.hub, self._now() + 0.5 * (until - self._now()), self._toward)
        hands = shape.asks.get("wrists", 0) > 1
        if hands:
            travel(pen, "childs-pose")
            pen.stay(16)
        travel(pen, peak.hub)
        twice = 1 if shape.sided or hands else 2
        unit(pen, peak.shape, self._peak_seconds(until) / twice, rounds=twice)

    def _foothills(self, until: float) -> None:
        """Lesser peaks at the hubs between here and the peak's own, in their order."""
        pen = self.pen
        last = HUBS.index(self.peak.hub)
        level = shapes()[self.peak.shape].level
        while self._now() < until:
            now = HUBS.index(pen.here.shape) if pen.here.shape in HUBS else 0
            left = [
                one
                for one in peaks(pen.focus, min(level, self.wish.level))
                if one.hub
                and now <= HUBS.index(one.hub) <= last
                and one.shape != self.peak.shape
                and one.shape not in pen.held
                and not self._beyond(one.shape)
                and ready(one.shape, pen.seen)
            ]
            if not left:
                return
            first = min(HUBS.index(one.hub) for one in left)
            one = pen.one([one for one in left if HUBS.index(one.hub) == first])
            travel(pen, one.hub)
            unit(pen, one.shape, self._seconds(shapes()[one.shape]))

    def _peak_seconds(self, until: float) -> float:
        usual = self._seconds(shapes()[self.peak.shape])
        return max(usual * 1.25, (until - self._now()) / 2000 * 0.6)

    def _undo(self, shape: Shape) -> None:
        """Lead one of the shapes that undo the peak, and stay there."""
        pen = self.pen
        restful = sorted(shape.undoes, key=lambda name: shapes()[name].place.trunk != "resting")
        for name in restful:
            way = trail(pen.here, Here(name, OUT), ON_THE_WAY)
            one = shapes()[name]
            gentle = one.level <= self.wish.level and not one.loads and not one.sided
            if way is not None and gentle:
                pen.walk(way)
                pen.stay(10 if frame.brief(self.wish) else 24)
                return

    def _cool(self, until: float) -> None:
        pen = self.pen
        start = pen.one(("staff", "easy-seat"))
        if shapes()[pen.here.shape].place.base is not Base.BACK:
            half = self._now() + 0.5 * (until - self._now())
            if half - self._now() > LEAST_SEAT_MS:
                travel(pen, start)
                self._fill(start, half, self._cooling)
        travel(pen, "constructive-rest")
        self._fill("constructive-rest", until - 40_000, self._cooling)
        self._last_twist(until)

    def _last_twist(self, until: float) -> None:
        pen = self.pen
        left = [
            name
            for name in ("reclined-twist", "happy-baby", "knees-to-chest")
            if name not in pen.held
        ]
        if frame.brief(self.wish):
            left = [name for name in left if self._fits(name, until + 20_000)]
        if left:
            unit(pen, left[0], 24)
