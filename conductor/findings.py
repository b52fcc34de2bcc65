"""Findings: what there is to say about a plan, as values with a place and a way on."""

from collections.abc import Iterable
from enum import StrEnum

from conductor.spans import Span
from conductor.values import Struct


class Weight(StrEnum):
    """How much a finding matters: cannot be led, would go wrong in class, custom or taste."""

    ERROR = "error"
    WARNING = "warning"
    REMARK = "remark"


class Finding(Struct, frozen=True):
    """One thing to say: the rule's name, its place, the words, and what can be typed to mend it.

    `also` names other places that belong to the same fault; `times` says how often it occurs.
    """

    rule: str
    weight: Weight
    words: str
    span: Span | None
    hint: str = ""
    also: tuple[tuple[Span, str], ...] = ()
    times: int = 1


def worst(findings: Iterable[Finding]) -> Weight | None:
    """The heaviest weight present, or None when there is nothing to say."""
    present = {finding.weight for finding in findings}
    return next((weight for weight in Weight if weight in present), None)


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Sort by place (those with none last), then by weight, so a file reads top to bottom."""
    order = list(Weight)

    def key(finding: Finding) -> tuple[int, Span, int, str]:
        return (
            finding.span is None,
            finding.span or Span("", 0, 0),
            order.index(finding.weight),
            finding.rule,
        )

    return tuple(sorted(findings, key=key))
