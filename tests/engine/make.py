"""A small class by hand, with cues of its own, to lead in virtual time."""

from collections.abc import Iterable
from typing import Any

from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, Happening, Reply, Snapshot
from conductor.score.model import Hold, Lengths, Meta, Moment, Part, Saying, Score, ShapeInfo, Words
from conductor.settings import Settings
from conductor.sides import Breath, Side
from conductor.spans import Span
from conductor.stance import Base, Foot, Stance
from conductor.timing.holds import grow, retimed
from conductor.timing.model import Cue
from conductor.values import replace

STAND = Stance(Base.FEET, Foot.TOP, Foot.TOP)
BREATHS = {"in": Breath.IN, "out": Breath.OUT, "free": Breath.FREE}
SHAPES = {
    info.id: info
    for info in (
        ShapeInfo("mountain", "mountain", landing=True),
        ShapeInfo("arms", "arms overhead"),
        ShapeInfo("fold", "standing fold"),
        ShapeInfo("dog", "downward dog", landing=True, level=2),
        ShapeInfo("leg", "three-legged dog", side_means="leg that is raised"),
        ShapeInfo("warrior", "warrior two", side_means="front foot"),
        ShapeInfo("plank", "plank", loads=True),
        ShapeInfo("child", "child's pose", landing=True, level=0),
        ShapeInfo("corpse", "final rest", level=0),
    )
}


def move(name: str, breath: str, shape: str, length: int = 4000, **more: Any) -> Moment:
    """A movement; its words are its name."""
    word = {"in": "Inhale", "out": "Exhale"}.get(breath, "")
    base = Moment(
        id=name,
        start=0,
        length=length,
        breath=BREATHS[breath],
        shape=shape,
        side=None,
        decided="",
        stance=STAND,
        words=Words(full=name, breath=word),
        origin=Span("plan.yaml", 1, 1),
        part=0,
    )
    return replace(base, **more)


def stay(hold: Hold, breath: str, shape: str, **more: Any) -> tuple[Moment, ...]:
    first = move(f"{hold.id}.0", breath, shape, arriving=False, **more)
    return grow(replace(first, words=Words(breath=first.words.breath)), hold)


def breaths(name: str, amount: int, **more: Any) -> Hold:
    base = Hold(name, amount, amount, amount, unit=8000, inhale=4000)
    return replace(base, **more)


def time(name: str, ms: int, **more: Any) -> Hold:
    return replace(Hold(name, ms, ms, ms, 8000, 4000, timed=True), **more)


def score(parts: Iterable[tuple[str, list[Moment]]], holds: Iterable[Hold]) -> Score:
    moments: list[Moment] = []
    bounds: list[Part] = []
    for number, (name, those) in enumerate(parts):
        bounds.append(Part(name, len(moments), len(moments) + len(those)))
        moments += [replace(moment, part=number) for moment in those]
    by_id = {hold.id: hold for hold in holds}
    return Score(Meta("Test"), retimed(moments), tuple(bounds), by_id, SHAPES)


def passage(side: Side, hold: Hold) -> list[Moment]:
    """One side: up, over, three breaths, down."""
    more = {"pass_key": f"p:{side}", "pass_side": side}

    def named(name: str) -> dict[str, Any]:
        return {**more, "mate": f"{name} {side.other}", "side": side}

    return [
        move(f"leg {side}", "in", "leg", early=True, **named("leg")),
        move(f"warrior {side}", "out", "warrior", **named("warrior")),
        *stay(hold, "in", "warrior", **{**named("stay"), "mate": f"h {side.other}.0"}),
        move(f"plank {side}", "in", "plank", **named("plank")),
        move(f"dog {side}", "out", "dog", **named("dog")),
    ]


