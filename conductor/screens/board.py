"""The live picture from top to bottom, and the pictures of a stopped class and of progress."""

import math

from conductor.engine.model import State
from conductor.screens.rows import MARGIN, Row, Rows, Run, breath_role, centred, fill, padded
from conductor.screens.stage import stage
from conductor.values import Struct, replace
from conductor.view.letters import INKS, LARGE_INK, Drawn, cells, draw, wrapped
from conductor.view.model import View

MOST_FOOT = 3
STOP_MOST = 10.5  # rows of a capital of STOPPED and the clock
OWN = "OWN BREATH"
NOTHING = Drawn((), "", 1, 0)


class Picture(Struct, frozen=True):
    """Rows, and where among them the bar of the breath moves."""

    rows: Rows
    bar_top: int
    bar_height: int


class Heights(Struct, frozen=True):
    """Rows of the bands beneath the stage, for terminals of at least `least` rows."""

    least: int
    gap: int
    air: int  # rows between the stage and the band
    band: int
    bar: int
    prompter: int
    prompting: int  # rows of the prompter when the voice is off


HEIGHTS = (
    Heights(52, 1, 1, 7, 3, 5, 9),
    Heights(34, 1, 1, 5, 2, 4, 8),
    Heights(20, 0, 0, 4, 1, 2, 3),
    Heights(0, 0, 0, 3, 1, 1, 1),
)
BAND_SHARE = 5  # of the height of the window, the most that breath and count take
NARROWEST, LOWEST = 40, 15  # columns and rows: below these the class is told in a sentence


