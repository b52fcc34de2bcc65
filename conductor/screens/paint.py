"""The live picture as rows of text with a role for each run: pure, so that it is tested as text."""

from dataclasses import dataclass, replace

from conductor.engine.model import State
from conductor.sides import Side
from conductor.view.letters import Drawn, cells, draw, wrapped
from conductor.view.model import Face, SideFace, View

MARGIN = 2
POSTS = ((180, 20), (110, 14), (0, 9))  # columns of the post from such a width on


@dataclass(frozen=True, slots=True)
class Run:
    """Text of one role: the role is a name that the style sheet gives its colours."""

    text: str
    role: str = "text"


Row = tuple[Run, ...]
Rows = tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """Roles of a shape's letters and of its post: solid for now, outlined for next."""

    ink: str
    post: str


@dataclass(frozen=True, slots=True)
class Picture:
    """Rows, and where among them the bar of the breath moves."""

    rows: Rows
    bar_top: int
    bar_height: int


@dataclass(frozen=True, slots=True)
class Heights:
    """Rows of the bands beneath the stage, for terminals of at least `least` rows."""

    least: int
    gap: int
    band: int
    bar: int
    prompter: int
    prompting: int  # rows of the prompter when the voice is off


HEIGHTS = (
    Heights(52, 1, 7, 3, 5, 9),
    Heights(34, 1, 4, 2, 4, 8),
    Heights(20, 0, 3, 1, 2, 3),
    Heights(0, 0, 1, 1, 1, 1),
)

NOTHING = Drawn((), "", 1, 0)
NOW = Place("now", "post")
NEXT = Place("next", "mark")


def text_of(rows: Rows) -> str:
    """The rows as plain text, without blanks at their ends."""
    return "\n".join("".join(run.text for run in row).rstrip() for row in rows)


def board(view: View, width: int, height: int, voiceless: bool = False) -> Picture:
    """The whole live picture, from the place in the class down to what asks for attention."""
    size = next(one for one in HEIGHTS if height >= one.least)
    gap: Rows = ((),) * size.gap
    prompting = size.prompting if voiceless else size.prompter
    below = size.band + size.bar + prompting + 3 * size.gap + 1
    room = max(height - below - size.gap - 2, 1)
    above = (*header(view, width), *gap, *stage(view, width, room), ())
    upper = (*above, *band(view, width, size.band), *gap)
    lower = (*gap, *prompter(view, width, prompting, voiceless), *gap, *foot(view, width))
    rows = (*upper, *((),) * size.bar, *lower)
    return Picture(rows, len(upper), size.bar)


