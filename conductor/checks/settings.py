"""What a plan says to the check itself: rules switched off, thresholds of its own."""

from collections.abc import Collection, Iterator

from conductor.checks.case import Case, finding
from conductor.checks.limits.model import number
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.spans import Span

FAMILY = "settings"
_PREFIX = "check."

SWITCHED_OFF = Rule(
    "rule-off",
    Weight.REMARK,
    FAMILY,
    "A rule that the plan switches off is named, with the reason given.",
    "Whoever reads the plan later should know what was not looked at, and why.",
    bad="check: {off: {floor-trips: we practise getting up}}\nsteps:\n  - come to: mountain",
    good="- come to: mountain",
    source="this project's plan language",
)
HEARD = Rule(
    "unknown-setting",
    Weight.WARNING,
    FAMILY,
    "Under `check` stand rules and thresholds that there are, and thresholds are numbers.",
    "A misspelt one would change nothing, without a word.",
    bad="check: {longest haf breath: 9}\nsteps:\n  - come to: mountain",
    good="check: {longest half breath: 9}\nsteps:\n  - come to: mountain",
    source="this project's plan language",
)


def switched_off(case: Case, off: str) -> Iterator[Finding]:
    """Report each rule that is switched off, with its reason."""
    for name, reason in case.score.meta.options.items():
        if name.startswith(off):
            words = f"rule {name.removeprefix(off)} is switched off: {reason}"
            yield finding(SWITCHED_OFF, words, _place(case, name))


def heard(
    case: Case, off: str, rules: Collection[str], limits: Collection[str]
) -> Iterator[Finding]:
    """Report each rule and threshold that nobody knows, with the nearest one that there is."""
    for name, written in case.score.meta.options.items():
        if name.startswith(off):
            rule = name.removeprefix(off)
            if rule not in rules:
                yield _unknown(case, name, f"there is no rule {rule}", rule, rules)
        elif name.startswith(_PREFIX):
            limit = name.removeprefix(_PREFIX)
            if limit not in limits:
                yield _unknown(case, name, f"there is no threshold “{limit}”", limit, limits)
            elif number(written) is None:
                words = f"“{written}” is no number, so {limit} stays as it is"
                yield finding(HEARD, words, _place(case, name), f"{limit}: 8")


def _unknown(case: Case, name: str, words: str, given: str, known: Collection[str]) -> Finding:
    from conductor.plan.keys import nearest  # noqa: PLC0415 -- loaded on a miss only

    near = nearest(given, known)
    hint = f"write {near}" if near else "`conductor rules` lists them"
    return finding(HEARD, words, _place(case, name), hint)


def _place(case: Case, name: str) -> Span:
    """Where a setting stands, or the top of the plan where nobody told."""
    return case.places.get(name) or Span(case.score.meta.source, 1, 1)
