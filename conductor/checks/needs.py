"""What shapes need before and after them and have not got: preparation, counter-shapes, a pause.

Custom or not, whoever leaves something out of a class must leave none of it bare.
"""

from collections.abc import Mapping

from conductor.checks.case import Case, Check
from conductor.checks.limits import limits
from conductor.checks.load_undo import FOLD, UNDO, UNDONE
from conductor.checks.load_warm import COLD, INVERSION, WARM, cold_visits
from conductor.score.model import Score
from conductor.shapes.model import Shape
from conductor.spans import Span

_BARE = frozenset({INVERSION.name, UNDONE.name, FOLD.name})

Bare = tuple[str, str, Span | None]
"""A rule, the shape or words it is about, and the place."""


def bare(score: Score, shapes: Mapping[str, Shape], off: frozenset[str]) -> frozenset[Bare]:
    """Every shape of a score that nothing prepares or undoes, save by rules that are `off`."""
    case = Case(score, (), shapes, limits(score.meta.options))
    found: set[Bare] = set()
    if COLD.name not in off:
        found.update(
            (COLD.name, f"{visit.shape.id}: {', '.join(missing)}", visit.origin)
            for visit, missing, _ in cold_visits(case)
        )
    for one in (*WARM, *UNDO):
        if one.rule.name in _BARE - off:
            found.update(_found(one, case))
    return frozenset(found)


def _found(one: Check, case: Case) -> set[Bare]:
    return {(finding.rule, "", finding.span) for finding in one.find(case)}
