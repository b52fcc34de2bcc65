"""The shapes now and next as rows, each with its side as a word, a sign and a place."""

from conductor.engine.model import State
from conductor.screens.rows import MARGIN, Row, Rows, Run, breath_role, fill, padded
from conductor.sides import Side
from conductor.values import Struct
from conductor.view.letters import Drawn, cells, draw, wrapped
from conductor.view.model import Face, SideFace, View

LEAST = 9  # rows of a stage on which two shapes find room
POSTS = ((180, 20), (110, 14), (0, 9))  # columns of the post from such a width on


class Place(Struct, frozen=True):
    """Roles of a shape's letters and of its post: solid for now, outlined for next."""

    ink: str
    post: str


NOW = Place("now", "post")
NEXT = Place("next", "mark")


def stage(view: View, width: int, height: int) -> Rows:
    """The shape now, its side, the shape next; in a flow the next is as large as the one now."""
    if view.state is State.HOLDING:
        return _holding(view, width, height)
    if view.next is None:
        return _block(view.now, width, height, NOW)
    if height < LEAST:
        rows = (*_block(view.now, width, height - 1, NOW), _parting(view.next, width, True))
        return rows[-height:]
    both = view.emphasis == "both"
    listed = _listed(view.ahead, width, height)
    lower = max((height - len(listed)) // 2 if both else height // 3, 5)
    upper = height - lower - len(listed)
    most = (
        min(scale_of(view.now, width, upper), scale_of(view.next, width, lower - 1)) if both else 5
    )
    now = _block(view.now, width, upper, NOW, most)
    following = _block(view.next, width, lower - 1, NEXT, most if both else 2)
    return (*now, _parting(view.next, width), *following, *listed)


def _holding(view: View, width: int, height: int) -> Rows:
    """The class waits: the shape, and HOLD in place of what comes next."""
    if height < LEAST:
        return _block(view.now, width, height, NOW)
    lower = max(height * 2 // 5 if view.offer else height // 3, 4)
    words = f"hold, or {view.offer}" if view.offer else "hold"
    drawn = draw(words, width - 2 * MARGIN, lower - 1, 2)
    rows = tuple(padded((Run(row, "alert"),), MARGIN, width) for row in drawn.rows)
    return (*_block(view.now, width, height - lower, NOW), *fill(rows, lower))


def scale_of(face: Face, width: int, height: int) -> int:
    """The scale its name would get: 0 for the small font."""
    room = width - 2 * MARGIN - (_post_width(width) + 1 if face.side else 0)
    drawn = draw(face.name, room, max(height - 1, 1))
    return drawn.scale if drawn.size == "large" else 0


def _post_width(width: int) -> int:
    return next(broad for least, broad in POSTS if width >= least)


def _block(face: Face, width: int, height: int, place: Place, most: int = 5) -> Rows:
    """A shape: name, side in words, small print; a post stands on the side that is meant."""
    room = width - 2 * MARGIN - (_post_width(width) + 1 if face.side else 0)
    name, side = _sized(face, room, height, most)
    body: list[Row] = [(Run(row, place.ink),) for row in name.rows]
    if side and face.side:
        body += [(), *((Run(row, f"side-{face.side.side}"),) for row in side.rows)]
    small = _small_print(face, side is not None, place)
    if small and len(body) < height:
        body += [(Run(line, "soft"),) for line in wrapped(small, room)[: height - len(body)]]
    return _posted(fill(tuple(body), height), face.side, width, place)


def _sized(face: Face, room: int, height: int, most: int) -> tuple[Drawn, Drawn | None]:
    """Name and side words: a smaller name where only that leaves room to say the side large."""
    name = draw(face.name, room, max(height - 1, 1), most)
    if face.side is None:
        return name, None
    for size in range(name.scale if name.size == "large" else 0, 0, -1):
        smaller = draw(face.name, room, max(height - 1, 1), size)
        side = _side_words(face.side, room, height - smaller.height - 2)
        if side:
            return smaller, side
    return name, _side_words(face.side, room, height - name.height - 2)


def _side_words(side: SideFace | None, room: int, height: int) -> Drawn | None:
    """The side in large letters, where there is room for any."""
    if side is None or height < 3:
        return None
    drawn = draw(side.words, room, height, 2)
    return drawn if drawn.size != "plain" and drawn.height <= height else None


def _small_print(face: Face, side_shown: bool, place: Place) -> str:
    """Side where it is not shown large, turn, arms and props; Sanskrit of the shape now alone."""
    sanskrit = face.sanskrit if place is NOW else ""
    side = f"{face.side.words} {face.side.sign}" if face.side and not side_shown else ""
    return "  ·  ".join(words for words in (side, face.turn, face.detail, sanskrit) if words)


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
    arrow = draw("◀" if side is Side.LEFT else "▶", width - 2, large, 2)
    letter = draw("L" if side is Side.LEFT else "R", width - 2, large, 2)
    both = letter.height + arrow.height + 1 <= height
    picture = (*letter.rows, "", *arrow.rows) if both else letter.rows
    top = max(height - len(picture), 0) // 2
    rows = [*[""] * top, *picture, *[""] * height][:height]
    broad = letter.width if not both else max(letter.width, arrow.width)
    return [row.ljust(broad).center(width) for row in rows]


def _parting(face: Face, width: int, named: bool = False) -> Row:
    """The line between now and next: on which breath it comes, its side, how long it stays."""
    start = f"next, {face.name}, on " if named else "next on "
    side = f"  {face.side.sign}" if face.side else ""
    stay = f"  stays {face.stay}" if face.stay else ""
    breath = f"{face.sign} {face.breath}"
    room = width - 2 * MARGIN - cells(start + breath)
    end = next((words for words in (side + stay, side, "") if cells(words) <= room), "")
    if room < 0:
        start, breath = wrapped(f"next {face.name}", width - 2 * MARGIN)[0], ""
    row = (Run(start, "soft"), Run(breath, breath_role(face.breath)), Run(end, "soft"))
    return padded(row, MARGIN, width)


def _listed(faces: tuple[Face, ...], width: int, height: int) -> Rows:
    """The shapes after the next one, for a stretch in which the screen is not seen."""
    if not faces or height < 12:
        return ()
    words = "  ›  ".join(
        " ".join(filter(None, (face.sign, face.name, face.side.sign if face.side else "")))
        for face in faces
    )
    lines = wrapped(f"then  {words}", width - 2 * MARGIN)[: max(height // 6, 1)]
    return tuple(padded((Run(line, "next"),), MARGIN, width) for line in lines)
