"""What a fit changes, named as a person knows it: shapes, flows and parts."""

from collections.abc import Iterator, Sequence

from conductor.compiler.courses import Course
from conductor.compiler.measure import Line, Measure
from conductor.compiler.nearest import Nearest
from conductor.fit.model import Change
from conductor.fit.stays import Amounts
from conductor.plan.amounts import written
from conductor.plan.edit import Sheet
from conductor.plan.model import Plan
from conductor.score.model import Moment, Score
from conductor.spans import Span
from conductor.values import Struct


class Told(Struct, frozen=True):
    """What is needed to name changes: the plan, its class as written and on the new course."""

    plan: Plan
    before: Score
    after: Score
    nearest: Nearest
    sheet: Sheet


def told(
    about: Told, course: Course, measures: Sequence[Measure], amounts: Amounts
) -> tuple[Change, ...]:
    """All changes, those of the whole class first, then in the order of the class."""
    found = [
        *_breaths(about, course),
        *_rounds(about, course),
        *_passages(about, course),
        *_stays(about, measures, amounts),
    ]
    order = {moment.origin: index for index, moment in reversed([*enumerate(about.before.moments)])}
    firsts = {change.span: order.get(change.span, -1) for change in found}
    return tuple(sorted(found, key=lambda one: (one.kind == "stay", firsts[one.span])))


def _breaths(about: Told, course: Course) -> Iterator[Change]:
    tempos = {tempo.span: tempo for tempo in about.nearest.choices.breaths}
    for span, (inhale, exhale) in course.breaths.items():
        tempo = tempos[span]
        if (tempo.inhale, tempo.exhale) != (inhale, exhale):
            only = Course({}, {span: (inhale, exhale)})
            before = about.sheet.text_at(span) or ""
            after = f"{inhale / 1000:g} s in, {exhale / 1000:g} s out"
            top = about.plan.breath is not None and about.plan.breath.span == span
            parts = (
                ()
                if top
                else tuple(
                    part.name.value
                    for part, measure in zip(about.plan.parts, about.nearest.measures, strict=True)
                    if any(beat[0] == span for beat in measure.sum("amount").halves)
                )
            )
            ms = _longer(about.nearest, only)
            yield Change("breath", span, "the breath", parts, before, after, ms=ms)


def _rounds(about: Told, course: Course) -> Iterator[Change]:
    for group in about.nearest.choices.groups:
        for one in group:
            count = course.rounds.get(one.span, one.written)
            if count != one.written:
                ms = _longer(about.nearest, Course({one.span: count}))
                what, parts = _named(about, one.span, one.parts)
                yield Change("rounds", one.span, what, parts, str(one.written), str(count), ms=ms)


def _passages(about: Told, course: Course) -> Iterator[Change]:
    for group in about.nearest.choices.groups:
        for one in group:
            if one.span in course.gone:
                ms = _longer(about.nearest, Course({}, {}, frozenset({one.span})))
                what, parts = _named(about, one.span, one.parts)
                yield Change("passage", one.span, what, parts, "led", "left out", ms=ms)


def _stays(about: Told, measures: Sequence[Measure], amounts: Amounts) -> Iterator[Change]:
    here: dict[Span, list[Moment]] = {}
    for moment in about.after.moments:
        if moment.hold:
            here.setdefault(moment.origin, []).append(moment)
    lines: dict[Span, list[Line]] = {}
    for measure in measures:
        for span, line in measure.lines.items():
            lines.setdefault(span, []).append(line)
    for span, those in lines.items():
        amount, line = amounts[span], those[0]
        if amount == line.amount:
            continue
        moments = here.get(span, [])
        names = dict.fromkeys(about.after.shapes[one.shape].name for one in moments)
        parts = dict.fromkeys(about.after.parts[one.part].name for one in moments)
        yield Change(
            "stay",
            span,
            ", ".join(names),
            tuple(parts),
            _amount(line, line.amount),
            _amount(line, amount),
            times=sum(sum(one.times.values()) for one in those),
            ms=sum(one.step({}) for one in those) * (amount - line.amount),
        )


def _amount(line: Line, amount: int) -> str:
    return written(0, amount) if line.timed else written(2 * amount + line.half)


def _longer(nearest: Nearest, course: Course) -> int:
    """By how many ms the class as written grows on a course."""
    after = sum(one.length({}) for one in nearest.measured(course))
    return after - sum(one.length({}) for one in nearest.measures)


def _named(about: Told, span: Span, numbers: frozenset[int]) -> tuple[str, tuple[str, ...]]:
    """A block by its flow, or by the first shapes that are led in it; and its parts."""
    parts = tuple(about.plan.parts[number].name.value for number in sorted(numbers))
    place = about.sheet.spot(span).place
    block = place if about.sheet.is_table(place) else place[:-1]
    flow = about.sheet.text_at((*block, "flow"))
    if flow:
        return flow, parts
    if about.sheet.text_at((*block, "part")):
        return "the whole part", parts
    if len(block) == 2 and block[0] == "flows":
        return str(block[1]), parts
    shapes = [
        text
        for text in about.sheet.texts_below(block, ("come to", "in", "out", "flow", "to"))
        if text != "same"
    ]
    return ", ".join(shapes[:3]) + (" …" if len(shapes) > 3 else ""), parts
