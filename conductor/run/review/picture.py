"""A class as planned and as it was led, on one scale, one lane beneath the other."""

from collections.abc import Iterator, Sequence

from conductor.figure import lanes
from conductor.figure.model import Figure, Form, Kind, Lane, Timeline
from conductor.figure.model import Stretch as Box
from conductor.figure.pieces import Piece, planned, runs
from conductor.run.review.model import Doing, Stretch
from conductor.run.review.wishes import Reviewed
from conductor.run.review.words import after
from conductor.score.model import Moment, Score
from conductor.values import replace
from conductor.view.clean import clean
from conductor.view.spell import span

_KINDS = {Doing.HELD: Kind.HELD}
_WAITED = "waited"


def figure(now: Reviewed, earlier: Sequence[Reviewed] = ()) -> Figure:
    """Both timelines, with the three things in words first."""
    page = after(now, earlier)
    words = tuple(f"{heading}: {' '.join(said.split())}" for heading, said in page.first)
    return Figure(clean(page.title), (_planned(now), _led(now)), words)


def _planned(now: Reviewed) -> Timeline:
    pieces = planned(now.score)
    missed = Lane(_WAITED, Form.BOXES, tuple(_missed(now)), _sum_missed(now))
    return Timeline("planned", now.score.length, (*_lanes(pieces, now.score), missed))


def _led(now: Reviewed) -> Timeline:
    pieces = tuple(_pieces(now.review.line, now.score))
    waited = Lane(_WAITED, Form.BOXES, tuple(_waited(now)), _sum_waited(now))
    return Timeline("led", now.review.led, (*_lanes(pieces, now.score), waited))


def _lanes(pieces: Sequence[Piece], score: Score) -> tuple[Lane, ...]:
    if not pieces:
        return ()
    return lanes.parts(pieces, score), lanes.shapes(pieces, score), lanes.sides(pieces)


def _pieces(line: Sequence[Stretch], score: Score) -> Iterator[Piece]:
    """What was led or held, each as the moment it was; the rest of the time shows as a gap."""
    by_id = {moment.id: moment for moment in score.moments}
    of_hold: dict[str, Moment] = {}
    for moment in score.moments:
        if moment.hold:
            of_hold.setdefault(moment.hold, moment)
    for one in line:
        was = by_id.get(one.moment) or of_hold.get(one.hold)  # a breath that was added
        if was is not None and one.doing in (Doing.LED, Doing.HELD):
            kind = _KINDS.get(one.doing, Kind.PLAIN)
            yield Piece(replace(was, part=one.part), one.start, one.length, kind)


def _missed(now: Reviewed) -> Iterator[Box]:
    """Stretches of the plan that were not led."""
    led = {one.moment for one in now.review.line if one.doing is Doing.LED}
    for was_led, group in runs(now.score.moments, lambda moment: moment.id in led):
        if not was_led:
            length = group[-1].end - group[0].start
            yield Box(group[0].start, length, "not led", Kind.SKIPPED, note=span(length))


def _sum_missed(now: Reviewed) -> str:
    missed = sum(one.length for one in _missed(now))
    return f"{span(missed)} of the plan were not led" if missed else "all of the plan was led"


def _waited(now: Reviewed) -> Iterator[Box]:
    """Holds, and whatever else stopped the class."""
    for doing, group in runs(now.review.line, lambda one: one.doing):
        if doing is Doing.LED:
            continue
        kind = _KINDS.get(doing, Kind.STOPPED)
        length = group[-1].end - group[0].start
        yield Box(group[0].start, length, str(doing), kind, note=f"{doing}, {span(length)}")


def _sum_waited(now: Reviewed) -> str:
    found = [one for one in now.review.line if one.doing is not Doing.LED]
    return f"waited {span(sum(one.length for one in found))}" if found else "nobody waited"
