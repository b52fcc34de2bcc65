"""The leader's state: one frozen value, and what it is led with."""

from collections.abc import Callable, Mapping
from typing import Protocol

from conductor.engine.anchor import Anchor
from conductor.engine.course import Course
from conductor.engine.model import Do, Owed, Reply, State
from conductor.score.model import Lengths, Saying, Score
from conductor.score.sounds import Sound
from conductor.settings import Settings
from conductor.sides import Breath
from conductor.timing.model import Cue, Refit
from conductor.values import Struct, field

Cueing = Callable[[Score, Lengths, Settings, str], tuple[tuple[Cue, ...], frozenset[Saying]]]
Naming = Callable[[int], str]
"""How the clock on the wall calls a now (ms)."""

PACES = range(700, 1401, 50)  # per mille
TAKES_BACK_MS = 10_000  # so long after a command `back` takes it back; later it means a shape


class Refitting(Protocol):
    """The step of timing that fits what is left of a class to a time."""

    def __call__(
        self, score: Score, at: int, left_ms: int, done: int, /, *, passages: bool = True
    ) -> Refit:
        """Fit it; without `passages` nothing is left out."""
        ...


class Tools(Struct, frozen=True):
    """What a class is led with: lengths of speech, settings, and the two steps of timing.

    `naming` tells a now as the clock on the wall has it, where there is one to keep to.
    """

    lengths: Lengths
    settings: Settings
    cueing: Cueing
    refitting: Refitting
    must_end: int | None = None
    naming: Naming | None = None


class Placed(Struct, frozen=True):
    """A sound with its place in now: `ends` in ms, `late` ms after where it belongs.

    `at` is where a cue belongs in the score (ms); bells and fixed phrases have none. `length` is
    how long the words are (ms): `ends` lies later by what the reckoning may be short.
    """

    sound: Sound
    ends: int
    late: int = 0
    form: str = ""
    at: int | None = None
    length: int = 0

    @property
    def key(self) -> tuple[str, str]:
        """What it is the sound of, whichever pass."""
        return self.sound.id.moment, self.sound.id.slot


class Sounds(Struct, frozen=True):
    """Sounds by start. The first `done` were due already; `longest` (ms) bounds looking back."""

    all: tuple[Placed, ...] = ()
    starts: tuple[int, ...] = ()
    longest: int = 0
    done: int = 0

    @property
    def begun(self) -> tuple[Placed, ...]:
        """Those due already."""
        return self.all[: self.done]

    @property
    def due(self) -> int | None:
        """The now of the next one."""
        return self.starts[self.done] if self.done < len(self.starts) else None


class Held(Struct, frozen=True):
    """The half breath running while the class holds; now ms, and `count` halves counted before."""

    entered: int
    leaves: int
    breath: Breath
    inhale: int
    exhale: int
    count: int = 0

    def length(self, breath: Breath) -> int:
        """How long that half lasts."""
        return self.inhale if breath is Breath.IN else self.exhale


class Led(Struct, frozen=True):
    """Everything that changes as a class is led.

    `pos` (score ms) is where the class stands while it does not run: arriving, holding in a
    stretch of time, stopped. `resume_at` (now) is when the run-in ends, or when a go on given
    while holding takes effect. `since` is when it was stopped. `part` is the last one told.
    `sides` is how long each pass has been led (score ms), `owed` the sides led for less time.
    `undo` are the last commands that can be taken back. Until `asked` (now) landing, asked again,
    is done. `keeps` is kept to the clock, `kept` by how much it could not be (now ms). `above` is
    the course as it was before a way down was put into it.
    """

    state: State
    now: int
    course: Course
    index: int = 0
    pos: int = 0
    anchor: Anchor = Anchor(0, 0)
    pace: int = 1000
    pass_no: int = 0
    sounds: Sounds = Sounds()
    held: Held | None = None
    resume_at: int | None = None
    since: int = 0
    slept: bool = False
    silenced: bool = False
    quiet: bool = False
    swapped: bool = False
    level: str = ""
    voice_db: int = 0
    bells_db: int = 0
    offer: str = ""
    begun: int = 0
    planned_end: int = 0
    ended: int = 0
    part: int = -1
    sides: Mapping[str, int] = field(default_factory=dict)
    owed: tuple[Owed, ...] = ()
    reply: Reply | None = None
    undo: tuple["Taken", ...] = ()
    asked: int | None = None
    keeps: bool = False
    kept: int = 0
    above: Course | None = None

    def to_take_back(self, now: int) -> "Taken | None":
        """The command that `back` would take back now."""
        taken = self.undo[-1] if self.undo else None
        return taken if taken is not None and now - taken.at <= TAKES_BACK_MS else None


class Taken(Struct, frozen=True):
    """A command that can be taken back: given `at` (now ms), when the class stood at `before`."""

    do: Do
    words: str
    at: int
    before: Led