def heights_of(height: int, need: float = LARGE_INK) -> Heights:
    """The rows of the bands in a terminal of so many rows; `need` as for the board.

    Breath and count take what it takes to read them, as long as the shapes keep the most.
    """
    size = next(one for one in HEIGHTS if height >= one.least)
    wanted = min((ink for ink in INKS if ink >= need), default=INKS[0])
    return replace(size, band=max(size.band, min(math.ceil(wanted), height // BAND_SHARE)))


def stage_rows(height: int, voiceless: bool, foot_rows: int = 1, need: float = LARGE_INK) -> int:
    """The rows that are left for the shapes."""
    size = heights_of(height, need)
    prompting = size.prompting if voiceless else size.prompter
    bands = size.air + size.band + size.bar + prompting + 4 * size.gap + foot_rows
    return max(height - bands - 1, 1)


def board(
    view: View, width: int, height: int, voiceless: bool = False, need: float = LARGE_INK
) -> Picture:
    """The whole live picture, from the place in the class down to what asks for attention.

    `need` is the height of a capital, in rows, that reads well from where the teacher stands.
    """
    if width < NARROWEST or height < LOWEST:
        return Picture(in_sentences(view, width, height), height, 0)
    size = heights_of(height, need)
    gap: Rows = ((),) * size.gap
    prompting = size.prompting if voiceless else size.prompter
    last = foot(view, width)
    room = stage_rows(height, voiceless, len(last), need)
    above = (*header(view, width), *gap, *stage(view, width, room, need), *((),) * size.air)
    upper = (*above, *band(view, width, size.band, need), *gap)
    lower = (*gap, *prompter(view, width, prompting, voiceless), *gap, *last)
    return Picture((*upper, *((),) * size.bar, *lower), len(upper), size.bar)


def in_sentences(view: View, width: int, height: int) -> Rows:
    """The class in plain sentences, for a window in which no picture of it has room."""
    coming = f"Next {view.next.phrase}." if view.next else ""
    bigger = f"The class goes on. Make this window {NARROWEST} x {LOWEST} or larger."
    words = (
        view.mark,
        view.state_words,
        f"{view.breath}: {view.now.phrase}.",
        coming,
        view.count,
        bigger,
    )
    room = max(width, 1)
    lines = [line for one in words if one for line in wrapped(one, room)]
    return fill(tuple(padded((Run(line),), 0, room) for line in lines[:height]), height)


def band(view: View, width: int, height: int, need: float = LARGE_INK) -> Rows:
    """The breath word at the left, the count in the middle, the time to the end at the right."""
    room = width - 2 * MARGIN
    word, tally, end = _banded(view, room, height, need)
    gap = max(room - word.width - tally.width - end.width, 2)
    spaces = Run(" " * (gap // 2)), Run(" " * (gap - gap // 2))
    rows = (
        (
            Run(_at(word, y), breath_role(view.breath)),
            spaces[0],
            Run(_at(tally, y), "now"),
            spaces[1],
            Run(_at(end, y), "soft"),
        )
        for y in range(height)
    )
    return tuple(padded(row, MARGIN, width) for row in rows)


def _banded(view: View, room: int, height: int, need: float) -> tuple[Drawn, Drawn, Drawn]:
    """Breath word, count and time to the end: the first two as large as reads well, then all."""
    signed = view.breath if view.breath == OWN else f"{view.sign} {view.breath}"
    return banded((signed, view.breath.split()[0]), view.tally, view.to_end, (room, height), need)


def banded(
    words: tuple[str, str], tally: str, to_end: str, room: tuple[int, int], need: float
) -> tuple[Drawn, Drawn, Drawn]:
    """The breath in full or short, the count and the time to the end, each as drawn.

    The time to the end stands in the header too, so it goes first where all three have no room.
    """
    width, height = room
    inks = [ink for ink in INKS if ink <= height]
    threes = [
        three
        for said in words
        for end in (to_end, "")
        for ink in inks
        for less in inks
        if less <= ink and (three := _three((said, tally, end), room, (ink, less)))
    ]

    def read(three: tuple[Drawn, Drawn, Drawn]) -> tuple[float, ...]:
        """How well they can be read."""
        word, tally, end = three
        least = min(word.ink, tally.ink or word.ink)
        return min(least, need), min(word.ink, need), end.ink > 0, word.ink + tally.ink, end.ink

    if threes:
        return max(threes, key=read)
    tries = ((words[0], to_end), (words[1], to_end), (words[1], ""))
    plain = (
        [draw(one, width, height, 0) if one else NOTHING for one in (said, tally, end)]
        for said, end in tries
    )
    fitting = [three for three in plain if sum(one.width + 2 for one in three) <= width + 2]
    word, count, end = (
        fitting[0] if fitting else (draw(words[1], width, height, 0), NOTHING, NOTHING)
    )
    return word, count, end


def _three(
    texts: tuple[str, str, str], room: tuple[int, int], most: tuple[float, float]
) -> tuple[Drawn, Drawn, Drawn] | None:
    """Three texts beside each other, the last at most as high as the second bound; None if not."""
    gap, wide = 2, room[0]
    for at in (0, 1):  # the one drawn first takes the broad font, and leaves less to the other
        drawn = [NOTHING, NOTHING, NOTHING]
        for one in (at, 1 - at, 2):
            left = wide - sum(other.width + gap for other in drawn if other is not NOTHING)
            if texts[one]:
                drawn[one] = draw(texts[one], left, room[1], most[one == 2])
        word, tally, end = drawn
        legible = all(one is NOTHING or one.size != "plain" for one in (word, tally))
        legible = legible and end.height < 2 + (end.size != "plain") * room[1]
        if legible and all(one.width <= wide and one.height <= room[1] for one in drawn):
            used = sum(one.width + gap for one in drawn if one is not NOTHING) - gap
            if used <= wide:
                return word, tally, end
    return None


def _at(drawn: Drawn, row: int) -> str:
    return (drawn.rows[row] if row < drawn.height else "").ljust(drawn.width)


def header(view: View, width: int) -> Rows:
    """Where the class is at the left; the time to the end and against the plan at the right."""
    space = width - 2 * MARGIN
    rights = (
        f"{view.elapsed}  ·  {view.to_end} to the end, {view.standing}",
        f"{view.to_end}, {view.standing}",
        view.to_end,
    )
    right = next((words for words in rights if cells(words) <= space), rights[-1])
    marked = f" {view.mark} " if view.mark else ""
    if marked and cells(marked) + cells(right) + 1 > space:
        right = next((one for one in (*rights, "") if cells(marked) + cells(one) < space), "")
    room = space - cells(right) - 3 - (cells(marked) + 2 if marked else 0)
    wheres = (*_shorter((view.title, view.part, view.place)), "")
    left = next(words for words in wheres if cells(words) <= room or not words)
    shown = (Run(marked, "block"), Run("  " if marked else ""), Run(left, "text"))
    gap = space - sum(cells(run.text) for run in shown) - cells(right)
    row = (*shown, Run(" " * max(gap, 1)), Run(right, _standing_role(view)))
    return (padded(row, MARGIN, width),)


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
    drawn = draw(words, room, height, LARGE_INK) if large else None
    lines = drawn.rows if drawn and drawn.size != "plain" else wrapped(words, room)
    shown = [padded((Run(line, role),), MARGIN, width) for line in lines]
    return fill(tuple(_ended(shown, height, lines, width)), height)


def _ended(shown: list[Row], height: int, lines: tuple[str, ...], width: int) -> list[Row]:
    """What fits; where words are left over, the last row says so."""
    if len(shown) <= height:
        return shown
    last = lines[height - 1]
    cut = last[: width - 2 * MARGIN - 2]
    return [*shown[: height - 1], padded((Run(f"{cut} …"),), MARGIN, width)]


def foot(view: View, width: int) -> Rows:
    """What asks for attention: a state, an offer, trouble; then the last reply. Mostly one row."""
    alert = " · ".join(
        words
        for words in (
            view.beside,
            view.state_words,
            f"rest in {view.offer}" if view.offer else "",
            view.owed,
            view.trouble,
            "voice off" if view.quiet else "",
        )
        if words
    )
    told = f"{'✗' if view.refused else '✓'} {view.reply}" if view.reply else ""
    if view.state is State.READY and not told:
        told = view.keys
    room = width - 2 * MARGIN
    if alert and told and cells(alert) + cells(told) + 4 <= room:
        return (padded((Run(f" {alert} ", "block"), Run("  "), Run(told)), MARGIN, width),)
    below = [Run(line) for line in wrapped(told, room)]
    lines = wrapped(alert, room - 2)
    most = max(MOST_FOOT - len(below), 1)
    shown = [*lines[: most - 1], f"{lines[most - 1][: room - 4]} …"] if len(lines) > most else lines
    rows = [*(Run(f" {line} ", "block") for line in shown), *below]
    return tuple(padded((run,), MARGIN, width) for run in rows[:MOST_FOOT]) or ((),)


def still(view: View) -> View:
    """The view without what moves in every picture, so that two can be compared."""
    return replace(view, fraction=0)


def stopped(view: View, time_of_day: str, width: int, height: int) -> Rows:
    """STOPPED and the clock; without silence also where the class is and how it goes on.

    Where there is little room the letters are smaller, then less is said: how it goes on stays.
    """
    tried = (
        _halted(time_of_day, width, most, said)
        for said in _sayings(view, width)
        for most in (max(height // 3, 3), 3, 1)
    )
    rows = next((rows for rows in tried if len(rows) <= height), None)
    return fill(rows or _halted(time_of_day, width, 1, ())[:height], height)


def _halted(time_of_day: str, width: int, most: int, said: tuple[str, ...]) -> Rows:
    """The word, the clock and what is said beneath, in letters of at most so many rows."""
    drawn = [draw(words, width - 2 * MARGIN, most, STOP_MOST) for words in ("stopped", time_of_day)]
    word, clock = (
        tuple(centred(row.ljust(one.width), role, width) for row in one.rows)
        for one, role in zip(drawn, ("alert", "now"), strict=True)
    )
    gap: Rows = ((),) * (2 if most > 3 else 1)
    beneath: Rows = ((), *(centred(line, "text", width) for line in said)) if said else ()
    return (*word, *gap, *clock, *beneath)


def _sayings(view: View, width: int) -> tuple[tuple[str, ...], ...]:
    """What may be said beneath, in lines: all of it, then less and less."""
    if view.silenced:
        return (_silent(view, width), ())
    where = f"{view.now.phrase}  ·  {view.to_end} to the end, {view.standing}"
    words = (view.mark, where, view.keys, view.beside, view.reply, view.trouble)
    less = (
        words,
        (view.mark, where, view.keys, view.reply, view.trouble),
        (view.mark, where, view.keys, view.trouble),
        (where, view.keys),
        (view.keys,),
    )
    room = width - 2 * MARGIN
    return tuple(tuple(line for one in some if one for line in wrapped(one, room)) for some in less)


def _silent(view: View, width: int) -> tuple[str, ...]:
    """In silence nothing but what a key that was refused has to learn."""
    if not view.refused:
        return ()
    return wrapped(f"{view.reply} {view.keys}", width - 2 * MARGIN)


def progress_row(done: int, total: int, width: int) -> Rows:
    """The voice's progress as a count and a bar."""
    if not total:
        return ((),)
    words = f"  voice {done} of {total}  "
    room = max(width - len(words) - 2, 0)
    full = room * done // total
    return ((Run(words, "text"), Run("█" * full, "rising"), Run("░" * (room - full), "soft")),)
