"""Care for people: cautions that concern those the class is for, and a gentler way for each."""

from collections.abc import Iterable, Iterator, Mapping

from conductor.checks.care_words import BEGINNERS, NOT_FOR_BEGINNERS, applies, codes, denied
from conductor.checks.case import Case, Check, finding
from conductor.checks.visits import name_of, named
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.score.model import Moment, Variant
from conductor.shapes.cautions import table
from conductor.shapes.model import Shape
from conductor.spans import Span
from conductor.values import Struct, field

STRONG = 3
EASY = ("eas", "gentl")  # how the name of a gentler way begins (common practice)
ALSO = 6  # places named beside the first
ADVICE = "ask for medical advice, or somebody trained for it; this check replaces neither"

GROUP = Rule(
    "caution-for-group",
    Weight.WARNING,
    "care",
    "Shapes with a caution for those the class is for are known, and have another way.",
    "The cautions are the usual ones of handbooks and studies. They are no list of what may be "
    "done: that is for medical and licensed advice to say. Where every such shape has a gentler "
    "or another way in the plan, this is a remark.",
    bad="for: prenatal\nsteps:\n  - come to: mountain\n  - in: arms overhead\n"
    "  - out: chair twist  # here\n    side: right\n  - in: mountain",
    good="for: prenatal\nsteps:\n  - come to: easy seat\n  - in: seated arms overhead\n"
    "  - out: easy seat",
    source="pregnancy: Light on Yoga p.60 and stricter published course text; glaucoma: Jasien et "
    "al., PLoS ONE 2015;10:e0144505; Light on Yoga p.59, items 18-21; beginners: Cramer et al., "
    "PLoS ONE 2013;8:e75515; `conductor shape NAME` names each",
)
GENTLER = Rule(
    "no-gentler-way",
    Weight.WARNING,
    "care",
    "Where a shape is strong, the plan has a gentler or another way.",
    "Somebody in the room needs it, and inventing it in the breath of the cue is too late.",
    bad="- come to: downward dog\n- in: plank\n- out: garland\n- in: same\n- out: crow  # here",
    good="- come to: downward dog\n- in: plank\n- out: garland\n- in: same\n- out: crow\n"
    "  ease: toes stay on the floor",
)


class _Use(Struct):
    """A shape as the plan uses it: where first, and whether every use has another way."""

    shape: Shape
    span: Span
    ways: bool = True


class _Uses(Struct):
    """All shapes used, by id, passed-through and cycled ones included."""

    shapes: Mapping[str, Shape]
    by_id: dict[str, _Use] = field(default_factory=dict)

    def add(self, shape: Shape, moment: Moment) -> None:
        """Note one use of a shape."""
        use = self.by_id.setdefault(shape.id, _Use(shape, moment.origin))
        if moment.arriving and not any(self.gentler(way, shape) for way in moment.variants):
            use.ways = False

    def gentler(self, way: Variant, shape: Shape) -> bool:
        """Whether another way asks for less: by its fixed name, its own name or its shape."""
        if way.level in {"ease", "or"} or way.level.startswith(EASY):
            return True
        other = self.shapes.get(way.shape)
        return other is not None and other.level < shape.level


def _uses(case: Case) -> Iterable[_Use]:
    uses = _Uses(case.shapes)
    for moment in case.score.moments:
        for name in dict.fromkeys((moment.shape, *moment.through, *moment.cycle)):
            if name in case.shapes:
                uses.add(case.shapes[name], moment)
    return uses.by_id.values()


def _groups(case: Case) -> Iterator[Finding]:
    text = case.score.meta.for_
    if not text:
        return
    found = codes(text)
    uses = tuple(_uses(case)) if found or BEGINNERS.search(text) else ()
    for code in found:
        hit = [use for use in uses if applies(code, use.shape)]
        caution = table().get(code)
        if hit and caution:
            yield _told(hit, caution.words, f"{caution.more} ({caution.source})")
    begin = BEGINNERS.search(text)
    if begin and not denied(text, begin.start()):
        hit = [use for use in uses if use.shape.id in NOT_FOR_BEGINNERS]
        if hit:
            source = "Cramer et al., PLoS ONE 2013;8:e75515"
            yield _told(hit, "beginners", f"Beginners leave headstand and lotus out ({source})")


def _told(hit: list[_Use], who: str, more: str) -> Finding:
    names = named([use.shape.name for use in hit], ALSO)
    verb = "carries" if len(hit) == 1 else "carry"
    words = f"the class is for people whom a caution concerns ({who}): {names} {verb} it"
    also = tuple((use.span, use.shape.name) for use in hit[1 : 1 + ALSO])
    without = [use for use in hit if not use.ways]
    weight = Weight.WARNING if without else Weight.REMARK
    first = (without or hit)[0]
    hint = f"{more.rstrip('.')}. Give an `ease` or `or`, or another shape; {ADVICE}"
    return finding(GROUP, words, first.span, hint, also, weight=weight)


def _gentler(case: Case) -> Iterator[Finding]:
    strong = [use for use in _uses(case) if use.shape.level >= STRONG]
    bare = [use for use in strong if not use.ways]
    if not bare:
        return
    names = named([use.shape.name for use in bare])
    words = f"{names} has no gentler way" if len(bare) == 1 else f"{names} have no gentler way"
    first = bare[0]
    gentler = name_of(case, first.shape.gentler) if first.shape.gentler else "a smaller movement"
    also = tuple((use.span, use.shape.name) for use in bare[1 : 1 + ALSO])
    none = len(bare) == len(strong)
    weight = Weight.WARNING if none and case.is_class else Weight.REMARK
    hint = f"ease: {gentler}, on that step"
    yield finding(GENTLER, words, first.span, hint, also, weight=weight)


WAYS: tuple[Check, ...] = (Check(GROUP, _groups), Check(GENTLER, _gentler))
