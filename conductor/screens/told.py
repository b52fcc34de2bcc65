"""What there is to say about the size of letters, for a class in this window at this distance."""

from conductor.score.model import Score
from conductor.screens.board import banded, heights_of, stage_rows
from conductor.screens.rows import MARGIN
from conductor.screens.stage import Two, inks_of
from conductor.values import Struct
from conductor.view.cell import Cell
from conductor.view.faces import face, next_index
from conductor.view.legible import GOAL, arc_minutes, farthest, ink_needed
from conductor.view.model import Face

MANY = 3  # names said before the rest is counted
LARGER = (1.1, 1.25, 1.4, 1.6, 1.8, 2.0, 2.3, 2.6, 3.0)  # font sizes looked at, times today's
UNMEASURED = "`conductor screen` measures it with a ruler."


class Seat(Struct, frozen=True):
    """From where the screen is read: the window in columns and rows, a row's height, the way."""

    width: int
    height: int
    cell: Cell
    distance_m: float

    @property
    def need(self) -> float:
        """Rows of a capital that reads well from there."""
        return ink_needed(self.cell.height_mm, self.distance_m)

    def minutes(self, ink: float) -> float:
        """Minutes of arc of a capital of so many rows; the tenth that rounding hides is let go."""
        return round(arc_minutes(self.cell.height_mm, self.distance_m, ink), 1)


def letters_told(score: Score, seat: Seat, voiced: bool) -> str:
    """How tall the letters stand, and what would make them taller; "" when all is well and known.

    `voiced`: the voice says the words, so the screen has more room for shapes.
    """
    pairs = _pairs(score)
    found = [_inks(two, seat, voiced) for two in pairs]
    band = _band_ink(seat)
    least = min((now for now, _ in found), default=band)
    following = min((ink for _, ink in found), default=band)
    measured = "" if seat.cell.measured else f" {UNMEASURED}"
    where = (
        f"Rows of {seat.cell.height_mm:.1f} mm ({seat.cell.known}), read from "
        f"{seat.distance_m:g} m.{measured}"
    )
    if min(seat.minutes(one) for one in (least, following, band)) >= GOAL:
        return "" if seat.cell.measured else where
    said = (
        f"Minutes of arc, of which {GOAL:.0f} read well: the shape now at least "
        f"{seat.minutes(least):.0f}, the next {seat.minutes(following):.0f}, breath and count "
        f"{seat.minutes(band):.0f}."
    )
    both = list(zip(pairs, found, strict=True))
    now = [two.now.name for two, (ink, _) in both if seat.minutes(ink) < GOAL]
    below = [two.next.name for two, (_, ink) in both if seat.minutes(ink) < GOAL]
    small = min(seat.minutes(least), seat.minutes(band)) < GOAL
    lines = (
        where,
        said,
        _named("Smaller than that, as the shape now: ", now),
        "" if now else _named("Smaller than that, before they come: ", below),
        _remedy(pairs, seat, voiced, min(least, band)) if small else "",
    )
    return "\n".join(line for line in lines if line)


def _named(start: str, names: list[str]) -> str:
    """The shapes whose names stand below the goal."""
    once = list(dict.fromkeys(names))
    more = f" and {len(once) - MANY} more" if len(once) > MANY else ""
    return f"{start}{', '.join(once[:MANY])}{more}." if once else ""


def _remedy(pairs: list[Two], seat: Seat, voiced: bool, least: float) -> str:
    """A size of the font at which all can be read, if there is one; else from where they can.

    A larger font leaves fewer columns and rows, so each is tried out on all the names.
    """
    hardest = sorted(pairs, key=lambda two: _inks(two, seat, voiced)[0])
    near = farthest(seat.cell.height_mm, least)
    closer = f"From {near:.1f} m all of them read well."
    for times in LARGER:
        cell = Cell(seat.cell.height_mm * times, "", True)
        other = Seat(int(seat.width / times), int(seat.height / times), cell, seat.distance_m)
        if other.width < 40 or other.height < 15:
            break
        band = other.minutes(_band_ink(other)) >= GOAL
        if band and all(other.minutes(_inks(two, other, voiced)[0]) >= GOAL for two in hardest):
            size = f"{other.width} x {other.height}"
            return f"A font {times:g} times as large ({size} in this window) would do. {closer}"
    return f"A larger window would help; a larger font alone does not. {closer}"


def _pairs(score: Score) -> list[Two]:
    """Each shape with the one that follows it, as a flow shows them."""
    arriving = [at for at, one in enumerate(score.moments) if one.arriving]
    after = [next_index(score, at) for at in arriving]
    both = ((at, at if one is None else one) for at, one in zip(arriving, after, strict=True))
    return list(dict.fromkeys(Two(_bare(score, at), _bare(score, one), True) for at, one in both))


def _bare(score: Score, at: int) -> Face:
    """A shape with what the size of its letters hangs on."""
    shown = face(score, at)
    return Face(shown.name, side=shown.side)


def _inks(two: Two, seat: Seat, voiced: bool) -> tuple[float, float]:
    rows = stage_rows(seat.height, not voiced, need=seat.need)
    return inks_of(two, seat.width, rows, seat.need)


def _band_ink(seat: Seat) -> float:
    """The lesser of breath word and count, in a stay of ten breaths on an exhale."""
    room = seat.width - 2 * MARGIN, heights_of(seat.height, seat.need).band
    word, tally, _ = banded(("▼ EXHALE", "EXHALE"), "8/10", "60 MIN", room, seat.need)
    return min(word.ink, tally.ink)
