"""A whole class as lanes over one time: what a score says, or what became of it."""

from collections.abc import Iterable, Mapping, Sequence

from conductor.figure import curves, lanes
from conductor.figure.model import Timeline
from conductor.figure.pieces import Piece, Told, planned
from conductor.score.model import Score
from conductor.shapes.model import Shape
from conductor.timing.model import Cue

STROKE_MS = 2000  # a bell is heard for about so long


def timeline(
    score: Score,
    cues: Iterable[Cue] = (),
    shapes: Mapping[str, Shape] | None = None,
    name: str = "planned",
) -> Timeline:
    """The class as its score says; `shapes` tells what the wrists bear."""
    return of_pieces(planned(score), score, told(score, cues), shapes or {}, name)


def of_pieces(
    pieces: Sequence[Piece],
    score: Score,
    heard: Iterable[Told],
    shapes: Mapping[str, Shape],
    name: str,
) -> Timeline:
    """The same lanes from pieces of any time, such as those of a class that was really led."""
    length = pieces[-1].end if pieces else 0
    return Timeline(
        name,
        length,
        (
            lanes.parts(pieces, score),
            lanes.shapes(pieces, score),
            curves.effort(pieces, score),
            lanes.sides(pieces),
            curves.breath(pieces),
            curves.speech(heard, length),
            lanes.facing(pieces),
            lanes.weight(pieces),
            curves.wrists(pieces, shapes),
        ),
    )


def told(score: Score, cues: Iterable[Cue]) -> tuple[Told, ...]:
    """What is heard of a class: its cues, and its bells with the time they sound."""
    bells = (
        Told(moment.start - moment.struck, STROKE_MS * moment.bells, "bell", bell=True)
        for moment in score.moments
        if moment.bells
    )
    return (*(Told(cue.start, cue.length, cue.saying.text) for cue in cues), *bells)
