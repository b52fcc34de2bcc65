"""The compiler: text in, score and findings out; the passes stand in order, each in its module."""

from collections.abc import Callable, Iterator, Mapping

from conductor.compiler.courses import Course, led, varies
from conductor.compiler.fitted import fitted, gaps, left_out
from conductor.compiler.led import beside
from conductor.compiler.mirror import mirror
from conductor.compiler.nearest import Nearest
from conductor.compiler.options import accented, checked
from conductor.compiler.place import place
from conductor.compiler.resolve import Names, with_own
from conductor.compiler.rules import found
from conductor.compiler.say import say
from conductor.compiler.time import Timed, time
from conductor.compiler.unfold import unfold
from conductor.compiler.variants import vary
from conductor.compiler.word import word
from conductor.findings import Finding, Weight, in_order, worst
from conductor.plan.model import Plan
from conductor.plan.reader import read
from conductor.score.model import Hold, Meta, Moment, Part, Score
from conductor.shapes.catalogue import Catalogue
from conductor.shapes.model import Shape
from conductor.sides import Side
from conductor.spans import Span
from conductor.stance import Trunk
from conductor.timing.holds import without_empty_parts
from conductor.timing.infos import info
from conductor.timing.leaving import leads_worse
from conductor.timing.refit import Veto, no_veto
from conductor.values import Struct, field, replace

FEW = 8  # passages that are tried one by one when they cannot go together
REST_MS = 60_000  # a stay in a shape of rest this long, near the end, is the final rest


def compile(  # noqa: A001 -- the word for it; nobody here needs the builtin
    text: str, name: str, catalogue: Catalogue
) -> tuple[Score | None, tuple[Finding, ...]]:
    """Compile a plan; the score is None when it cannot be led, and the findings say why."""
    plan, findings = read(text, name)
    if plan is None:
        return None, in_order(findings)
    done = compiled(plan, catalogue)
    return done.score, in_order((*findings, *done.findings))


class Compiled(Struct, frozen=True):
    """What the passes made of a plan; `shapes` holds every shape met, in full, by id."""

    score: Score | None
    findings: tuple[Finding, ...]
    shapes: Mapping[str, Shape] = field(default_factory=dict)


Watch = Callable[[Mapping[str, Shape]], Veto]
"""From the shapes of a plan, what there is to say against leaving something out of its class."""


def unwatched(_shapes: Mapping[str, Shape]) -> Veto:
    """Nothing is said against it."""
    return no_veto


def compiled(plan: Plan, catalogue: Catalogue, watch: Watch = unwatched) -> Compiled:
    """Take a plan that was read through all the passes, once more for each choice of what goes.

    What `watch` has something against is not left out. What stays may stretch to is the plan's own
    word, and the check will tell of it.
    """
    known, findings = with_own(plan, catalogue)
    findings += checked(plan)
    made = passes(plan, known, frozenset())
    findings += made.findings
    if made.score is None or worst(findings) is Weight.ERROR:
        return Compiled(None, findings)
    findings += gaps(made.score, made.drops)
    veto = watch(made.shapes)
    plan, made, varied = _varied(plan, known, made, veto)
    made, more = _shortened(plan, known, made, veto)
    more += varied
    told = {(one.rule, one.span) for one in findings}
    findings += tuple(one for one in more if (one.rule, one.span) not in told)
    if made.score is None:
        return Compiled(None, findings)
    score, missed = fitted(made.score, plan)
    return Compiled(without_empty_parts(score), findings + missed, made.shapes)


class Made(Struct, frozen=True):
    """What the passes made, before it is fitted; `drops` is where passages that may go stand."""

    score: Score | None
    findings: tuple[Finding, ...]
    shapes: Mapping[str, Shape] = field(default_factory=dict)
    drops: Mapping[str, Span] = field(default_factory=dict)


def passes(plan: Plan, known: Catalogue, without: frozenset[str]) -> Made:
    """All the passes from plan to score, with some passages left out."""
    unfolded = unfold(plan, Names(known), without)
    findings = unfolded.findings
    if not unfolded.bits and worst(findings) is not Weight.ERROR:
        findings += (found("nothing-to-lead", "there is nothing to lead in this plan", None),)
    if worst(findings) is Weight.ERROR:
        return Made(None, findings)
    bits, placed = place(mirror(unfolded.bits))
    bits, besides = beside(bits)
    bits, worded = say(word(bits))
    timed = time(accented(bits, plan))
    varied = vary(timed, bits, unfolded.runs)
    findings += (*placed, *besides, *worded, *varied, *timed.findings.values())
    if worst(findings) is Weight.ERROR:
        return Made(None, findings)
    return Made(_score(plan, timed), findings, dict(timed.shapes), unfolded.drops)


