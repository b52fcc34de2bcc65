"""What leading needs to know of a shape, taken from what the catalogue knows."""

from conductor.score.model import ShapeInfo
from conductor.shapes.cautions import legend
from conductor.shapes.model import Shape


def info(shape: Shape) -> ShapeInfo:
    """The few facts of a shape that a score carries, so that no catalogue is needed to lead it."""
    return ShapeInfo(
        id=shape.id,
        name=shape.name,
        sanskrit=shape.iast,
        spoken=shape.spoken,
        side_means=shape.side_means,
        side_part=shape.side_part,
        landing=shape.landing,
        loads=shape.loads,
        unseen=shape.unseen,
        balance=shape.balance,
        level=shape.level,
        cautions=tuple(legend().get(code, code) for code in shape.cautions),
        family=shape.family,
    )
