"""The shapes now and next as rows, each with its side as a word, a sign and a place."""

from conductor.engine.model import State
from conductor.screens.rows import MARGIN, Row, Rows, Run, breath_role, fill, padded
from conductor.sides import Side
from conductor.values import Struct
from conductor.view.letters import (
    INKS,
    LARGE_INK,
    MOST,
    PLAIN_INK,
    Drawn,
    cells,
    draw,
    wrapped,
)
from conductor.view.model import Face, SideFace, View

LEAST = 8  # rows of a stage on which two shapes find room
POSTS = ((180, 20), (110, 14), (60, 9), (0, 5))  # columns of the post from such a width on
SIDE_MOST = 7.0  # rows of a capital of side and hold; the name comes first
STRIP = 5  # rows of the side where it lies across a tall window and takes no columns of the name


class Place(Struct, frozen=True):
    """Roles of a shape's letters and of its post: solid for now, outlined for next."""

    ink: str
    post: str


NOW = Place("now", "post")
NEXT = Place("next", "mark")


def stage(view: View, width: int, height: int, need: float = LARGE_INK) -> Rows:
    """The shape now, its side, the shape next, parted so that both can be read from the mat.

    `need` is the height of a capital, in rows, that reads well from there. The shape now has it
    first, then the next one; in a flow the next is as large as the one now where both have it.
    """
    if view.state is State.HOLDING:
        return _holding(view, width, height, need)
    if view.next is None:
        return _block(view.now, width, height, NOW, need)
    listed = _listed(view.ahead, width, height)
    two, room = Two(view.now, view.next, view.emphasis == "both"), height - len(listed)
    lower = _lower(two, width, room, need)
    if lower == 1:
        named = _named(view.next, width)
        above = max(room - len(named), 1)
        return (*_block(view.now, width, above, NOW, need), *named, *listed)
    inks = _inks(two, width, room, lower)
    now, following = (min(inks),) * 2 if two.flow and min(inks) >= need else inks
    return (
        *_block(view.now, width, room - lower, NOW, need, now),
        _parting(view.next, width),
        *_block(view.next, width, lower - 1, NEXT, need, following),
        *listed,
    )


class Two(Struct, frozen=True):
    """The shape now and the next one; in a `flow` both are looked for."""

    now: Face
    next: Face
    flow: bool


def inks_of(two: Two, width: int, height: int, need: float) -> tuple[float, float]:
    """Rows of a capital of both names on a stage of that size."""
    return _inks(two, width, height, _lower(two, width, height, need))


def _inks(two: Two, width: int, height: int, lower: int) -> tuple[float, float]:
    below = ink_of(two.next, width, lower - 1) if lower > 1 else PLAIN_INK
    return ink_of(two.now, width, height - lower), below


