"""A review made of a journal's lines and the score that was led: all of it counted once, here."""

from collections import Counter, defaultdict
from collections.abc import Sequence

from conductor.engine.model import Do
from conductor.run.review.account import account, last_reached
from conductor.run.review.model import (
    Doing,
    Ending,
    PartLed,
    Review,
    ShapeLed,
    Spoken,
    Stretch,
    Waited,
)
from conductor.run.review.stays import stays
from conductor.run.review.story import KEPT, Line, Story, number, story, text
from conductor.score.form import name as name_of
from conductor.score.model import Moment, Score
from conductor.sides import Side
from conductor.timing.estimate import estimate
from conductor.values import replace

LATE_MS = 100  # a cue this late can be noticed

_LEAPS = (Do.NEXT, Do.NEXT_PART, Do.REST, Do.BACK, Do.PREVIOUS_PART, Do.AGAIN)


def review(opened: Line, told: Sequence[Line], score: Score, going_on: bool = False) -> Review:
    """Count a class: `opened` is the journal's first line, `told` the others."""
    tale = story(told, score)
    if going_on and tale.ending is Ending.BROKE_OFF:
        tale = replace(tale, ending=Ending.GOING_ON)
    led = sum(one.length for one in tale.stretches)
    gone, beyond = _left_out(tale, score)
    must_end = opened.get("must_end")
    kinds = Counter(text(line, "kind") for line in told)
    speed = opened.get("speed")
    return Review(
        title=score.meta.title,
        plan=text(opened, "plan") or score.meta.source,
        score=name_of(score),
        version=text(opened, "version"),
        wall=text(opened, "wall"),
        speed=float(speed) if isinstance(speed, int | float) else 1.0,
        rehearsal=opened.get("rehearsal") is True,
        ending=tale.ending,
        planned=score.length,
        led=led,
        must_end=must_end - tale.began if isinstance(must_end, int) else None,
        account=account(tale, score),
        parts=_parts(tale, score, gone),
        shapes=_shapes(tale, score),
        stays=stays(tale, score, isinstance(must_end, int)),
        holds=_waited(tale, score, Doing.HELD),
        stops=_waited(tale, score, Doing.STOPPED),
        commands=dict(Counter(one.do for one in tale.asked if one.do != KEPT)),
        refused=kinds["refused"],
        offers=kinds["offer"],
        faults=kinds["fault"],
        moments=len(score.moments),
        left_out=len(gone),
        not_reached=len(beyond),
        landed=_landed(tale, score, gone, isinstance(must_end, int)),
        spoken=_spoken(opened, told, tale),
        line=tale.stretches,
    )


def _left_out(tale: Story, score: Score) -> tuple[list[Moment], list[Moment]]:
    """Moments that were not led, and those that lay after the end of a class that was ended.

    Those by which a stay was made shorter are neither.
    """
    led = {one.moment for one in tale.stretches if one.doing is Doing.LED}
    begun = {one.hold for one in score.moments if one.id in led and one.hold}
    end = last_reached(tale, score)
    missing = [
        (at, one)
        for at, one in enumerate(score.moments)
        if one.id not in led and one.hold not in begun
    ]
    gone = [one for at, one in missing if at <= end]
    return gone, [one for at, one in missing if at > end]


def _landed(tale: Story, score: Score, gone: Sequence[Moment], to_the_clock: bool) -> int:
    """How many of those a fit to the clock took out: no leap of the teacher's lies over them."""
    if not to_the_clock and not any(one.do == Do.LAND for one in tale.asked):
        return 0
    first = {one.moment: one.start for one in reversed(tale.stretches)}
    reached = [(at, first[one.id]) for at, one in enumerate(score.moments) if one.id in first]
    places = {one.id: at for at, one in enumerate(score.moments)}
    return sum(bool(one.drop) and _passed_over(places[one.id], reached, tale) for one in gone)


def _passed_over(at: int, reached: Sequence[tuple[int, int]], tale: Story) -> bool:
    """Whether the class went past a moment by itself, with no leap over it."""
    before = max((when for index, when in reached if index < at), default=0)
    after = min((when for index, when in reached if index > at), default=None)
    if after is None:
        return tale.ending is Ending.FINISHED
    return not any(one.do in _LEAPS and before <= one.at <= after for one in tale.asked)


