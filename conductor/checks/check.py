"""The check as a whole: every rule in order, less those that the plan switches off."""

from collections.abc import Mapping

from conductor.checks.breath import BREATH
from conductor.checks.care import CARE
from conductor.checks.case import Case, Check
from conductor.checks.limits import limits
from conductor.checks.load import LOAD
from conductor.checks.sides import SIDES
from conductor.checks.sight import SIGHT
from conductor.checks.time import TIME
from conductor.checks.ways import WAYS
from conductor.checks.words import WORDS
from conductor.findings import Finding
from conductor.score.model import Score
from conductor.shapes.model import Shape
from conductor.timing.model import Cue

CHECKS: tuple[Check, ...] = (
    *SIDES,
    *WAYS,
    *BREATH,
    *LOAD,
    *WORDS,
    *SIGHT,
    *TIME,
    *CARE,
)
OFF = "check.off."


def check(score: Score, cues: tuple[Cue, ...], shapes: Mapping[str, Shape]) -> tuple[Finding, ...]:
    """Say what would go wrong; cues decide about words, shapes about the body."""
    options = score.meta.options
    case = Case(score, cues, shapes, limits(options))
    off = {name.removeprefix(OFF) for name in options if name.startswith(OFF)}
    return tuple(found for one in CHECKS if one.rule.name not in off for found in one(case))
