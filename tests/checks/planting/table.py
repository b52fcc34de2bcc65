"""Planted faults against what the check finds, counted."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from random import Random

from conductor.checks.check import CHECKS
from conductor.cli.rulebook import RULES
from conductor.findings import Finding, Weight
from conductor.spans import Span
from tests.checks.planting.planters import PLANTERS
from tests.checks.planting.sound import Field, made, shipped
from tests.checks.planting.sowing import Planted, Planter

BARRED = ("sides", "ways", "breath", "words", "time")
"""The families in which every fault must be found and nothing else said."""

FAMILY = {rule.name: rule.family for rule in RULES} | {
    check.rule.name: check.rule.family for check in CHECKS
}


@dataclass
class Row:
    """One kind of fault: how often it was planted and found, and what else was said."""

    planter: Planter
    planted: int = 0
    found: int = 0
    missed: list[Planted] = field(default_factory=list)
    false: list[tuple[Planted, Finding]] = field(default_factory=list)


def barred(findings: Iterable[Finding]) -> list[Finding]:
    """The findings of those families."""
    return [one for one in findings if FAMILY[one.rule] in BARRED]


def _kind(finding: Finding, lines: list[str]) -> tuple[str, str]:
    """A finding by rule and by the text of its line, which stays when lines move."""
    span: Span | None = finding.span
    return finding.rule, lines[span.line - 1].strip() if span else ""


def sown(row: Row, sound: Field, chance: Random) -> None:
    """Plant one fault, if this plan has a place for it, and look what the check says."""
    planted = row.planter.plant(sound, chance)
    if planted is None:
        return
    row.planted += 1
    after = Field(planted.text)
    known = {_kind(one, sound.lines) for one in sound.findings}
    new = [one for one in after.findings if _kind(one, after.lines) not in known]
    here = [one for one in new if one.span is None or one.span.line in planted.lines]
    hits = [one for one in here if FAMILY[one.rule] in row.planter.found_by]
    if hits:
        row.found += 1
    else:
        row.missed.append(planted)
    row.false += [(planted, one) for one in barred(new) if one not in here]


def _custom(sound: Field, finding: Finding) -> bool:
    """Whether it is a remark on a plan that a person wrote: a custom may be remarked on."""
    return finding.weight is Weight.REMARK and "title: Made at Random" not in sound.text


def fields(seed: int, many: int) -> Iterator[Field]:
    """The shipped plans, then as many made at random."""
    yield from (Field(text) for text in shipped())
    yield from (Field(made(Random(seed + number))) for number in range(many))  # noqa: S311


def table(seed: int, many: int, times: int = 1) -> tuple[list[Row], int, list[tuple[str, Finding]]]:
    """Plant every kind in every plan `times` times: rows, clean controls, what was said of them."""
    rows = [Row(planter) for planter in PLANTERS]
    controls, alarms = 0, []
    chance = Random(seed)  # noqa: S311 -- a seed, so that it can be done again
    for sound in fields(seed, many):
        controls += 1
        alarms += [(sound.text, one) for one in barred(sound.findings) if not _custom(sound, one)]
        for row in rows:
            for _ in range(times):
                sown(row, sound, chance)
    return rows, controls, alarms


def shown(rows: list[Row], controls: int, alarms: list[tuple[str, Finding]]) -> str:
    """The table as text."""
    lines = [f"{'family':<8}{'fault':<58}{'planted':>8}{'found':>7}{'false':>7}"]
    lines += [
        f"{row.planter.family:<8}{row.planter.sentence:<58}{row.planted:>8}{row.found:>7}"
        f"{len(row.false):>7}"
        for row in rows
    ]
    for family in (*BARRED, "load", "care"):
        some = [row for row in rows if row.planter.family == family]
        planted, found = sum(row.planted for row in some), sum(row.found for row in some)
        share = 100 * found / planted if planted else 0
        false = sum(len(row.false) for row in some)
        lines.append(f"{family:<66}{planted:>8}{found:>7}{false:>7}   {share:.1f} % found")
    lines.append(f"clean controls: {controls}, false alarms in them: {len(alarms)}")
    return "\n".join(lines)