def stage(view: View, width: int, height: int) -> Rows:
    """The shape now, its side, the shape next; in a flow the next is as large as the one now."""
    if view.state is State.HOLDING:
        return _holding(view, width, height)
    if view.next is None:
        return _block(view.now, width, height, NOW)
    both = view.emphasis == "both"
    listed = _listed(view.ahead, width, height)
    lower = max((height - len(listed)) // 2 if both else height // 3, 5)
    upper = height - lower - len(listed)
    most = min(_scale(view.now, width, upper), _scale(view.next, width, lower - 1)) if both else 5
    now = _block(view.now, width, upper, NOW, most)
    following = _block(view.next, width, lower - 1, NEXT, most if both else 2)
    return (*now, _parting(view.next, width), *following, *listed)


def _holding(view: View, width: int, height: int) -> Rows:
    """The class waits: the shape, and HOLD in place of what comes next."""
    lower = max(height * 2 // 5 if view.offer else height // 3, 4)
    words = f"hold, or {view.offer}" if view.offer else "hold"
    drawn = draw(words, width - 2 * MARGIN, lower - 1, 2)
    rows = tuple(_padded((Run(row, "alert"),), MARGIN, width) for row in drawn.rows)
    return (*_block(view.now, width, height - lower, NOW), *_fill(rows, lower))


def _scale(face: Face, width: int, height: int) -> int:
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
    return _posted(_fill(tuple(body), height), face.side, width, place)


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
        return tuple(_padded(row, MARGIN, width) for row in body)
    broad = _post_width(width)
    role = f"{place.post}-{side.side}"
    pillars = [Run(row, role) for row in _post(side.side, broad, len(body))]
    rows = [_padded(row, MARGIN, width - broad) for row in body]
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


def _parting(face: Face, width: int) -> Row:
    """The line between now and next: on which breath it comes, and how long it stays."""
    breath = Run(f"{face.sign} {face.breath}", _breath_role(face.breath))
    stay = f"  stays {face.stay}" if face.stay else ""
    side = f"  {face.side.sign}" if face.side else ""
    row: Row = (Run("next on ", "soft"), breath, Run(f"{side}{stay}", "soft"))
    return _padded(row, MARGIN, width)


def _listed(faces: tuple[Face, ...], width: int, height: int) -> Rows:
    """The shapes after the next one, for a stretch in which the screen is not seen."""
    if not faces or height < 12:
        return ()
    words = "  ›  ".join(
        " ".join(filter(None, (face.sign, face.name, face.side.sign if face.side else "")))
        for face in faces
    )
    lines = wrapped(f"then  {words}", width - 2 * MARGIN)[: max(height // 6, 1)]
    return tuple(_padded((Run(line, "next"),), MARGIN, width) for line in lines)


def _breath_role(breath: str) -> str:
    return {"INHALE": "rising", "EXHALE": "falling"}.get(breath, "text")


def _padded(row: Row, left: int, width: int) -> Row:
    used = left + sum(cells(run.text) for run in row)
    return (Run(" " * left), *row, Run(" " * max(width - used, 0)))


def _fill(rows: Rows, height: int) -> Rows:
    """Rows set in the middle of their height."""
    spare = max(height - len(rows), 0)
    above = spare // 2
    return (*[()] * above, *rows, *[()] * (spare - above))


def band(view: View, width: int, height: int) -> Rows:
    """The breath word at the left, the count in the middle, the time to the end at the right."""
    word = draw(f"{view.sign} {view.breath}".replace("~ ", ""), width * 3 // 5, height)
    room = width - word.width - 2 * MARGIN - 4
    least = draw(view.tally, room, height, 0).width if view.tally else 0
    like = word.scale if word.size == "large" else 0
    end = draw(view.to_end, room - least, height, like)
    tally = draw(view.tally, room - end.width, height, 5) if view.tally else NOTHING
    gap = width - 2 * MARGIN - word.width - tally.width - end.width
    rows: list[Row] = []
    for at in range(height):
        parts = [_at(word, at), _at(tally, at), _at(end, at)]
        rows.append(
            (
                Run(" " * MARGIN),
                Run(parts[0], _breath_role(view.breath)),
                Run(" " * (gap // 2)),
                Run(parts[1], "now"),
                Run(" " * (gap - gap // 2)),
                Run(parts[2], "soft"),
                Run(" " * MARGIN),
            )
        )
    return tuple(rows)


def _at(drawn: Drawn, row: int) -> str:
    return (drawn.rows[row] if row < drawn.height else "").ljust(drawn.width)


def header(view: View, width: int) -> Rows:
    """Where the class is at the left; the time to the end and against the plan at the right."""
    right = f"{view.elapsed}  ·  {view.to_end} to the end, {view.standing}"
    room = width - 2 * MARGIN - cells(right) - 3
    wheres = (view.title, view.part, view.place)
    left = next((w for w in _shorter(wheres) if cells(w) <= room), view.part[: max(room, 0)])
    gap = width - 2 * MARGIN - cells(left) - cells(right)
    row = (Run(left, "text"), Run(" " * max(gap, 1)), Run(right, _standing_role(view)))
    return (_padded(row, MARGIN, width),)


def _shorter(wheres: tuple[str, ...]) -> tuple[str, ...]:
    """The place in full, then without the title, then the part alone."""
    return (*("  ·  ".join(filter(None, wheres[at:])) for at in range(2)), wheres[1])


def _standing_role(view: View) -> str:
    return "text" if view.standing == "on time" else "alert"


def prompter(view: View, width: int, height: int, large: bool) -> Rows:
    """The words to say: large when the voice is off, plain when it speaks them."""
    room = width - 2 * MARGIN
    words = view.saying or "  ·  ".join(view.notes)
    role = "text" if view.saying else "soft"
    if not words or not height:
        return ((),) * height
    drawn = draw(words, room, height, 1) if large else None
    lines = drawn.rows if drawn and drawn.size != "plain" else wrapped(words, room)
    shown = [_padded((Run(line, role),), MARGIN, width) for line in lines]
    return _fill(tuple(_ended(shown, height, lines, width)), height)


def _ended(shown: list[Row], height: int, lines: tuple[str, ...], width: int) -> list[Row]:
    """What fits; where words are left over, the last row says so."""
    if len(shown) <= height:
        return shown
    last = lines[height - 1]
    cut = last[: width - 2 * MARGIN - 2]
    return [*shown[: height - 1], _padded((Run(f"{cut} …"),), MARGIN, width)]


def foot(view: View, width: int) -> Rows:
    """One row for what asks for attention: a state, an offer, trouble, the last reply."""
    alert = "  ·  ".join(
        words
        for words in (
            view.state_words,
            f"rest in {view.offer}" if view.offer else "",
            view.trouble,
            "voice off" if view.quiet else "",
        )
        if words
    )
    row: list[Run] = []
    if alert:
        row += [Run(f" {alert} ", "block"), Run("  ")]
    if view.state is State.READY and not view.reply:
        row.append(Run("Space or Page Down begins; ? shows the keys", "text"))
    if view.reply:
        sign = "✗ " if view.refused else "✓ "
        row.append(Run(sign + view.reply, "text"))
    return (_padded(tuple(row), MARGIN, width),)


def still(view: View) -> View:
    """The view without what moves in every picture, so that two can be compared."""
    return replace(view, fraction=0)


def stopped(view: View, time_of_day: str, width: int, height: int) -> Rows:
    """STOPPED and the clock; without silence also where the class is and how it goes on."""
    word = draw("stopped", width - 2 * MARGIN, max(height // 3, 3), 3)
    clock = draw(time_of_day, width - 2 * MARGIN, max(height // 3, 3), 3)
    rows: list[Row] = [_centre(row.ljust(word.width), "alert", width) for row in word.rows]
    rows += [(), (), *(_centre(row.ljust(clock.width), "now", width) for row in clock.rows)]
    if not view.silenced:
        rows += [(), *(_centre(line, "text", width) for line in _resting(view, width))]
    return _fill(tuple(rows), height)


def _resting(view: View, width: int) -> tuple[str, ...]:
    """Where the class waits and what goes on, in lines."""
    where = f"{view.now.phrase}  ·  {view.to_end} to the end, {view.standing}"
    keys = "Space goes on. Page Down next, Page Up back. q ends the class."
    words = (where, keys, view.reply, view.trouble)
    return tuple(line for one in words if one for line in wrapped(one, width - 2 * MARGIN))


def _centre(text: str, role: str, width: int) -> Row:
    left = max((width - cells(text)) // 2, 0)
    return _padded((Run(text, role),), left, width)
