"""Scores for the tests of timing, built by hand from a few words."""

from conductor.score.model import Hold, Meta, Moment, Part, Score, ShapeInfo, Words
from conductor.sides import Breath
from conductor.spans import Span
from conductor.stance import Base, Foot, Stance
from conductor.timing.holds import grow, retimed
from conductor.values import replace

STAND = Stance(Base.FEET, Foot.TOP, Foot.TOP)


def moment(id_: str, breath: Breath = Breath.IN, length: int = 4000, text: str = "") -> Moment:
    word = {Breath.IN: "Inhale", Breath.OUT: "Exhale"}.get(breath, "")
    return Moment(
        id=id_,
        start=0,
        length=length,
        breath=breath,
        shape="mountain",
        side=None,
        decided="",
        stance=STAND,
        words=Words(full=text, breath=word),
        origin=Span("plan.yaml", 1, 1),
        part=0,
    )


def hold(id_: str, amount: int, least: int = 0, most: int = 0, **more: object) -> Hold:
    base = Hold(id_, amount, least or amount, most or amount, unit=8000, inhale=4000)
    return replace(base, **more)


def stay(of: Hold, breath: Breath = Breath.IN, drop: str = "") -> tuple[Moment, ...]:
    first = replace(moment(f"{of.id}.0", breath), words=Words(), arriving=False, drop=drop)
    return grow(first, of)


def score_of(*pieces: Moment | tuple[Moment, ...] | Hold, parts: tuple[Part, ...] = ()) -> Score:
    """Moments, tuples of them, and holds (grown here) in order."""
    moments: list[Moment] = []
    holds: dict[str, Hold] = {}
    for piece in pieces:
        if isinstance(piece, Hold):
            holds[piece.id] = piece
            moments.extend(stay(piece))
        elif isinstance(piece, Moment):
            moments.append(piece)
        else:
            moments.extend(piece)
    parts = parts or (Part("All", 0, len(moments)),)
    numbered = [
        replace(item, part=next(k for k, part in enumerate(parts) if index < part.last))
        for index, item in enumerate(moments)
    ]
    shapes = {"mountain": ShapeInfo("mountain", "mountain", landing=True)}
    return Score(Meta("Test"), retimed(numbered), parts, holds, shapes)
