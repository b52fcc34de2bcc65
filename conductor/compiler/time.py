"""Time: steps become moments of whole milliseconds, and stays become holds that may stretch."""

from collections import defaultdict

from conductor.compiler.model import Bit
from conductor.compiler.rules import found
from conductor.findings import Finding
from conductor.plan.model import Amount
from conductor.score.model import Hold, Line, Moment, Saying, Words
from conductor.shapes.model import Shape
from conductor.sides import Breath
from conductor.spans import Span
from conductor.stance import Base, Foot, Stance, Trunk
from conductor.timing.holds import grow
from conductor.values import Struct, field, replace

BELL_MS = 3_000  # a bell is heard alone this long before words
STROKE_MS = 2_000  # between two strokes
BELL_ROOM_MS = 6_000  # in less than this a bell would cut into what is said before it
_HERE = Stance(Base.FEET, Foot.TOP, Foot.TOP)
_BLANK = Moment("", 0, 0, Breath.FREE, "", None, "", _HERE, Words(), Span("", 0, 0), 0)
LINE_AFTER_MS = 300  # a line within a moment waits until the breath has turned


class Timed(Struct):
    """Moments in order with their holds, the shapes met, and what there is to say."""

    moments: list[Moment] = field(default_factory=list)
    holds: dict[str, Hold] = field(default_factory=dict)
    shapes: dict[str, Shape] = field(default_factory=dict)
    findings: dict[tuple[str, object], Finding] = field(default_factory=dict)


def time(bits: tuple[Bit, ...], last: Breath = Breath.OUT) -> Timed:
    """Give every step its moments; the sum of their lengths is the length of the class, exactly.

    `last` is the half breath before the first step; a stay begins with the half after it.
    """
    timed = Timed()
    shape: Shape | None = None
    start, with_ = 0, ""
    twins: defaultdict[str, list[str]] = defaultdict(list)
    for bit in bits:
        shape = bit.shape or (bit.cycle[-1] if bit.cycle else shape)
        if shape is None:
            words = "the class is in no shape yet"
            timed.findings.setdefault(
                ("first-shape", None), found("first-shape", words, bit.span, "- come to: mountain")
            )
            continue
        for known in (shape, *bit.through, *bit.cycle):
            timed.shapes.setdefault(known.id, known)
        if bit.shape is None and not bit.with_ and not bit.cycle:
            bit = replace(bit, with_=with_)  # noqa: PLW2901 -- arms stay as they were put
        with_ = bit.with_
        moments, hold = _moments(bit, shape, last, start, timed)
        start = moments[-1].end
        if hold:
            timed.holds[hold.id] = hold
            twins[bit.twin].append(hold.id)
        timed.moments.extend(moments)
        last = moments[-1].breath if moments[-1].breath is not Breath.FREE else Breath.OUT
    _struck(timed.moments)
    for together in twins.values():
        for name in together:
            others = tuple(other for other in together if other != name)
            timed.holds[name] = replace(timed.holds[name], mates=others)
    return timed


def _moments(
    bit: Bit, shape: Shape, last: Breath, start: int, timed: Timed
) -> tuple[tuple[Moment, ...], Hold | None]:
    breath = bit.breath
    if bit.verb == "stay":
        breath = Breath.FREE if bit.ms else last.other
    length = bit.ms or (bit.exhale if breath is Breath.OUT else bit.inhale)
    first = _moment(bit, shape, breath, start, length)
    if bit.verb in {"in", "out"}:
        return _movement(bit, first), None
    if bit.verb == "come to":
        return (replace(first, lines=_lines(bit, length)),), None
    hold = hold_of(bit, timed)
    mate = f"{first.mate}.0" if first.mate else ""
    arriving = bit.shape is not None
    named = replace(first, id=f"{bit.path}.0", hold=hold.id, arriving=arriving, mate=mate)
    return grow(named, hold), hold


def _moment(bit: Bit, shape: Shape, breath: Breath, start: int, length: int) -> Moment:
    assert bit.stance is not None  # noqa: S101 -- place gave every step its stance
    mate = bit.mate_key + bit.path.removeprefix(bit.pass_key) if bit.pass_key else ""
    return replace(
        _BLANK,
        id=bit.path,
        start=start,
        length=length,
        breath=breath,
        shape=shape.id,
        side=bit.side,
        decided=bit.decided,
        stance=bit.stance,
        words=bit.words if bit.verb != "stay" else Words(form="nothing"),
        origin=bit.span,
        part=bit.part,
        with_=bit.with_,
        through=tuple(passed.id for passed in bit.through),
        cycle=tuple(passed.id for passed in bit.cycle),
        readings=bit.readings,
        note=bit.note,
        round=bit.round,
        pass_side=bit.pass_side,
        pass_key=bit.pass_key,
        mate=mate,
        drop=bit.drop,
        early=bit.early,
        bells=bit.bells,
        bell=_bell(bit),
        turn=bit.turn,
    )


