"""Load: deep backbends are undone, gently, and the strongest stretch stands where it belongs."""

from collections.abc import Iterator

from conductor.checks.case import Case, Check, finding
from conductor.checks.examples import ARRIVE, LONG_WORK, REST, WORK
from conductor.checks.load_warm import STRONG, deep_backbend
from conductor.checks.visits import Visit, name_of, named, spoken, visits
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.shapes.model import Shape
from conductor.stance import Base, Trunk

HANDBOOKS = "handbooks on sequencing (from memory): a deep backbend, then neutral, knees to chest, "
DEEP = 2  # of the catalogue's scale: a fold that rounds the spine under load
_CROW = (
    "- come to: downward dog\n- in: plank\n- out: garland\n- in: same\n- out: crow{here}\n"
    "- free: 20 s\n  to: child's pose\n"
)

UNDONE = Rule(
    "backbend-not-undone",
    Weight.WARNING,
    "load",
    "A deep backbend is followed by what undoes it.",
    "The lower back keeps what it was bent to until something small lets it go.",
    bad="- come to: high kneel\n- in: half camel\n- out: high kneel\n- in: camel  # here\n"
    "- stay: 3 breaths\n- out: high kneel\n- rounds: 4\n  steps:\n    - in: same\n"
    "    - out: same",
    good="- come to: high kneel\n- in: half camel\n- out: high kneel\n- in: camel\n"
    "- stay: 3 breaths\n- out: child's pose\n- stay: 3 breaths",
    source=HANDBOOKS + "a gentle twist",
)
FOLD = Rule(
    "fold-after-backbend",
    Weight.WARNING,
    "load",
    "A deep fold does not follow a deep backbend at once.",
    "Neutral first, then small rounding, then folds. Some teachers alternate on purpose "
    "(viṣama-nyāsa): those switch this rule off and say so.",
    bad="- come to: constructive rest\n- in: bridge\n- in: wheel\n- free: 4 s  # here\n"
    "  to: seated fold",
    good="- come to: constructive rest\n- in: bridge\n- in: wheel\n- out: constructive rest\n"
    "- in: same\n- out: knees to chest\n- stay: 3 breaths\n- free: 20 s\n  to: seated fold",
    source=HANDBOOKS + "then folds; dissent seen in teaching that follows Light on Yoga",
)
PEAK = Rule(
    "peak-place",
    Weight.REMARK,
    "load",
    "The strongest stretch lies after the first third and before the last part of a class.",
    "Before it the way up is too short, after it the way down.",
    bad=(ARRIVE + _CROW.format(here="  # here") + LONG_WORK + REST),
    good=(ARRIVE + WORK + _CROW.format(here="") + WORK + REST),
    source="Stephens, Yoga Sequencing (2012): an arc of five parts (parts 3 to 5 from memory)",
)


def deep_fold(shape: Shape) -> bool:
    """Whether the spine is rounded far, as in seated and standing folds."""
    return shape.asks.get("spine flexion", 0) >= DEEP and shape.family in {"fold", "inversion"}


def _undoes(backbend: Shape, shape: Shape) -> bool:
    """Whether a shape lets go of a backbend: its own counter, rest, or the spine the other way.

    In a flow the dogs do it.
    """
    if shape.id in backbend.undoes or shape.place.trunk is Trunk.RESTING:
        return True
    if deep_backbend(shape):
        return False
    gentle = shape.asks.get("spine flexion", 0) or shape.asks.get("spine rotation", 0)
    return bool(gentle) or (
        shape.place.trunk is Trunk.INVERTED and shape.place.base is Base.HANDS_FEET
    )


def _not_undone(case: Case) -> Iterator[Finding]:
    row = visits(case)
    for index, visit in enumerate(row):
        if not deep_backbend(visit.shape):
            continue
        after, whole = _after(row, index, int(case.limits["undo within movements"]))
        if any(_undoes(visit.shape, one.shape) or deep_backbend(one.shape) for one in after):
            continue
        if not whole and not case.is_class:
            continue
        undoes = " or ".join(name_of(case, name) for name in visit.shape.undoes)
        words = f"nothing undoes {visit.shape.name} in the {len(after)} movements after it"
        if not after:
            words = f"the class ends on {visit.shape.name} with nothing to undo it"
        hint = f"lead {undoes} after it" if undoes else "lead something gentle after it"
        yield finding(UNDONE, words, visit.origin, hint)


def _after(row: tuple[Visit, ...], index: int, many: int) -> tuple[tuple[Visit, ...], bool]:
    """The visits of the next movements, and whether the plan goes on that long."""
    after: list[Visit] = []
    moved = 0
    for visit in row[index + 1 :]:
        if moved >= many:
            return tuple(after), True
        after.append(visit)
        moved += visit.last - visit.first if not visit.stays else 1
    return tuple(after), moved >= many


def _folds(case: Case) -> Iterator[Finding]:
    pause = case.limits["fold after seconds"]
    backbend: Visit | None = None
    for visit in visits(case):
        if deep_backbend(visit.shape):
            backbend = visit
        elif backbend and (visit.start - backbend.end) / 1000 >= pause:
            backbend = None
        elif backbend and deep_fold(visit.shape):
            words = f"{visit.shape.name} follows {backbend.shape.name} at once"
            also = ((backbend.origin, f"{backbend.shape.name} is here"),)
            undoes = " or ".join(name_of(case, name) for name in backbend.shape.undoes)
            yield finding(FOLD, words, visit.origin, f"lead {undoes or 'rest'} between", also)
            backbend = None


def _peaks(case: Case) -> Iterator[Finding]:
    if not case.is_class:
        return
    strong = [one for one in visits(case) if one.shape.level >= STRONG and one.shape.loads]
    strong = [one for one in strong if one.shape.place.base is not Base.SHOULDERS]
    if not strong:
        return
    length = case.score.length
    low, high = case.limits["peak from share"], case.limits["peak until share"]
    last, first = strong[-1], strong[0]
    if 100 * last.end / length < low:
        share = round(100 * last.end / length)
        words = f"the strongest shapes are over after {share} % of the class"
        hint = f"lead {named([one.shape.name for one in strong])} later"
        yield finding(PEAK, words, first.origin, hint)
    elif 100 * first.start / length > high:
        left = spoken((length - first.start) / 1000)
        words = f"the strongest shapes come {left} before the end"
        hint = f"lead {named([one.shape.name for one in strong])} earlier"
        yield finding(PEAK, words, first.origin, hint)


UNDO: tuple[Check, ...] = (
    Check(UNDONE, _not_undone),
    Check(FOLD, _folds),
    Check(PEAK, _peaks),
)
