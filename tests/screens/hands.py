"""Stand-ins for what the screens are handed, with a clock that is set."""

import threading
from collections.abc import Sequence
from pathlib import Path

from textual.app import App

from conductor.clock import SetClock
from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, Snapshot, State
from conductor.progress import Progress
from conductor.score.model import Score
from conductor.screens.wiring import Entry, Prepared
from conductor.settings import Settings
from conductor.values import replace
from conductor.view.after import After
from conductor.view.machine import Fact

WENT = After(
    "Tide Table",
    (
        ("Where the time went", "Led 8 min 44 s; planned 8 min 24 s: 20 s over."),
        ("The sides", "warrior two: right foot 44 s, left foot 36 s."),
        ("Next time", "Write 6 breaths instead of 5 for warrior two."),
    ),
    (("Parts: planned, led, waited", ("Arrive  24 s  24 s", "Stand  2 min  2 min 20 s")),),
)
SHOTS = Path(__file__).parent / "shots"


class Led:
    """A class that stays where its snapshot puts it, and keeps what is posted."""

    def __init__(self, snapshot: Snapshot, trouble: str = "") -> None:
        self.picture = snapshot
        self.clock = SetClock(snapshot.now)
        self.posted: list[Command] = []
        self._trouble = trouble
        self.unkept = ""

    def snapshot(self) -> Snapshot:
        return self.picture

    def now(self) -> int:
        return self.clock.now()

    def post(self, command: Command) -> None:
        self.posted.append(command)

    def trouble(self) -> str:
        return self._trouble

    def after(self) -> After:
        if self.unkept:
            raise OSError(self.unkept)
        return WENT

    @property
    def done(self) -> list[Do]:
        return [one.do for one in self.posted]


class Engined:
    """A class led by the real engine on a clock that is set."""

    def __init__(self, score: Score) -> None:
        self.clock = SetClock()
        self._engine = Engine(score, {}, Settings())

    def snapshot(self) -> Snapshot:
        self._engine.advance(self.clock.now())
        return self._engine.snapshot(self.clock.now())

    def now(self) -> int:
        return self.clock.now()

    def post(self, command: Command) -> None:
        self._engine.command(command, self.clock.now())

    def trouble(self) -> str:
        return ""

    def after(self) -> After:
        return WENT


class Ready:
    """A class made ready; the voice waits for `voice` to be set."""

    def __init__(self, ready: Snapshot, findings: str = "", trouble: str = "") -> None:
        self._ready = ready
        self.findings = findings
        self._trouble = trouble
        self.voice = threading.Event()
        self.voice.set()
        self.tested = 0
        self.goes_on = ""
        self.as_last_time = ""
        self.now_words = ""
        self.voiced = True
        self.distance_m = 2.0
        self.states = (Fact("Sound", "plays through Null Output."), Fact("Sleep", "held off."))
        self.closed = threading.Event()

    @property
    def score(self) -> Score:
        return self._ready.score

    def prepare(self, progress: Progress) -> str:
        progress(1, 4)
        self.voice.wait(10)
        progress(4, 4)
        return self._trouble

    def begin_now(self) -> str:
        return self.now_words

    def machine(self) -> Sequence[Fact]:
        return self.states

    def sound_test(self) -> str:
        self.tested += 1
        return "You should hear a bell."

    def begin(self) -> Led:
        return Led(self._ready)

    def close(self) -> None:
        self.closed.set()


class Plans:
    """A shelf of three plans, of which one can be led."""

    def __init__(self, prepared: Prepared) -> None:
        self._prepared = prepared

    def plans(self) -> Sequence[Entry]:
        return (
            Entry("tide", "Tide Table", length_ms=504_000, warnings=2),
            Entry("rope", "Rope and [b]Anchor[/b]", "piece", 300_000, errors=1),
            Entry("torn", "torn.yaml", problem="line 3: a key stands twice"),
        )

    def entry(self, key: str) -> Entry:
        return next(one for one in self.plans() if one.key == key)

    def open(self, key: str) -> Prepared | str:
        return self._prepared if key == "tide" else "rope.yaml:3:1: no shape is called [keel]"


def text(app: App[object]) -> str:
    """The screen as lines of text, without blanks at their ends."""
    strips = app.screen._compositor.render_strips()
    return "\n".join(strip.text.rstrip() for strip in strips)


def finished(snapshot: Snapshot) -> Snapshot:
    return replace(snapshot, state=State.FINISHED)
