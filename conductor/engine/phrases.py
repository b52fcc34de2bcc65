"""The few fixed phrases of leading; they are rendered before class like every other cue."""

from conductor.engine.descent import resting as passed
from conductor.score.model import Lengths, Saying, Score, ShapeInfo
from conductor.timing.estimate import estimate
from conductor.timing.sayings import coming_down
from conductor.timing.sayings import phrases as timed_phrases

HOLD_HERE = Saying("Hold here.")
AND_ON = Saying("And on.")
COUNTED = tuple(map(Saying, "Two. Three. Four. Five. Six. Seven. Eight. Nine. Ten.".split()))
"""The breaths of a hold, counted aloud where that is wished; the first one needs no counting."""


def offered(shape: str) -> Saying:
    """Said when a shape that loads has been held for two breaths."""
    return Saying(f"Rest in {shape} if you like.")


def resting(score: Score) -> str:
    """A shape to rest in: child's pose if the class has it, else the easiest one to land in."""
    landing = [info for info in score.shapes.values() if info.landing]
    if not landing:
        return "any easy shape"

    def key(info: ShapeInfo) -> tuple[bool, int, str]:
        return (info.name != "child's pose" and info.id != "child's pose", info.level, info.name)

    return min(landing, key=key).name


def phrases(score: Score, counting: bool = False) -> frozenset[Saying]:
    """Every fixed phrase this class may need, to be rendered with its cues."""
    counts = COUNTED if counting else ()
    down = (coming_down(shape.name) for shape in passed())
    return frozenset(
        {*timed_phrases(score), *down, *counts, HOLD_HERE, AND_ON, offered(resting(score))}
    )


def spoken_ms(saying: Saying, lengths: Lengths, rate: int) -> int:
    """How long a phrase lasts: as rendered, else estimated from its words."""
    known = lengths.get(saying)
    return estimate(saying.text, rate) if known is None else known
