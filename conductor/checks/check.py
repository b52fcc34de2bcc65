"""The check as a whole: every rule in order, less those that the plan switches off."""

from collections.abc import Iterable, Iterator, Mapping

from conductor.checks.breath import BREATH
from conductor.checks.care import CARE
from conductor.checks.case import Case, Check
from conductor.checks.limits import LIMITS, limits
from conductor.checks.load import LOAD
from conductor.checks.settings import HEARD, SWITCHED_OFF, heard, switched_off
from conductor.checks.sides import SIDES
from conductor.checks.sight import SIGHT
from conductor.checks.time import TIME
from conductor.checks.ways import WAYS
from conductor.checks.words import WORDS
from conductor.findings import Finding, Weight
from conductor.score.model import Score
from conductor.shapes.model import Shape
from conductor.spans import Span
from conductor.timing.model import Cue

OFF = "check.off."
_FAMILIES: tuple[Check, ...] = (
    *SIDES,
    *WAYS,
    *BREATH,
    *LOAD,
    *WORDS,
    *SIGHT,
    *TIME,
    *CARE,
)
_KNOWN = frozenset(check.rule.name for check in _FAMILIES)


def _off(case: Case) -> Iterator[Finding]:
    return switched_off(case, OFF)


def _heard(case: Case) -> Iterator[Finding]:
    return heard(case, OFF, _KNOWN | case.elsewhere, [limit.name for limit in LIMITS])


_SETTINGS = (Check(SWITCHED_OFF, _off), Check(HEARD, _heard))
CHECKS: tuple[Check, ...] = (*_FAMILIES, *_SETTINGS)


def check(
    score: Score,
    cues: tuple[Cue, ...],
    shapes: Mapping[str, Shape],
    places: Mapping[str, Span] | None = None,
    elsewhere: Iterable[str] = (),
) -> tuple[Finding, ...]:
    """Say what would go wrong; cues decide about words, shapes about the body.

    `places` tells where the plan's settings stand, by their flat names; `elsewhere` names rules of
    other rooms, which a plan may switch off too (`allowed` leaves out what they found).
    """
    options = score.meta.options
    case = Case(score, cues, shapes, limits(options), places or {}, frozenset(elsewhere))
    off = switched(options)
    found = [each for one in _FAMILIES if one.rule.name not in off for each in one(case)]
    return (*found, *(each for one in _SETTINGS for each in one.find(case)))


def switched(options: Mapping[str, str]) -> frozenset[str]:
    """Names of the rules that a plan switches off."""
    return frozenset(name.removeprefix(OFF) for name in options if name.startswith(OFF))


def allowed(findings: Iterable[Finding], options: Mapping[str, str]) -> tuple[Finding, ...]:
    """Leave out what rules found that the plan switches off; an error stays, it cannot be led."""
    off = switched(options)
    return tuple(one for one in findings if one.rule not in off or one.weight is Weight.ERROR)