def _parts(tale: Story, score: Score, gone: Sequence[Moment]) -> tuple[PartLed, ...]:
    led: dict[int, Counter[str]] = defaultdict(Counter)
    for one in tale.stretches:
        led[one.part][str(one.doing)] += one.length
    left = Counter(one.part for one in gone)
    return tuple(
        PartLed(
            name=part.name,
            planned=sum(one.length for one in score.moments[part.first : part.last]),
            led=led[at][Doing.LED] + led[at][Doing.HELD],
            held=led[at][Doing.HELD],
            stopped=led[at][Doing.STOPPED] + led[at][Doing.AWAY] + led[at][Doing.COMING],
            left_out=left[at],
        )
        for at, part in enumerate(score.parts)
    )


def _shapes(tale: Story, score: Score) -> tuple[ShapeLed, ...]:
    planned: dict[str, Counter[str]] = defaultdict(Counter)
    for moment in score.moments:
        planned[moment.shape][str(moment.side or "")] += moment.length
    led: dict[str, Counter[str]] = defaultdict(Counter)
    times: Counter[str] = Counter()
    before = ("", "")
    for one in tale.stretches:
        if one.doing in (Doing.LED, Doing.HELD):
            led[one.shape][one.side] += one.length
            times[one.shape] += (one.shape, one.side) != before
            before = (one.shape, one.side)
    return tuple(
        ShapeLed(
            id=shape,
            name=score.shapes[shape].name if shape in score.shapes else shape,
            times=times[shape],
            planned=planned[shape].total(),
            led=led[shape].total(),
            planned_right=planned[shape][Side.RIGHT],
            planned_left=planned[shape][Side.LEFT],
            right=led[shape][Side.RIGHT],
            left=led[shape][Side.LEFT],
        )
        for shape in dict.fromkeys((*planned, *led))
    )


def _waited(tale: Story, score: Score, doing: Doing) -> tuple[Waited, ...]:
    """Holds or stops, those that follow each other without a gap as one."""
    found: list[Waited] = []
    end = -1
    for one in tale.stretches:
        if one.doing is not doing:
            continue
        name = score.shapes[one.shape].name if one.shape in score.shapes else one.shape
        part = score.parts[one.part].name if one.part < len(score.parts) else ""
        if found and one.start == end:
            found[-1] = replace(found[-1], ms=found[-1].ms + one.length)
        else:
            found.append(Waited(one.start, one.length, name, one.side, part))
        end = one.end
    return tuple(found)


def _spoken(opened: Line, told: Sequence[Line], tale: Story) -> Spoken:
    """What was said; words cut off by a stop or a leap count as far as they were heard.

    Where no voice speaks at all, the words are those the teacher was shown.
    """
    heard = opened.get("voiced") is not False
    cues = [line for line in told if text(line, "kind") == "cue"]
    lates = [late for line in cues if (late := number(line, "late")) >= LATE_MS]
    return Spoken(
        cues=len(cues),
        ms=sum(_heard(line, tale) for line in cues if not (heard and _quiet(line, tale))),
        late=len(lates),
        latest=max(lates, default=0),
        dropped=sum(text(line, "kind") == "dropped" for line in told),
        heard=heard,
    )


def _quiet(line: Line, tale: Story) -> bool:
    """Whether the voice had been asked to fall quiet by then."""
    at = number(line, "now") - tale.began
    return sum(one.do == Do.QUIET and one.at <= at for one in tale.asked) % 2 == 1


def _heard(line: Line, tale: Story) -> int:
    at = number(line, "now") - tale.began
    ms = number(line, "ms") or estimate(text(line, "words"))
    cut = [one.start for one in tale.stretches if _cuts(one) and at < one.start < at + ms]
    return min(cut, default=at + ms) - at


def _cuts(one: Stretch) -> bool:
    return one.doing in (Doing.STOPPED, Doing.AWAY, Doing.COMING)
