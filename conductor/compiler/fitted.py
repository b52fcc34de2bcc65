"""Fitted: each part to its own length where it gives one, then the class to the minute."""

from conductor.compiler.rules import found
from conductor.findings import Finding
from conductor.plan.model import Amount, Plan
from conductor.score.model import Part, Score
from conductor.timing.holds import resized, retimed
from conductor.timing.refit import refit
from conductor.values import replace


def fitted(score: Score, plan: Plan) -> tuple[Score, tuple[Finding, ...]]:
    """Meet every length asked for; what cannot be met is said with how much is missing."""
    findings: list[Finding] = []
    for number, part in enumerate(plan.parts):
        if part.length is not None and score.parts[number].first < score.parts[number].last:
            score = _part(score, number, part.length, findings)
    if plan.length is not None and score.meta.length:
        met = refit(score, 0, score.meta.length, 0)
        score = met.score
        if met.misses_by_ms:
            findings.append(_missed("the class", met.misses_by_ms, plan.length))
    return score, tuple(findings)


def _part(score: Score, number: int, length: Amount, findings: list[Finding]) -> Score:
    """Fit one part alone; its stays keep what they got when the class is fitted."""
    part = score.parts[number]
    moments = retimed(score.moments[part.first : part.last])
    names = {moment.hold for moment in moments if moment.hold}
    holds = {name: score.holds[name] for name in names}
    alone = replace(score, moments=moments, parts=(Part(part.name, 0, len(moments)),), holds=holds)
    met = refit(alone, 0, length.ms, 0)
    if met.misses_by_ms:
        findings.append(_missed(f"the part {part.name}", met.misses_by_ms, length))
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
