"""Lanes of boxes and sides: the same from what was planned and from what was really led."""

from collections.abc import Sequence

from conductor.figure.model import Form, Kind, Lane, Stretch
from conductor.figure.pieces import Piece, info, reach, runs
from conductor.score.model import Score
from conductor.sides import End, Side
from conductor.stance import Base, Frame, Stance, Trunk
from conductor.view.spell import span

SHOWN = 6  # labels of a sum
_SIDES = {Side.RIGHT: Kind.RIGHT, Side.LEFT: Kind.LEFT}


def parts(pieces: Sequence[Piece], score: Score) -> Lane:
    """The named parts, in the order in which they were led."""
    found = []
    for number, group in runs(pieces, lambda piece: piece.moment.part):
        start, length = reach(group)
        name = score.parts[number].name if number < len(score.parts) else ""
        found.append(Stretch(start, length, name, Kind.PLAIN, note=f"{name}, {span(length)}"))
    words = ", ".join(f"{one.label} {span(one.length)}" for one in found)
    return Lane("parts", Form.BANNERS, tuple(found), words)


def shapes(pieces: Sequence[Piece], score: Score) -> Lane:
    """The shapes by name, all moments in a row in one shape on one side together."""
    found = []
    for _, group in runs(pieces, _shape_of):
        moment = group[0].moment
        start, length = reach(group)
        names = [info(score, one).name for one in (moment.cycle or (moment.shape,))]
        label = ", ".join(names)
        on = f" ({moment.side})" if moment.side else ""
        rests = moment.stance.trunk is Trunk.RESTING
        kind = Kind.REST if rests else Kind.PLAIN
        found.append(Stretch(start, length, label, kind, note=f"{label}{on}, {span(length)}"))
    words = f"{len({one.moment.shape for one in pieces})} shapes, {len(found)} changes"
    return Lane("shapes", Form.BOXES, tuple(found), words)


def _shape_of(piece: Piece) -> object:
    moment = piece.moment
    return moment.shape, moment.side, moment.cycle


def sides(pieces: Sequence[Piece]) -> Lane:
    """Time on either side, right above an axis and left below; lying on a side is nobody's debt."""
    found = []
    spent = dict.fromkeys(Side, 0)
    for side, group in runs(pieces, side_of):
        if side is None:
            continue
        start, length = reach(group)
        spent[side] += length
        found.append(Stretch(start, length, side.value, _SIDES[side], note=span(length)))
    return Lane("sides", Form.SIDES, tuple(found), balance(spent[Side.RIGHT], spent[Side.LEFT]))


def side_of(piece: Piece) -> Side | None:
    """The side that a piece counts for, if any."""
    moment = piece.moment
    free = bool(moment.cycle) or moment.stance.base is Base.LYING_SIDE
    return None if free else moment.side


def balance(right: int, left: int) -> str:
    """The sums of both sides in words, and by how much one is longer."""
    if not right and not left:
        return "no shape with two sides"
    words = f"right {span(right)}, left {span(left)}"
    apart = abs(right - left)
    if apart < 500:
        return words
    return f"{words}: {span(apart)} more on the {'right' if right > left else 'left'}"


def facing(pieces: Sequence[Piece]) -> Lane:
    """Which way the front of the body faces: an end of the mat or a long side."""
    found = []
    for kind, group in runs(pieces, lambda piece: _faced(piece.moment.stance)):
        start, length = reach(group)
        found.append(Stretch(start, length, kind.value, kind, note=span(length)))
    return Lane("facing", Form.BANDS, tuple(found), _summed(found))


def weight(pieces: Sequence[Piece]) -> Lane:
    """What carries the weight, so that every way to the floor and back is seen."""
    found = []
    for base, group in runs(pieces, lambda piece: piece.moment.stance.base):
        start, length = reach(group)
        rests = all(piece.moment.stance.trunk is Trunk.RESTING for piece in group)
        kind = Kind.REST if rests else Kind.PLAIN
        found.append(Stretch(start, length, base.value, kind, note=f"{base.value}, {span(length)}"))
    return Lane("weight", Form.BANDS, tuple(found), _summed(found))


def _summed(found: Sequence[Stretch]) -> str:
    """The time of each label, the longest first, those of a few seconds together."""
    spent: dict[str, int] = {}
    for one in found:
        spent[one.label] = spent.get(one.label, 0) + one.length
    ordered = sorted(spent.items(), key=lambda one: -one[1])
    shown = [f"{label} {span(ms)}" for label, ms in ordered[:SHOWN]]
    rest = sum(ms for _, ms in ordered[SHOWN:])
    return ", ".join([*shown, *([f"else {span(rest)}"] if rest else [])])


def _faced(stance: Stance) -> Kind:
    if stance.frame is Frame.LONG:
        return Kind.LONG
    return Kind.FRONT if stance.heading is End.FRONT else Kind.BACK
