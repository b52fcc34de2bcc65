"""The live picture from top to bottom, and the pictures of a stopped class and of progress."""

from conductor.engine.model import State
from conductor.screens.rows import MARGIN, Row, Rows, Run, breath_role, centred, fill, padded
from conductor.screens.stage import stage
from conductor.values import Struct, replace
from conductor.view.letters import Drawn, cells, draw, wrapped
from conductor.view.model import View

MOST_FOOT = 3
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


def heights_of(height: int) -> Heights:
    """The rows of the bands in a terminal of so many rows."""
    return next(one for one in HEIGHTS if height >= one.least)


def stage_rows(height: int, voiceless: bool, foot_rows: int = 1) -> int:
    """The rows that are left for the shapes."""
    size = heights_of(height)
    prompting = size.prompting if voiceless else size.prompter
    bands = size.band + size.bar + prompting + 3 * size.gap + foot_rows
    return max(height - bands - size.gap - 2, 1)


def board(view: View, width: int, height: int, voiceless: bool = False) -> Picture:
    """The whole live picture, from the place in the class down to what asks for attention."""
    size = heights_of(height)
    gap: Rows = ((),) * size.gap
    prompting = size.prompting if voiceless else size.prompter
    last = foot(view, width)
    room = stage_rows(height, voiceless, len(last))
    above = (*header(view, width), *gap, *stage(view, width, room), ())
    upper = (*above, *band(view, width, size.band), *gap)
    lower = (*gap, *prompter(view, width, prompting, voiceless), *gap, *last)
    return Picture((*upper, *((),) * size.bar, *lower), len(upper), size.bar)


def band(view: View, width: int, height: int) -> Rows:
    """The breath word at the left, the count in the middle, the time to the end at the right."""
    room = width - 2 * MARGIN
    word, tally, end = _banded(view, room, height, view.breath)
    if view.breath == OWN and height > 1 and "plain" in (tally.size, end.size):
        word, tally, end = _banded(view, room, height, "OWN")
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


def _banded(view: View, room: int, height: int, said: str) -> tuple[Drawn, Drawn, Drawn]:
    """Breath word, count and time to the end, each as large as the other two allow."""
    signed = said if said in OWN else f"{view.sign} {said}"
    word = draw(signed, room * 3 // 5, height)
    space = room - word.width - 4
    least = draw(view.tally, space, height, 0).width if view.tally else 0
    end = draw(view.to_end, space - least, height, word.scale if word.size == "large" else 0)
    tally = draw(view.tally, space - end.width, height) if view.tally else NOTHING
    return word, tally, end


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
    room = space - cells(right) - 3
    wheres = (*_shorter((view.title, view.part, view.place)), "")
    left = next(words for words in wheres if cells(words) <= room or not words)
    gap = space - cells(left) - cells(right)
    row = (Run(left, "text"), Run(" " * max(gap, 1)), Run(right, _standing_role(view)))
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
    drawn = draw(words, room, height, 1) if large else None
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
            view.state_words,
            f"rest in {view.offer}" if view.offer else "",
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
    rows = [Run(f" {line} ", "block") for line in wrapped(alert, room - 2)]
    rows += [Run(line) for line in wrapped(told, room)]
    return tuple(padded((run,), MARGIN, width) for run in rows[:MOST_FOOT]) or ((),)


def still(view: View) -> View:
    """The view without what moves in every picture, so that two can be compared."""
    return replace(view, fraction=0)


def stopped(view: View, time_of_day: str, width: int, height: int) -> Rows:
    """STOPPED and the clock; without silence also where the class is and how it goes on."""
    word = draw("stopped", width - 2 * MARGIN, max(height // 3, 3), 3)
    clock = draw(time_of_day, width - 2 * MARGIN, max(height // 3, 3), 3)
    rows: list[Row] = [centred(row.ljust(word.width), "alert", width) for row in word.rows]
    rows += [(), (), *(centred(row.ljust(clock.width), "now", width) for row in clock.rows)]
    lines = _resting(view, width) if not view.silenced else _silent(view, width)
    if lines:
        rows += [(), *(centred(line, "text", width) for line in lines)]
    return fill(tuple(rows), height)


def _silent(view: View, width: int) -> tuple[str, ...]:
    """In silence nothing but what a key that was refused has to learn."""
    if not view.refused:
        return ()
    return wrapped(f"{view.reply} {view.keys}", width - 2 * MARGIN)


def _resting(view: View, width: int) -> tuple[str, ...]:
    """Where the class waits and what goes on, in lines."""
    where = f"{view.now.phrase}  ·  {view.to_end} to the end, {view.standing}"
    words = (where, view.keys, view.reply, view.trouble)
    return tuple(line for one in words if one for line in wrapped(one, width - 2 * MARGIN))


def progress_row(done: int, total: int, width: int) -> Rows:
    """The voice's progress as a count and a bar."""
    if not total:
        return ((),)
    words = f"  voice {done} of {total}  "
    room = max(width - len(words) - 2, 0)
    full = room * done // total
    return ((Run(words, "text"), Run("█" * full, "rising"), Run("░" * (room - full), "soft")),)
