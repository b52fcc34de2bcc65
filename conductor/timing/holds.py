"""Stays as moments: grown from their first moment, made longer or shorter, or left out."""

from collections.abc import Container, Iterable, Iterator, Mapping
from itertools import accumulate

from conductor.score.model import Hold, Line, Moment, Part, Saying, Score, Variant, Words
from conductor.sides import Breath
from conductor.timing.estimate import estimate
from conductor.timing.leaving import joined
from conductor.values import replace

LINE_AT_MS = 300  # after the breath has turned, so that the words do not cover the turn
LINE_GAP_MS = 400  # between two lines, so that they are heard as two
CLOSE_MS = 2000  # silence between the last words of timed stillness and its end


def grow(first: Moment, hold: Hold) -> tuple[Moment, ...]:
    """All moments of a stay, from its first moment as template; they follow it without a gap.

    `first.id` ends in ".0" or is taken as the base. Later moments keep shape, side, stance and
    note; what happens once (words, bells, a turn, cues ahead) stays with the first.

    Lines: "first" begins with the first half breath; "" lines follow, one a breath, each at the
    start of its breath; "last" stands at the start of the last whole breath and survives any
    stretching, so a "" line that falls on the same breath, or after the end, is left out. In a
    stay of one breath "first" takes the first half and "last" the second if each fits there;
    else "first" alone is kept, since it tells what to do. Timed: "" lines are a breath apart, or
    more whole breaths where they take longer, and "last" ends two seconds before the end.
    """
    base = first.id.removesuffix(".0")
    lines = lines_of(hold, first.breath)
    beside = {
        level: lines_of(replace(hold, lines=own), first.breath) for level, own in hold.ways.items()
    }
    if hold.timed:
        _at_least_one(hold.amount, hold)
        return (
            replace(
                first,
                id=f"{base}.0",
                length=hold.amount,
                breath=Breath.FREE,
                hold=hold.id,
                of_stay=(0, 0),
                lines=lines.get(0, ()),
                variants=_varied(first.variants, beside, 0),
            ),
        )
    halves = _at_least_one(2 * hold.amount + hold.half, hold)
    grown = []
    mate = first.mate.removesuffix(".0")
    start, breath, template = first.start, first.breath, _later(first)
    words = {half: _words(first.words, half) for half in (Breath.IN, Breath.OUT, Breath.FREE)}
    for index in range(halves):
        length = hold.inhale if breath is Breath.IN else hold.unit - hold.inhale
        grown.append(
            replace(
                template if index else first,
                id=f"{base}.{index}",
                start=start,
                length=length,
                breath=breath,
                words=words[breath] if index else first.words,
                hold=hold.id,
                of_stay=(index // 2 + 1, hold.amount + hold.half),
                mate=f"{mate}.{index}" if mate else "",
                lines=lines.get(index, ()),
                variants=_varied((template if index else first).variants, beside, index),
            )
        )
        start, breath = start + length, breath.other
    return tuple(grown)


def lines_of(hold: Hold, breath: Breath) -> dict[int, tuple[Line, ...]]:
    """The lines of a stay by the moment in it, for one that begins on this half of a breath."""
    return _timed_lines(hold) if hold.timed else _lines(breath, hold)


def _varied(
    variants: tuple[Variant, ...], beside: Mapping[str, Mapping[int, tuple[Line, ...]]], index: int
) -> tuple[Variant, ...]:
    """The other ways at a moment of a stay, each with the lines it has there."""
    if not beside:
        return variants
    return tuple(
        replace(one, lines=beside[one.level].get(index, ())) if one.level in beside else one
        for one in variants
    )


def _at_least_one(count: int, hold: Hold) -> int:
    if count < 1:
        raise ValueError(f"stay {hold.id}: nothing is left of it at {hold.amount}; drop it instead")
    return count


def _later(first: Moment) -> Moment:
    """What every moment of a stay but the first has in common."""
    variants = tuple(replace(variant, words=Words(), lines=None) for variant in first.variants)
    return replace(
        first,
        variants=variants,
        through=(),
        readings=None,
        early=False,
        bells=0,
        arriving=False,
        turn="",
    )


def _words(words: Words, breath: Breath) -> Words:
    """A later moment's words: its breath word alone, where the first one has one."""
    word = {Breath.IN: "Inhale", Breath.OUT: "Exhale"}.get(breath, "") if words.breath else ""
    return Words(breath=word, form=words.form)


def _lines(breath: Breath, hold: Hold) -> dict[int, tuple[Line, ...]]:
    """Lines by half breath of a stay in breaths."""
    firsts = [text for anchor, text in hold.lines if anchor == "first"]
    plain = [text for anchor, text in hold.lines if not anchor]
    lasts = [text for anchor, text in hold.lines if anchor == "last"]
    breaths = max(hold.amount, 1)
    if lasts and firsts and hold.amount <= 1:
        length = hold.inhale if breath is Breath.IN else hold.unit - hold.inhale
        halves = 2 * hold.amount + hold.half
        both = halves > 1 and _fits(firsts[0], length) and _fits(lasts[-1], hold.unit - length)
        return {0: _at(firsts[0]), **({1: _at(lasts[-1])} if both else {})}
    by_breath = dict(enumerate(firsts + plain))
    for back, text in enumerate(reversed(lasts)):
        if breaths - 1 - back >= len(firsts):
            by_breath[breaths - 1 - back] = text
    return {2 * k: _at(text) for k, text in by_breath.items() if k < breaths}


def _at(text: str, at: int = LINE_AT_MS) -> tuple[Line, ...]:
    return (Line(at, Saying(text)),)


def _fits(text: str, length: int) -> bool:
    return LINE_AT_MS + estimate(text) + LINE_GAP_MS <= length


def _timed_lines(hold: Hold) -> dict[int, tuple[Line, ...]]:
    """Lines of timed stillness: from the start on, and the last ones counted from the end."""
    found: list[Line] = []
    at, unit = LINE_AT_MS, max(hold.unit, 1)
    for text in [text for want in ("first", "") for anchor, text in hold.lines if anchor == want]:
        if at + estimate(text) > hold.amount and found:
            break
        found.append(Line(at, Saying(text)))
        at += -(-(estimate(text) + LINE_GAP_MS) // unit) * unit
    free_from = found[-1].at + estimate(found[-1].saying.text) + LINE_GAP_MS if found else 0
    before = CLOSE_MS
    tail: list[Line] = []
    for text in reversed([text for anchor, text in hold.lines if anchor == "last"]):
        before += estimate(text)
        if hold.amount - before < free_from:
            if not found and not tail:
                tail.append(Line(-min(before, hold.amount), Saying(text)))
            break
        tail.append(Line(-before, Saying(text)))
        before += LINE_GAP_MS
    return {0: (*found, *reversed(tail))}


def retimed(moments: Iterable[Moment], start: int = 0) -> tuple[Moment, ...]:
    """The same moments, each beginning where the one before ends, the first at `start` ms."""
    result = []
    for moment in moments:
        if moment.start == start:
            result.append(moment)
        else:
            result.append(replace(moment, start=start))
        start += moment.length
    return tuple(result)


def resized(score: Score, amounts: Mapping[str, int], at: int = 0) -> Score:
    """The score with these amounts of its holds (breaths or ms): regrown and timed anew.

    Moments before index `at` have been led and stay as they are; the parts' indices follow.
    Raises KeyError for a hold that is not there and ValueError where nothing would be left.
    """
    changed = {
        key: replace(score.holds[key], amount=amount)
        for key, amount in amounts.items()
        if score.holds[key].amount != amount
    }
    if not changed:
        return score
    moments: list[Moment] = []
    new_index = [0]
    for run in _runs(score.moments):
        hold = changed.get(score.moments[run.start].hold)
        led = run if hold is None else range(run.start, min(run.stop, max(at, run.start)))
        moments.extend(score.moments[led.start : led.stop])
        if hold is not None:
            moments.extend(grow(score.moments[run.start], hold)[len(led) :])
        before = new_index[-1]
        new_index.extend(min(before + k, len(moments)) for k in range(1, len(run)))
        new_index.append(len(moments))
    return _rebuilt(score, moments, new_index, {**score.holds, **changed})


def _runs(moments: tuple[Moment, ...]) -> Iterator[range]:
    """Stretches of moments that belong to one stay, and those between, by index."""
    first = 0
    for index, moment in enumerate(moments):
        if moment.hold != moments[first].hold:
            yield range(first, index)
            first = index
    if moments:
        yield range(first, len(moments))


def dropped(score: Score, keys: Container[str], begun: int = 0) -> Score:
    """The score without the moments that carry one of these drop keys, timed anew.

    Holds that go are forgotten, by their mates too. Parts keep their numbers, which a class under
    way has told already; one left empty has no moments. Before index `begun` nothing changes.
    """
    moments: list[Moment] = []
    new_index = [0]
    for moment in score.moments:
        if not moment.drop or moment.drop not in keys:
            moments.append(moment)
        new_index.append(len(moments))
    if len(moments) == len(score.moments):
        return score
    present = {moment.hold for moment in moments}
    holds = {
        key: replace(hold, mates=tuple(mate for mate in hold.mates if mate in present))
        for key, hold in score.holds.items()
        if key in present
    }
    return _rebuilt(score, joined(score, moments, keys, begun), new_index, holds)


def _rebuilt(
    score: Score, moments: list[Moment], new_index: list[int], holds: Mapping[str, Hold]
) -> Score:
    parts = tuple(
        Part(part.name, new_index[part.first], new_index[part.last]) for part in score.parts
    )
    start = score.moments[0].start if score.moments else 0
    return replace(score, moments=retimed(moments, start), parts=parts, holds=holds)


def without_empty_parts(score: Score) -> Score:
    """The score with only those parts that have moments, numbered anew."""
    filled = [part.first < part.last for part in score.parts]
    if all(filled):
        return score
    number = [count - 1 for count in accumulate(filled)]
    moments = tuple(
        moment if number[moment.part] == moment.part else replace(moment, part=number[moment.part])
        for moment in score.moments
    )
    parts = tuple(part for part, kept in zip(score.parts, filled, strict=True) if kept)
    return replace(score, moments=moments, parts=parts)
