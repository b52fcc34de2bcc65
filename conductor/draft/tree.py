"""A plan as it is being drafted: steps as values, and how long they last."""

from collections import Counter
from collections.abc import Iterable, Mapping

from conductor.compiler.marks import RING_MS
from conductor.sides import Breath
from conductor.values import Struct


class Move(Struct, frozen=True):
    """A movement on half a breath; `shape` "" is half a breath in place."""

    breath: Breath
    shape: str
    say: str = ""
    ease: str = ""
    more: str = ""


class Come(Struct, frozen=True):
    """A shape taken at leisure, in so many breaths."""

    shape: str
    say: str
    breaths: int = 2


class Stay(Struct, frozen=True):
    """Breaths in the shape reached; how many is looked up by its key, between least and most."""

    key: int
    least: int
    most: int
    say: tuple[tuple[str, str], ...] = ()  # anchor ("first", "last" or "") and words


class Rest(Struct, frozen=True):
    """Seconds in the shape reached, in words or in silence; a key makes them stretchable."""

    seconds: int
    say: str = ""
    key: int = -1
    least: int = 0
    most: int = 0


class Free(Struct, frozen=True):
    """Seconds at one's own breath, which arrive in a shape."""

    seconds: int
    to: str
    say: str
    side: str = ""


class Bell(Struct, frozen=True):
    """Strokes of the bell."""

    strokes: int = 1


class Call(Struct, frozen=True):
    """A passage led by its name."""

    flow: str


class Group(Struct, frozen=True):
    """Steps together: some rounds of them, or both sides, or the other side each round."""

    steps: "tuple[Step, ...]"
    rounds: int = 1
    sides: bool = False
    alternate: bool = False
    between: "tuple[Step, ...]" = ()
    speak: str = ""

    @property
    def times(self) -> int:
        """How often the steps are led."""
        return 2 if self.sides else self.rounds


Step = Move | Come | Stay | Rest | Free | Bell | Call | Group
Flows = Mapping[str, tuple[Step, ...]]


class Tempo(Struct, frozen=True):
    """A breath: milliseconds of the inhale and of the exhale."""

    inhale: int
    exhale: int

    @property
    def breath(self) -> int:
        """Milliseconds of a whole breath."""
        return self.inhale + self.exhale


class Length(Struct, frozen=True):
    """How long steps last: milliseconds that are fixed, and how often each stay is breathed.

    `breaths` counts the led breaths of a stay by its key, `seconds` the led seconds of a rest.
    """

    fixed: int
    breaths: Mapping[int, int]
    seconds: Mapping[int, int]


def measure(steps: Iterable[Step], flows: Flows, tempo: Tempo) -> Length:
    """Count what steps take, flows written out."""
    fixed, breaths, seconds = 0, Counter[int](), Counter[int]()
    row = tuple(steps)
    if row and isinstance(row[-1], Bell):
        fixed += RING_MS * row[-1].strokes  # with a stay after it, it rings into that
    for step in row:
        match step:
            case Move():
                fixed += tempo.inhale if step.breath is Breath.IN else tempo.exhale
            case Come():
                fixed += step.breaths * tempo.breath
            case Stay():
                breaths[step.key] += 1
            case Rest():
                fixed += 0 if step.key >= 0 else 1000 * step.seconds
                seconds.update([step.key] if step.key >= 0 else [])
            case Free():
                fixed += 1000 * step.seconds
            case Bell():
                pass
            case Call() | Group():
                fixed += _inside(step, flows, tempo, breaths, seconds)
    return Length(fixed, breaths, seconds)


def _inside(
    step: Call | Group, flows: Flows, tempo: Tempo, breaths: Counter[int], seconds: Counter[int]
) -> int:
    inner = flows[step.flow] if isinstance(step, Call) else step.steps
    times = 1 if isinstance(step, Call) else step.times
    length = measure(inner, flows, tempo)
    breaths.update({key: count * times for key, count in length.breaths.items()})
    seconds.update({key: count * times for key, count in length.seconds.items()})
    fixed = length.fixed * times
    if isinstance(step, Group) and step.between:
        fixed += measure(step.between, flows, tempo).fixed
    return fixed
