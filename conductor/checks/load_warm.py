"""Load, first half: what a shape asks of the body is prepared before it is asked for."""

from collections import Counter
from collections.abc import Iterator

from conductor.checks.case import Case, Check, finding
from conductor.checks.examples import ARRIVE, REST, WORK
from conductor.checks.visits import Visit, name_of, named, spoken, visits
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.shapes.model import Shape
from conductor.stance import Base

STRONG = 3  # of the catalogue's own scales, level and asks
WARMED = frozenset(
    "hamstrings,hip flexors,inner thighs,outer hips,quads,chest,neck,shoulders,wrists,"
    "spine flexion,spine extension,spine lateral,spine rotation".split(",")
)
"""Areas that must be warm before much is asked of them; strength and balance need not be."""

UPSIDE_DOWN = frozenset({Base.HANDS, Base.FOREARMS, Base.HEAD, Base.SHOULDERS})
_LEAD_IN = frozenset({"downward-dog", "standing-fold", "seated-fold"})

COLD = Rule(
    "cold-shape",
    Weight.WARNING,
    "load",
    "A strong shape comes after shapes that prepare what it asks for.",
    "A strong shape entered cold is where strains happen. Of a piece it is only remarked, since "
    "the class around it may prepare it, and so it is of middling shapes.",
    bad=(
        "- come to: thunderbolt\n- stay: 3 breaths\n- in: camel  # here\n- out: child's pose\n"
        + REST
    ),
    good=(
        "- come to: crocodile\n- stay: 3 breaths\n- in: cobra\n- out: crocodile\n"
        "- in: all fours\n- out: thunderbolt\n- in: camel\n- out: child's pose\n" + REST
    ),
    source="Stephens, Yoga Sequencing (2012): from simple to complex, a pathway to the peak",
)
INVERSION = Rule(
    "early-inversion",
    Weight.WARNING,
    "load",
    "Headstand, shoulderstand and the like do not begin a class.",
    "Light on Yoga lets folds and the downward dog come first, above all for those whose blood "
    "pressure is high.",
    bad=(
        "- come to: constructive rest\n- stay: 2 breaths\n- in: bridge\n- stay: 3 breaths\n"
        "- out: constructive rest\n- in: shoulderstand  # here\n- stay: 5 breaths\n" + REST
    ),
    good=(
        ARRIVE + WORK + "- in: arms overhead\n- out: standing fold\n- free: 20 s\n"
        "  to: constructive rest\n- in: bridge\n- out: constructive rest\n- in: shoulderstand\n"
        "- stay: 5 breaths\n" + REST
    ),
    source="Light on Yoga p.59, items 18-19",
)
SUDDEN = Rule(
    "sudden-load",
    Weight.REMARK,
    "load",
    "A strong shape does not follow minutes of ease at once.",
    "A body that has cooled is not ready because it was warm a while ago.",
    bad="- come to: downward dog\n- in: plank\n- out: child's pose\n- in: same\n"
    "- out: garland\n- in: same\n- out: child's pose\n- stay: 3 min\n- in: same\n"
    "- out: crow  # here",
    good="- come to: downward dog\n- in: plank\n- out: child's pose\n- stay: 3 min\n"
    "- in: same\n- out: garland\n- in: same\n- out: crow",
)


def strained(shape: Shape) -> tuple[str, ...]:
    """The areas a strong shape asks so much of that they must be warm; () when none."""
    if shape.level < 2:
        return ()
    return tuple(area for area, much in shape.asks.items() if much >= STRONG and area in WARMED)


def deep_backbend(shape: Shape) -> bool:
    """Whether the spine is bent back as far as the catalogue's scale goes."""
    return shape.asks.get("spine extension", 0) >= STRONG


def is_inversion(shape: Shape) -> bool:
    """Whether the whole body is upside down, carried by hands, forearms, head or shoulders."""
    return shape.family == "inversion" and shape.place.base in UPSIDE_DOWN


def much_at_stake(shape: Shape) -> bool:
    """Whether a shape is strong as a whole, or bends the back as far as can be."""
    return shape.level >= STRONG or deep_backbend(shape)


def _unprepared(shape: Shape, seen: set[str], asked: Counter[str], enough: float) -> list[str]:
    """The areas nothing has prepared; a shape of the catalogue's own preparation does for all.

    Before a middling shape anything that asked the least of an area will do.
    """
    if seen & {*shape.prepares, shape.id}:
        return []
    enough = enough if much_at_stake(shape) else 1
    return [area for area in strained(shape) if asked[area] < enough]


