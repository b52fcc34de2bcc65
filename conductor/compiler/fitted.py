"""Fitted: each part to its own length where it gives one, then the class to the minute."""

from collections.abc import Container, Iterator, Mapping, Sequence

from conductor.compiler.rules import found
from conductor.findings import Finding
from conductor.plan.model import Amount, Plan, Share
from conductor.score.model import Part, Score
from conductor.spans import Span
from conductor.timing.holds import resized, retimed
from conductor.timing.leaving import Leaving, stuck
from conductor.timing.model import Refit
from conductor.timing.refit import fit, to_leave_out
from conductor.values import replace


def fitted(score: Score, plan: Plan) -> tuple[Score, tuple[Finding, ...]]:
    """Meet every length asked for by stays; what cannot be met is said with how much is missing."""
    findings: list[Finding] = []
    for number, length in _lengths(score, plan):
        met = fit(_alone(score, number), length.ms)
        if met.misses_by_ms:
            name = f"the part {score.parts[number].name}"
            findings.append(_missed(name, met.misses_by_ms, length))
        score = _with_part(score, met)
    score = _shared(score, plan)
    if plan.length is not None and score.meta.length:
        met = fit(score, score.meta.length)
        score = met.score
        if met.misses_by_ms:
            findings.append(_missed("the class", met.misses_by_ms, plan.length))
    return score, (*findings, *_unshared(score, plan))


def wishes(plan: Plan) -> dict[int, tuple[int, Share]]:
    """The length (ms) each part wishes for by its share, by the part's number."""
    if plan.length is None:
        return {}
    return {
        number: (plan.length.ms * part.share.of // 10_000, part.share)
        for number, part in enumerate(plan.parts)
        if part.share
    }


def _shared(score: Score, plan: Plan) -> Score:
    """Bring each part as near to its share as its stays can, and the other parts to what is left.

    The class is fitted from there, which is little: what parts cannot reach, and odd seconds.
    """
    wished = wishes(plan)
    wanted: list[tuple[tuple[int, ...], int]] = [
        ((number,), wish) for number, (wish, _) in wished.items()
    ]
    others = tuple(number for number in range(len(score.parts)) if number not in wished)
    if wanted and others:
        wanted.append((others, score.meta.length))
    done = 0
    for numbers, wish in wanted:
        alone = _alone(score, *numbers)
        if alone.moments:
            met = fit(alone, wish - (done if numbers is others else 0)).score
            done += met.length
            score = resized(score, {name: hold.amount for name, hold in met.holds.items()})
    return score


def _unshared(score: Score, plan: Plan) -> Iterator[Finding]:
    """Tell of parts that are further from their share than a percent of the class."""
    for number, (wish, share) in wishes(plan).items():
        part = score.parts[number]
        length = sum(moment.length for moment in score.moments[part.first : part.last])
        if abs(length - wish) * 100 > score.length:
            words = f"the part {part.name} lasts {_spoken_ms(length)}, not the "
            words += f"{_spoken_ms(wish)} that are {share.of / 100:g} % of the class"
            hint = "let its stays stretch further, its rounds repeat, or change the share"
            yield found("share-missed", words, share.span, hint)


def left_out(
    score: Score, plan: Plan, barred: Container[str], apart: Sequence[frozenset[str]] = ()
) -> frozenset[str]:
    """Find what has to go so that every length can be met: parts by themselves, then the class.

    Nothing goes that is `barred`, nor all of a company that is `apart`. The passes are run again
    without it, so that words, sides and rounds are those of what is left.
    """
    if not any(moment.drop for moment in score.moments):
        return frozenset()
    keys: set[str] = set()
    for number, length in _lengths(score, plan):
        alone, part = _alone(score, number), score.parts[number]
        if alone.length > length.ms:
            leaving = Leaving(score, 0, True, barred, slice(part.first, part.last), apart)
            keys.update(to_leave_out(alone, length.ms, leaving))
        score = _with_part(score, fit(alone, length.ms))
    if not keys and 0 < score.meta.length < score.length:
        leaving = Leaving(score, anew=True, barred=barred, apart=apart)
        keys.update(to_leave_out(score, score.meta.length, leaving))
    return frozenset(keys)


def gaps(score: Score, spans: Mapping[str, Span]) -> tuple[Finding, ...]:
    """Tell of passages that may be dropped, yet whose going would leave the class stuck."""
    findings: dict[Span, Finding] = {}
    if not any(moment.drop for moment in score.moments):
        return ()
    for key, why in stuck(score).items():
        span = spans.get(key)
        if span is None:
            continue
        words = f"this is never left out, for the class could not go on without it: {why}"
        hint = "let it end as it began, on the same breath, or drop what belongs to it as well"
        findings.setdefault(span, found("drop-leaves-gap", words, span, hint))
    return tuple(findings.values())


def _lengths(score: Score, plan: Plan) -> list[tuple[int, Amount]]:
    """The parts, by number, that ask for a length and have anything in them."""
    return [
        (number, part.length)
        for number, part in enumerate(plan.parts)
        if part.length is not None and score.parts[number].first < score.parts[number].last
    ]


def _alone(score: Score, *numbers: int) -> Score:
    """One part, or several, as a score of their own, from 0."""
    parts = [score.parts[number] for number in numbers]
    part = parts[0]
    moments = retimed(one for part in parts for one in score.moments[part.first : part.last])
    names = {moment.hold for moment in moments if moment.hold}
    holds = {name: score.holds[name] for name in names}
    return replace(score, moments=moments, parts=(Part(part.name, 0, len(moments)),), holds=holds)


def _with_part(score: Score, met: Refit) -> Score:
    """The score with one part fitted; its stays keep what they got when the class is fitted."""
    amounts = {name: hold.amount for name, hold in met.score.holds.items()}
    grown = resized(score, amounts)
    kept = {
        name: replace(grown.holds[name], least=amount, most=amount)
        for name, amount in amounts.items()
    }
    return replace(grown, holds={**grown.holds, **kept})


def _missed(what: str, by: int, length: Amount) -> Finding:
    words = f"{what} is {_spoken_ms(abs(by))} too {'long' if by > 0 else 'short'} for its length"
    hint = "let stays stretch (`may stretch`), or leave something out (`may drop`)"
    if by < 0:
        hint = "let stays stretch (`may stretch`), or make the final rest longer"
    return found("length-missed", words, length.span, hint)


def _spoken_ms(ms: int) -> str:
    minutes, seconds = divmod(round(ms / 1000), 60)
    return f"{minutes} min {seconds} s" if minutes else f"{ms / 1000:g} s"
