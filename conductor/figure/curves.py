"""Lanes of curves and marks: effort, breath, what the wrists bear, what is heard."""

from bisect import bisect_left
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from conductor.body.regions import on_hands
from conductor.figure.model import FULL, Form, Kind, Lane, Stretch
from conductor.figure.pieces import Piece, Told, info, reach, runs
from conductor.score.model import Moment, Score
from conductor.shapes.model import Shape
from conductor.sides import Breath
from conductor.stance import Trunk
from conductor.view.spell import span

HARDEST = 4  # a strong shape (3) that loads, or that is moved through with the breath
ASKED = 3  # the most a shape asks of an area, on the catalogue's scale
WINDOW_MS = 60_000  # the effort is a mean over this long, so that an arc is seen
STEP_MS = 10_000
LONGEST_BREATH_MS = 12_000  # the top of the lane of breath: five a minute


def effort(pieces: Sequence[Piece], score: Score) -> Lane:
    """How much is asked, as a mean over a minute, so that the arc of the class is seen.

    By what is known of a shape: nothing at rest; else its level, and more where it loads or is
    moved through in half a breath. Before the class and after it nothing is asked. It compares
    stretches of one class, not people.
    """
    ends, sums = _summed(pieces, score)
    found = []
    for at in range(0, ends[-1], STEP_MS):
        middle = at + STEP_MS // 2
        begin, end = max(0, middle - WINDOW_MS // 2), min(ends[-1], middle + WINDOW_MS // 2)
        asks = _upto(ends, sums, end) - _upto(ends, sums, begin)
        level = min(asks * FULL // (HARDEST * WINDOW_MS), FULL)
        found.append(Stretch(at, min(STEP_MS, ends[-1] - at), "", Kind.EFFORT, level))
    return Lane("effort", Form.CURVE, tuple(found), _peak(found, pieces, score))


def asked(piece: Piece, score: Score) -> int:
    """What a piece asks for, 0 to HARDEST."""
    moment = piece.moment
    if moment.stance.trunk is Trunk.RESTING:
        return 0
    shape = info(score, moment.shape)
    moves = moment.arriving and moment.breath is not Breath.FREE
    return min(shape.level + shape.loads + moves, HARDEST)


def _peak(found: Sequence[Stretch], pieces: Sequence[Piece], score: Score) -> str:
    """When most is asked, and in which shape by then."""
    top = max(found, key=lambda one: one.level, default=None)
    if top is None:
        return ""
    near = [piece for piece in pieces if piece.start < top.end and piece.end > top.start]
    piece = max(near, key=lambda one: asked(one, score))
    minutes, seconds = divmod(top.start // 1000, 60)
    return f"most at {minutes}:{seconds:02}, {info(score, piece.moment.shape).name}"


def _summed(pieces: Sequence[Piece], score: Score) -> tuple[list[int], list[int]]:
    """Level times ms, summed from the beginning to each time in the first list; gaps are rest."""
    ends, sums = [0], [0]
    for piece in pieces:
        if piece.start > ends[-1]:
            ends.append(piece.start)
            sums.append(sums[-1])
        ends.append(piece.end)
        sums.append(sums[-1] + piece.length * asked(piece, score))
    return ends, sums


def _upto(ends: list[int], sums: list[int], at: int) -> int:
    """The sum up to any time, within a piece by its share."""
    index = max(1, min(bisect_left(ends, at), len(ends) - 1))
    length = ends[index] - ends[index - 1]
    inside = (sums[index] - sums[index - 1]) * (at - ends[index - 1])
    return sums[index - 1] + (inside // length if length else 0)


def breath(pieces: Sequence[Piece]) -> Lane:
    """How long a whole breath is; time at one's own breath has no height."""
    found = []
    for (inhale, exhale), group in runs(_with_tempo(pieces), lambda one: one[1]):
        start, length = reach([piece for piece, _ in group])
        if not inhale:
            found.append(Stretch(start, length, "own breath", Kind.OWN, 0, "at one's own breath"))
            continue
        level = min((inhale + exhale) * FULL // LONGEST_BREATH_MS, FULL)
        label = f"{inhale / 1000:g} s in, {exhale / 1000:g} s out"
        found.append(Stretch(start, length, label, level=level, note=label))
    tempi = dict.fromkeys(one.label for one in found if one.kind is not Kind.OWN)
    own = sum(one.length for one in found if one.kind is Kind.OWN)
    words = "; ".join([*tempi, *([f"{span(own)} at one's own breath"] if own else [])])
    return Lane("breath", Form.CURVE, tuple(found), words)


def _with_tempo(pieces: Sequence[Piece]) -> list[tuple[Piece, tuple[int, int]]]:
    """Each piece with the inhale and exhale it belongs to; (0, 0) for free time.

    A half breath whose other half is not beside it takes the tempo of its neighbours.
    """
    tempi: list[tuple[int, int] | None] = [
        (0, 0) if piece.moment.breath is Breath.FREE else None for piece in pieces
    ]
    for index, (one, other) in enumerate(pairwise(pieces)):
        if one.moment.breath is Breath.IN and other.moment.breath is Breath.OUT:
            tempi[index] = tempi[index + 1] = (one.length, other.length)
    known: tuple[int, int] | None = next((one for one in tempi if one and one[0]), None)
    paired = []
    for piece, tempo in zip(pieces, tempi, strict=True):
        known = tempo if tempo and tempo[0] else known
        paired.append((piece, tempo or known or (piece.length, piece.length)))
    return paired


def speech(told: Iterable[Told], length: int) -> Lane:
    """When something is said and when a bell is struck; what is left is silence."""
    found = []
    at, spoken, silence = 0, 0, 0
    for one in sorted(told, key=lambda each: each.start):
        kind = Kind.BELL if one.bell else Kind.SPEECH
        begin = max(one.start, 0)
        end = min(max(one.start + one.length, begin), length)
        found.append(Stretch(begin, end - begin, "", kind, note=one.text))
        silence = max(silence, begin - at)
        spoken += 0 if one.bell else max(0, end - max(begin, at))
        at = max(at, end)
    silence = max(silence, length - at)
    share = round(100 * spoken / length) if length else 0
    words = f"speech {span(spoken)} ({share} %), longest silence {span(silence)}"
    return Lane("voice", Form.MARKS, tuple(found), words)


def wrists(pieces: Sequence[Piece], known: Mapping[str, Shape]) -> Lane:
    """What bent wrists bear, by the catalogue's scale, and what carries the weight meanwhile."""
    found = []
    for (asks, base), group in runs(pieces, lambda piece: _borne(piece.moment, known)):
        if asks:
            start, length = reach(group)
            level = min(asks * FULL // ASKED, FULL)
            found.append(Stretch(start, length, base, Kind.LOAD, level, f"{base}, {span(length)}"))
    total, row = sum(one.length for one in found), _longest_row(found)
    words = f"{span(total)} in all, at most {span(row)} in a row" if found else "nothing"
    return Lane("wrists", Form.CURVE, tuple(found), words)


def _borne(moment: Moment, known: Mapping[str, Shape]) -> tuple[int, str]:
    """What a moment asks of the wrists; a shape nobody knows is judged by its stance alone."""
    shape = known.get(moment.shape)
    asks = shape.asks.get("wrists", 0) if shape else int(on_hands(moment.stance))
    return asks, moment.stance.base.value if asks else ""


def _longest_row(found: list[Stretch]) -> int:
    longest = begin = end = 0
    for one in found:
        begin = begin if one.start == end else one.start
        end = one.end
        longest = max(longest, end - begin)
    return longest