def cold_visits(case: Case) -> Iterator[tuple[Visit, list[str], set[str]]]:
    """Every first visit to a strong shape with areas unprepared, and the shapes seen before."""
    seen: set[str] = set()
    asked: Counter[str] = Counter()
    for visit in visits(case):
        for shape in (*visit.passed, visit.shape):
            if shape is visit.shape:
                missing = _unprepared(visit.shape, seen, asked, case.limits["prepared"])
                if missing:
                    yield visit, missing, set(seen)
            if shape.id not in seen:
                seen.add(shape.id)
                asked.update(shape.asks)


def _cold_shapes(case: Case) -> Iterator[Finding]:
    early = {visit.first for visit, _ in _early(case)}
    light: list[tuple[Visit, list[str]]] = []
    for visit, missing, _ in cold_visits(case):
        if visit.first in early:
            continue
        if not much_at_stake(visit.shape) or not case.is_class:
            light.append((visit, missing))
            continue
        words = f"{visit.shape.name} asks much of {named(missing)}, which nothing has prepared"
        yield finding(COLD, words, visit.origin, _before(case, visit.shape))
    if light:
        visit, missing = light[0]
        shapes = named([one.shape.name for one, _ in light])
        verb = "ask" if len(light) > 1 else "asks"
        areas = named([area for _, some in light for area in some])
        here = "in this plan" if case.is_class else "in this piece"
        words = f"{shapes} {verb} much of {areas}, and nothing {here} prepares that first"
        hint = _before(case, visit.shape)
        yield finding(COLD, words, visit.origin, hint, weight=Weight.REMARK)


def _before(case: Case, shape: Shape) -> str:
    names = [name_of(case, one) for one in shape.prepares]
    return f"lead {' or '.join(names[:3])} before it" if names else "prepare it earlier"


def _early(case: Case) -> Iterator[tuple[Visit, str]]:
    """Inversions at the start of a class, with what makes them early."""
    if not case.is_class:
        return
    share = case.limits["inversion after share"] / 100 * case.score.length / 1000
    soon = min(case.limits["inversion after seconds"], share)
    seen: set[str] = set()
    for visit in visits(case):
        if is_inversion(visit.shape):
            if visit.start / 1000 < soon:
                yield visit, f"{spoken(visit.start / 1000)} into the class"
            elif not seen & _LEAD_IN:
                yield visit, "before any fold or downward dog"
        seen |= {visit.shape.id, *(shape.id for shape in visit.passed)}


def _early_inversions(case: Case) -> Iterator[Finding]:
    told: set[str] = set()
    for visit, why in _early(case):
        if visit.shape.id not in told:
            told.add(visit.shape.id)
            hint = "lead standing fold, seated fold or downward dog first, and this later"
            yield finding(INVERSION, f"{visit.shape.name} comes {why}", visit.origin, hint)


def _sudden(case: Case) -> Iterator[Finding]:
    found = list(_sudden_visits(case))
    if found:
        visit, ease = found[0]
        shapes = named([one.shape.name for one, _ in found])
        words = f"{shapes} after {spoken(ease)} of nothing but easy shapes"
        yield finding(SUDDEN, words, visit.origin, _before(case, visit.shape))


def _sudden_visits(case: Case) -> Iterator[tuple[Visit, float]]:
    """First visits to strong bearing shapes after a long row of easy ones, warm though it was."""
    cold = {visit.first for visit, _, _ in cold_visits(case)} | {
        one.first for one, _ in _early(case)
    }
    since, seen, easy = 0, set[str](), set[str]()
    for visit in visits(case):
        shape = visit.shape
        ease = (visit.start - since) / 1000
        if (
            _bears(shape)
            and shape.id not in seen
            and visit.first not in cold
            and ease >= case.limits["cooled after seconds"]
            and not _led_in(shape, visit, easy, case)
        ):
            yield visit, ease
        if shape.level >= 2 or shape.loads:
            since, easy = visit.end, set()
        easy.add(shape.id)
        seen.add(shape.id)


def _led_in(shape: Shape, visit: Visit, easy: set[str], case: Case) -> bool:
    """Whether easy shapes on the way were of its own preparation."""
    recent = {
        one.shape.id
        for one in visits(case)
        if one.last <= visit.first
        and (visit.start - one.end) / 1000 < case.limits["cooled after seconds"]
    }
    return bool(recent & easy & set(shape.prepares))


def _bears(shape: Shape) -> bool:
    return shape.level >= STRONG and shape.loads and shape.place.base is not Base.SHOULDERS


WARM: tuple[Check, ...] = (
    Check(COLD, _cold_shapes),
    Check(INVERSION, _early_inversions),
    Check(SUDDEN, _sudden),
)
