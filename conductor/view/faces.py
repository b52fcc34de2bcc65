"""Moments of a score in the words of a front end."""

from collections.abc import Iterator
from itertools import takewhile

from conductor.score.model import Moment, Score, ShapeInfo
from conductor.sides import Breath, Side
from conductor.view.clean import clean
from conductor.view.model import Face, SideFace
from conductor.view.spell import breaths, span

BREATHS = {Breath.IN: "INHALE", Breath.OUT: "EXHALE", Breath.FREE: "OWN BREATH"}
SIGNS = {"INHALE": "▲", "EXHALE": "▼", "OWN BREATH": "~"}
SIDE_SIGNS = {Side.RIGHT: "R ▶", Side.LEFT: "◀ L"}
FAR = 60  # moments looked at for what comes
MANY = 6  # shapes shown ahead


def side_face(side: Side | None, info: ShapeInfo) -> SideFace | None:
    """A side as a part of the body, by the shape's own convention."""
    if side is None:
        return None
    part = clean(info.side_part)
    words = f"{side} {part}" if part else f"{side} side"
    return SideFace(side, words, _phrase(side, part, clean(info.side_means)), SIDE_SIGNS[side])


def _phrase(side: Side, part: str, means: str) -> str:
    """The side said in full: "right foot forward", "right standing foot", "right leg raised"."""
    if not part or part not in means:
        return f"{side} {part or 'side'}"
    if means == f"front {part}":
        return f"{side} {part} forward"
    return f"{side} {means.removeprefix('the ').replace('that is ', '').replace('which is ', '')}"


def part_of(score: Score, index: int) -> str:
    """The name of the part a moment belongs to."""
    part = score.moments[index].part
    return clean(score.parts[part].name) if part < len(score.parts) else ""


def place_of(moment: Moment) -> str:
    """Where in its part the class is: the round and the side that leads."""
    number, of = moment.round
    rounds = f"round {number} of {of}" if of > 1 else ""
    side = f"on the {moment.pass_side}" if moment.pass_side else ""
    return ", ".join(words for words in (rounds, side) if words)


def info_of(score: Score, shape: str) -> ShapeInfo:
    """What is known of a shape; its own name stands where nothing is."""
    return score.shapes.get(shape) or ShapeInfo(shape, shape)


def face(score: Score, index: int, level: str = "") -> Face:
    """The shape of a moment, in the way the level asks for where the plan gives one."""
    moment = score.moments[index]
    way = next((one for one in moment.variants if one.level == level), None)
    info = info_of(score, (way.shape if way else "") or moment.shape)
    breath = BREATHS[moment.breath]
    return Face(
        name=clean(_name(score, moment, info)),
        sanskrit=clean(info.sanskrit),
        detail=clean(_detail(score, moment, way.text if way and not way.shape else "")),
        side=side_face(moment.side, info),
        turn=f"turn to the {moment.turn}" if moment.turn else "",
        breath=breath,
        sign=SIGNS[breath],
        stay=_stay(score, index),
        unseen=info.unseen,
    )


def _name(score: Score, moment: Moment, info: ShapeInfo) -> str:
    """The name, or the names of a cycle at one's own breath."""
    if moment.cycle:
        return " and ".join(info_of(score, shape).name for shape in moment.cycle)
    return info.name


def _detail(score: Score, moment: Moment, way: str) -> str:
    through = [info_of(score, shape).name for shape in moment.through]
    passed = f"through {', '.join(through)}" if through else ""
    return ", ".join(words for words in (moment.with_, passed, way) if words)


def _stay(score: Score, index: int) -> str:
    """How long the class stays there: in breaths as written, or with a free way into it, in all."""
    here = score.moments[index]
    after = list(takewhile(lambda one: same_shape(here, one), score.moments[index + 1 :]))
    if here.arriving and here.breath is Breath.FREE and after:
        return span(here.length + sum(one.length for one in after))
    ids = [here.hold, *(one.hold for one in after[:1])]
    hold = next((score.holds[one] for one in ids if one in score.holds), None)
    if hold is None:
        return ""
    return span(hold.amount) if hold.timed else breaths(hold.amount, hold.half)


def same_shape(one: Moment, other: Moment) -> bool:
    """Whether nothing moves between two moments that a person would be told of."""
    return (one.shape, one.side, one.with_, one.cycle) == (
        other.shape,
        other.side,
        other.with_,
        other.cycle,
    ) and not other.turn


def coming(score: Score, index: int, far: int = FAR) -> Iterator[int]:
    """The moments, of the next `far`, in which something else than before is taken."""
    moments = score.moments
    for at in range(index + 1, min(index + 1 + far, len(moments))):
        if not same_shape(moments[at - 1], moments[at]):
            yield at


def next_index(score: Score, index: int) -> int | None:
    """The moment of the next shape, however far away."""
    return next(coming(score, index, len(score.moments)), None)


def ahead(score: Score, index: int, level: str = "") -> tuple[Face, ...]:
    """The shapes after the next one, when the screen cannot be seen now or within two shapes."""
    taken: list[Face] = []
    unseen = info_of(score, score.moments[index].shape).unseen
    for number, at in enumerate(coming(score, index)):
        one = face(score, at, level)
        if number >= 2 and not unseen:
            return ()
        taken.append(one)
        unseen = unseen or one.unseen
        enough = unseen and not one.unseen and number >= 1
        if enough or len(taken) > MANY:
            break
    return tuple(taken[1:]) if unseen else ()