def _bell(bit: Bit) -> str:
    resting = bit.stance is not None and bit.stance.trunk is Trunk.RESTING
    return "rest" if bit.bells and resting and bit.bell == "bell" else bit.bell


def _struck(moments: list[Moment]) -> None:
    """Strike bells before the words of their moment where the class waits long enough before."""
    for index, moment in enumerate(moments):
        words = moment.words
        speaks = words.form != "nothing" and (words.full or words.breath)
        before = moments[index - 1].length if index else 0
        if moment.bells and speaks and before >= BELL_ROOM_MS:
            wanted = BELL_MS + STROKE_MS * (moment.bells - 1)
            moments[index] = replace(moment, struck=min(wanted, before - BELL_MS))


def _lines(bit: Bit, length: int) -> tuple[Line, ...]:
    """Lines within a movement: the first ones after the breath has turned, the last at its end."""
    lines = []
    for anchor, text in bit.lines:
        lines.append(Line(-1 if anchor == "last" else min(LINE_AFTER_MS, length), Saying(text)))
    return tuple(lines)


def _movement(bit: Bit, first: Moment) -> tuple[Moment, ...]:
    """One movement: half a breath, or several with the first carrying the words (`over`)."""
    if bit.ms:
        return (replace(first, breath=Breath.FREE, length=bit.ms, lines=_lines(bit, bit.ms)),)
    if bit.halves == 1:
        return (replace(first, lines=_lines(bit, first.length)) if bit.lines else first,)
    moments = []
    start, breath = first.start, first.breath
    for index in range(bit.halves):
        mate = f"{first.mate}.{index}" if first.mate else ""
        length = bit.inhale if breath is Breath.IN else bit.exhale
        moment = replace(
            first, id=f"{first.id}.{index}", mate=mate, start=start, breath=breath, length=length
        )
        if index:
            moment = replace(
                moment, words=Words(form="nothing"), arriving=False, bells=0, early=False, turn=""
            )
        moments.append(moment)
        start, breath = start + length, breath.other
    moments[-1] = replace(moments[-1], lines=_lines(bit, moments[-1].length))
    return tuple(moments)


def hold_of(bit: Bit, timed: Timed) -> Hold:
    """The stay a step makes, with the bounds it may stretch between."""
    unit = bit.inhale + bit.exhale
    amount = bit.ms or bit.halves // 2
    least, most = _bounds(bit, amount, timed)
    return Hold(
        id=bit.path,
        amount=amount,
        least=least,
        most=most,
        unit=unit,
        inhale=bit.inhale,
        lines=bit.lines,
        half=not bit.ms and bool(bit.halves % 2),
        timed=bool(bit.ms),
    )


def _bounds(bit: Bit, amount: int, timed: Timed) -> tuple[int, int]:
    stretch = bit.stretch
    least = _measured(bit, bit.mods.least, timed) if bit.mods.least else None
    if stretch is None:
        bounds = (amount if least is None else least, amount)
    elif stretch.least is None or stretch.most is None:
        half = -(-amount // 2)
        bounds = (half if least is None else least, amount * 2)
    else:
        low, high = _measured(bit, stretch.least, timed), _measured(bit, stretch.most, timed)
        if low is None or high is None:
            return amount, amount
        bounds = (low if least is None else max(low, least), high)
    if bounds[0] <= amount <= bounds[1]:
        return bounds
    span = stretch.span if stretch else bit.span
    words = "the stay as written lies outside the bounds given for it"
    timed.findings.setdefault(("stretch-bounds", span), found("stretch-bounds", words, span))
    return amount, amount


def _measured(bit: Bit, bound: Amount, timed: Timed) -> int | None:
    """Give a bound in the stay's own measure, or None (with a finding) when it is in another."""
    if bool(bit.ms) == bool(bound.ms):
        return bound.ms or bound.halves // 2
    if bit.mods.may_stretch is None and bit.mods.least is None:
        return None  # said for a whole block, it speaks of the stays it can speak of
    measure = "in time" if bit.ms else "in breaths"
    words = f"the stay is {measure}, its bounds are not"
    timed.findings.setdefault(
        ("stretch-bounds", bound.span), found("stretch-bounds", words, bound.span)
    )
    return None