def _varied(
    plan: Plan, known: Catalogue, full: Made, veto: Veto
) -> tuple[Plan, Made, tuple[Finding, ...]]:
    """Take other rounds and another breath where no stays could meet the length without them."""
    if plan.length is None or not varies(plan):
        return plan, full, ()
    nearest = Nearest(plan, known, passages=False)
    if not nearest.written(plan.length.ms).price.beyond:
        return plan, full, ()
    course = nearest.best(plan.length.ms).course
    other = led(plan, course)
    made = full if course.as_written else passes(other, known, frozenset())
    if course.as_written or not can_go(made, full, veto):
        return plan, full, ()
    return other, made, (*made.findings, *_otherwise(course))


def _otherwise(course: Course) -> Iterator[Finding]:
    """Say where the class is led otherwise than written, for the sake of the length."""
    for span, count in course.rounds.items():
        rounds = "1 round is" if count == 1 else f"{count} rounds are"
        yield found("led-otherwise", f"{rounds} led here, to meet the length", span)
    for span, (inhale, exhale) in course.breaths.items():
        words = f"the breath is {inhale / 1000:g} s in, {exhale / 1000:g} s out here"
        yield found("led-otherwise", f"{words}, to meet the length", span)


def _shortened(
    plan: Plan, known: Catalogue, full: Made, veto: Veto
) -> tuple[Made, tuple[Finding, ...]]:
    """Leave out what has to go, as if it had not been written; what cannot go so, stays."""
    without: frozenset[str] = frozenset()
    barred: frozenset[str] = frozenset()
    apart: tuple[frozenset[str], ...] = ()
    findings: tuple[Finding, ...] = ()
    made = full
    while made.score and (keys := left_out(made.score, plan, barred | without, apart)):
        again = passes(plan, known, without | keys)
        if can_go(again, full, veto):
            made, without, findings = again, without | keys, again.findings
            continue
        alone: frozenset[str] = frozenset()
        if 1 < len(keys) <= FEW:
            tries = {key: passes(plan, known, without | {key}) for key in keys}
            alone = frozenset(key for key, one in tries.items() if not can_go(one, full, veto))
        if 1 < len(keys) <= FEW and not alone:
            apart += (keys,)
        else:
            barred |= alone or keys
    return made, findings + tuple(_left_out(without, full))


def _left_out(keys: frozenset[str], full: Made) -> Iterator[Finding]:
    """Say what is not led for the sake of the length, at the place that lets it go."""
    for key in sorted(keys):
        span = full.drops.get(key)
        round_ = key.rpartition("/")[2]
        what = (
            f"round {round_[1:]}" if round_[:1] == "r" and round_[1:].isdigit() else "this passage"
        )
        yield found("left-out", f"{what} is left out to meet the length", span)


def can_go(less: Made, full: Made, veto: Veto) -> bool:
    """Whether the class can be led without what was left out, as well as with it."""
    if less.score is None or full.score is None:
        return False
    return not leads_worse(less.score, full.score) and not veto(full.score, less.score)


def _score(plan: Plan, timed: Timed) -> Score:
    moments = tuple(timed.moments)
    shapes = {shape.id: info(shape) for shape in timed.shapes.values()}
    rest = _final_rest(moments, timed)
    holds = dict(timed.holds)
    if rest:
        holds[rest] = replace(holds[rest], rest=True, keep=True)
    return Score(_meta(plan), moments, _parts(plan, moments), holds, shapes)


def _final_rest(moments: tuple[Moment, ...], timed: Timed) -> str | None:
    """Find the last long stay in which the body rests."""
    for moment in reversed(moments):
        hold = timed.holds.get(moment.hold)
        if hold and moment.stance.trunk is Trunk.RESTING and _ms(hold) >= REST_MS:
            return hold.id
    return None


def _ms(hold: Hold) -> int:
    return hold.amount if hold.timed else hold.amount * hold.unit


def _parts(plan: Plan, moments: tuple[Moment, ...]) -> tuple[Part, ...]:
    parts = []
    first = 0
    for number, part in enumerate(plan.parts):
        last = first
        while last < len(moments) and moments[last].part == number:
            last += 1
        parts.append(Part(part.name.value, first, last))
        first = last
    return tuple(parts)


def _meta(plan: Plan) -> Meta:
    meta = Meta(
        title=plan.title.value,
        kind=plan.kind,
        for_=plan.for_.value if plan.for_ else "",
        length=plan.length.ms if plan.length else 0,
        first_side=Side(plan.first_side.value) if plan.first_side else Side.RIGHT,
        props=tuple(prop.value for prop in plan.props),
        source=plan.file,
        options={key: text.value for key, text in plan.options.items()},
    )
    if plan.breath:
        meta = replace(meta, inhale=plan.breath.inhale, exhale=plan.breath.exhale)
    return meta