def _lower(two: Two, width: int, height: int, need: float) -> int:
    """The rows of the shape next, its line included; 1 where only that line is to be had."""
    if height < LEAST:
        return 1
    usual = max(height // 2 if two.flow else height // 3, LEAST - 4)
    splits = sorted(range(LEAST - 4, height - 3), key=lambda lower: abs(lower - usual))

    def read(lower: int) -> tuple[float, float, float]:
        """How well all can be read: the shape now, in a stay its side, then what comes."""
        now, following = (min(ink, need) for ink in _inks(two, width, height, lower))
        side = 0 if two.flow else min(_side_ink(two.now, width, height - lower, need), need)
        return now, side, following

    return max((*splits, 1), key=read)


def _holding(view: View, width: int, height: int, need: float) -> Rows:
    """The class waits: the shape, and HOLD in place of what comes next."""
    if height < LEAST:
        return _block(view.now, width, height, NOW, need)
    lower = max(height * 2 // 5 if view.offer else height // 3, 4)
    words = f"hold, or {view.offer}" if view.offer else "hold"
    drawn = draw(words, width - 2 * MARGIN, lower - 1, SIDE_MOST)
    rows = tuple(padded((Run(row, "alert"),), MARGIN, width) for row in drawn.rows)
    return (*_block(view.now, width, height - lower, NOW, need), *fill(rows, lower))


def ink_of(face: Face, width: int, height: int) -> float:
    """The height of a capital that its name would get, in rows."""
    room, rows = _room(face, width, height)
    return draw(face.name, room, rows).ink


def _side_ink(face: Face, width: int, height: int, need: float) -> float:
    """The height of a capital of its side in words, 0 where it stands in the small print."""
    if face.side is None or _across(width, height):
        return need
    _, side = _sized(face, _room(face, width, height)[0], height, need, MOST)
    return side.ink if side else 0


def _beside_print(height: int) -> int:
    """The rows of a name, one kept for the small print where there are any to spare."""
    return height - 1 if height > 3 else max(height, 1)


def _room(face: Face, width: int, height: int) -> tuple[int, int]:
    """Columns and rows for the name, beside or beneath what shows the side."""
    if face.side is None:
        return width - 2 * MARGIN, _beside_print(height)
    if _across(width, height):
        return width - 2 * MARGIN, height - STRIP - 1
    return width - 2 * MARGIN - _post_width(width) - 1, _beside_print(height)


def _across(width: int, height: int) -> bool:
    """Whether the side lies across the block, in windows as tall as a door."""
    return height * 4 > width and height >= 3 * STRIP


def _post_width(width: int) -> int:
    return next(broad for least, broad in POSTS if width >= least)


def _block(
    face: Face, width: int, height: int, place: Place, need: float, most: float = MOST
) -> Rows:
    """A shape: name, side in words, small print; a post stands on the side that is meant."""
    room, rows = _room(face, width, height)
    if face.side and _across(width, height):
        strip, said = _strip(face.side, width, place)
        body = _body(face, draw(face.name, room, rows, most), place, (room, height - STRIP), said)
        return (*strip, *(padded(row, MARGIN, width) for row in body))
    name, side = _sized(face, room, height, need, most)
    beneath: Rows = ()
    if side and face.side:
        beneath = ((), *((Run(row, f"side-{face.side.side}"),) for row in side.rows))
    body = _body(face, name, place, (room, height), bool(beneath), beneath)
    return _posted(body, face.side, width, place)


def _body(
    face: Face,
    name: Drawn,
    place: Place,
    room: tuple[int, int],
    side_shown: bool,
    beneath: Rows = (),
) -> Rows:
    """The name, what stands beneath it, the small print, in the middle of their rows."""
    width, height = room
    body = [*((Run(row, place.ink),) for row in name.rows), *beneath]
    small = _small_print(face, side_shown, place, (width, height - len(body)))
    return fill((*body, *((Run(line, "soft"),) for line in small)), height)


def _strip(side: SideFace, width: int, place: Place) -> tuple[Rows, bool]:
    """The side across the window, at the edge that is meant; whether it is there in words."""
    left = side.side is Side.LEFT
    words = f"◀ {side.words}" if left else f"{side.words} ▶"
    drawn = draw(words, width - 2 * MARGIN, STRIP)
    said = drawn.size != "plain"
    drawn = drawn if said else draw(side.sign, width - 2 * MARGIN, STRIP)
    role = f"{place.post}-{side.side}"
    room = width - 2 * MARGIN
    lines = [row.ljust(drawn.width) for row in drawn.rows]
    above = [""] * ((STRIP - drawn.height) // 2)
    rows = [*above, *lines, *[""] * STRIP][:STRIP]
    set_ = [row.ljust(room) if left else row.rjust(room) for row in rows]
    return tuple((Run(f"{' ' * MARGIN}{row}{' ' * MARGIN}", role),) for row in set_), said


def _sized(
    face: Face, room: int, height: int, need: float, most: float
) -> tuple[Drawn, Drawn | None]:
    """Name and side words: a smaller name where only that leaves room to say the side large.

    The name is never made smaller than what reads well.
    """
    rows = _beside_print(height)
    name = draw(face.name, room, rows, most)
    if face.side is None or name.size == "plain":
        return name, None
    pairs = [
        (smaller, _side_words(face.side, room, height - smaller.height - 2, smaller.ink))
        for smaller in (draw(face.name, room, rows, ink) for ink in INKS if ink <= name.ink)
        if smaller.size != "plain"
    ]

    def read(pair: tuple[Drawn, Drawn | None]) -> tuple[float, float, float]:
        """How well the two can be read."""
        side = pair[1].ink if pair[1] else 0
        return min(pair[0].ink, need), min(side, need), pair[0].ink

    return max(pairs, key=read)


def _side_words(side: SideFace, room: int, height: int, most: float) -> Drawn | None:
    """The side in large letters, no larger than the name, where there is room for any."""
    if height < 3:
        return None
    drawn = draw(side.words, room, height, min(SIDE_MOST, most))
    return drawn if drawn.size != "plain" and drawn.height <= height else None


def _small_print(
    face: Face, side_shown: bool, place: Place, room: tuple[int, int]
) -> tuple[str, ...]:
    """Side where it is not shown large, turn, arms and props; Sanskrit of the shape now alone.

    What there is no room for is left out whole, the last of it first.
    """
    sanskrit = face.sanskrit if place is NOW else ""
    side = f"{face.side.words} {face.side.sign}" if face.side and not side_shown else ""
    said = [words for words in (side, face.turn, face.detail, sanskrit) if words]
    for many in range(len(said), 0, -1):
        lines = wrapped("  ·  ".join(said[:many]), room[0])
        if len(lines) <= room[1]:
            return lines
    return ()


def _posted(body: Rows, side: SideFace | None, width: int, place: Place) -> Rows:
    """The block with its post at the edge of the side that is meant, as the teacher faces it."""
    if side is None:
        return tuple(padded(row, MARGIN, width) for row in body)
    broad = _post_width(width)
    role = f"{place.post}-{side.side}"
    pillars = [Run(row, role) for row in _post(side.side, broad, len(body))]
    rows = [padded(row, MARGIN, width - broad) for row in body]
    pairs = zip(pillars, rows, strict=True)
    if side.side is Side.LEFT:
        return tuple((pillar, *row) for pillar, row in pairs)
    return tuple((*row, pillar) for pillar, row in pairs)


def _post(side: Side, width: int, height: int) -> list[str]:
    """A column with a large letter and an arrow that points off the screen."""
    large = height if width < 20 else max(height // 3, 4)
    arrow = draw("◀" if side is Side.LEFT else "▶", width - 2, large, SIDE_MOST)
    letter = draw("L" if side is Side.LEFT else "R", width - 2, large, SIDE_MOST)
    both = letter.height + arrow.height + 1 <= height
    picture = (*letter.rows, "", *arrow.rows) if both else letter.rows
    top = max(height - len(picture), 0) // 2
    rows = [*[""] * top, *picture, *[""] * height][:height]
    broad = letter.width if not both else max(letter.width, arrow.width)
    return [row.ljust(broad).center(width) for row in rows]


def _parting(face: Face, width: int) -> Row:
    """The line between now and next: on which breath it comes, its side, how long it stays."""
    return padded(_coming("next on ", face, width - 2 * MARGIN), MARGIN, width)


def _named(face: Face, width: int) -> Rows:
    """What comes in a line of its own, or in two where the name is long."""
    room = width - 2 * MARGIN
    row = _coming(f"next, {face.name}, on ", face, room)
    if sum(cells(run.text) for run in row) <= room:
        return (padded(row, MARGIN, width),)
    side = f"  {face.side.sign}" if face.side else ""
    lines = wrapped(f"next {face.name}{side}", room)
    return tuple(padded((Run(line, "soft"),), MARGIN, width) for line in lines)


def _coming(start: str, face: Face, room: int) -> Row:
    """A row that says on which breath it comes, and its side and stay where there is room."""
    side = f"  {face.side.sign}" if face.side else ""
    stay = f"  stays {face.stay}" if face.stay else ""
    breath = f"{face.sign} {face.breath}"
    left = room - cells(start + breath)
    end = next((words for words in (side + stay, side) if cells(words) <= left), side)
    return (Run(start, "soft"), Run(breath, breath_role(face.breath)), Run(end, "soft"))


def _listed(faces: tuple[Face, ...], width: int, height: int) -> Rows:
    """The shapes after the next one, for a stretch in which the screen is not seen.

    As many as have room; each is there whole.
    """
    if not faces or height < 12:
        return ()
    said = [
        " ".join(filter(None, (face.sign, face.name, face.side.sign if face.side else "")))
        for face in faces
    ]
    for many in range(len(said), 0, -1):
        lines = wrapped(f"then  {'  ›  '.join(said[:many])}", width - 2 * MARGIN)
        if len(lines) <= max(height // 6, 1):
            return tuple(padded((Run(line, "next"),), MARGIN, width) for line in lines)
    return ()