def small() -> Score:
    """Three parts, two sides, a stay of 3 breaths on each, 30 s of rest and a bell."""
    right = breaths("h right", 3, least=1, most=6, mates=("h left",), lines=(("last", "Last."),))
    left = replace(right, id="h left", mates=("h right",))
    rest = time("rest", 30_000, least=20_000, most=60_000, rest=True, lines=(("", "Rest."),))
    return score(
        [
            ("Arrive", [move("stand", "free", "mountain", 8000), move("arms", "in", "arms")]),
            (
                "Flow",
                [
                    move("fold", "out", "fold"),
                    move("flat", "in", "fold"),
                    move("dog", "out", "dog"),
                    *passage(Side.RIGHT, right),
                    move("wait in", "in", "dog", arriving=False),
                    move("wait out", "out", "dog", arriving=False),
                    *passage(Side.LEFT, left),
                ],
            ),
            (
                "Rest",
                [
                    move("knees", "in", "child"),
                    move("child", "out", "child"),
                    *stay(rest, "free", "corpse"),
                    move("end", "in", "corpse", bells=3),
                ],
            ),
        ],
        [right, left, rest],
    )


def cue_all(
    given: Score, lengths: Lengths, settings: Settings, level: str = ""
) -> tuple[tuple[Cue, ...], frozenset[Saying]]:
    """Cues by the simplest rules: words ahead of the moment, lines within it."""
    found: list[Cue] = []
    for index, moment in enumerate(given.moments):
        words = f"{moment.words.full} {level}".strip()
        said: list[tuple[str, str, int]] = []
        if words and moment.early:
            said.append(("ahead", words, moment.start - 4000 - settings.lead_ms))
            said.append(("main", moment.words.breath, moment.start - settings.lead_ms))
        elif words:
            said.append(("main", words, moment.start - settings.lead_ms))
        for number, line in enumerate(moment.lines):
            at = moment.start + line.at if line.at >= 0 else moment.end + line.at
            said.append((f"line{number}", line.saying.text, at))
        for slot, text, start in said:
            saying = Saying(text)
            length = lengths.get(saying, 900)
            found.append(Cue(index, slot, saying, start, length, True, 4000, "full", start))
    return tuple(found), frozenset(cue.saying for cue in found)


class Class:
    """An engine with a hand on the time: short to write a script with."""

    def __init__(self, given: Score | None = None, *, pick: Settings | None = None, **more: Any):
        more.setdefault("cueing", cue_all)
        self.engine = Engine(given or small(), {}, pick or Settings(), **more)
        self.now = 0
        self.told: list[Happening] = []

    def do(self, what: Do, ms: int = 0, word: str = "") -> Reply:
        return self.engine.command(Command(what, ms, word), self.now)

    def wait(self, ms: int) -> list[Happening]:
        """Let time pass; what happened."""
        self.now += ms
        told = list(self.engine.advance(self.now))
        self.told += told
        return told

    def begin(self) -> None:
        """Begin, and pass the run-in."""
        assert self.do(Do.BEGIN).done
        self.wait(3000)

    def to(self, name: str) -> None:
        """Let time pass until a moment has just been entered."""
        for _ in range(1000):
            self.wait(0)
            look = self.look()
            if look.score.moments[look.index].id == name and str(look.state) == "leading":
                return
            due = self.engine.next_deadline()
            assert due is not None, f"{name} never came"
            self.wait(max(due - self.now, 0))
        raise AssertionError(f"{name} never came")

    def look(self) -> Snapshot:
        return self.engine.snapshot(self.now)

    @property
    def here(self) -> str:
        look = self.look()
        return look.score.moments[look.index].id

    def heard(self, ms: int = 4000) -> list[str]:
        """The words and bells wanted, in order."""
        return [getattr(s.what, "text", "bell") for s in self.engine.upcoming(self.now, ms)]


def entered(told: Iterable[Happening]) -> list[str]:
    return [one.moment for one in told if one.kind == "moment"]


def at(name: str, ms: int = 1000, given: Score | None = None) -> Class:
    """A class led to some ms after a moment has been entered."""
    led = Class(given)
    led.begin()
    led.to(name)
    led.wait(ms)
    return led


def leading() -> Class:
    """A class led into the second side's stay: one second into an inhale."""
    return at("h left.2")


def stopped() -> Class:
    led = leading()
    led.do(Do.STOP)
    led.wait(1000)
    return led
