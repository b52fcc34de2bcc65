"""Courses: how a plan may be led other than as written, and the plan that comes of it.

What may vary stands in the plan: rounds (`may repeat`, `least`), breath (`breath may stretch`),
passages (`may drop`). A course is a choice of all three, by the places where they are written, so
that it can be written back into the plan.
"""

from collections.abc import Iterator, Mapping

from conductor.plan.model import (
    LEFT_OUT,
    Bell,
    Block,
    Flow,
    Mods,
    PartOf,
    Plan,
    Say,
    Step,
    Tempo,
    Text,
)
from conductor.spans import Span
from conductor.values import Struct, replace

TENTH_MS = 100  # half breaths change by tenths of a second: nobody feels less

Breath = tuple[int, int]
"""Milliseconds of an inhale and of an exhale."""


class Course(Struct, frozen=True):
    """Rounds by the place of their block, breaths by that of `breath`, passages by `may drop`."""

    rounds: Mapping[Span, int] = {}
    breaths: Mapping[Span, Breath] = {}
    gone: frozenset[Span] = frozenset()

    @property
    def as_written(self) -> bool:
        """Whether nothing of it differs from the plan."""
        return not (self.rounds or self.breaths or self.gone)


class Varying(Struct, frozen=True):
    """One thing that may vary: other numbers of rounds (`counts`), or a passage that may go (0).

    `parts` are the numbers of the parts it stands in, perhaps by way of a flow.
    """

    span: Span
    written: int
    counts: tuple[int, ...]
    parts: frozenset[int]
    passage: bool = False


class Choices(Struct, frozen=True):
    """All that may vary. What stands within each other is in one group: it counts together."""

    groups: tuple[tuple[Varying, ...], ...] = ()
    breaths: tuple[Tempo, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.groups or self.breaths)


def led(plan: Plan, course: Course) -> Plan:
    """The plan as that course leads it, each place where it was."""
    if course.as_written:
        return plan
    flows = {
        name: Flow(flow.name, _steps(flow.steps, course), _mods(flow.mods, course))
        for name, flow in plan.flows.items()
    }
    parts = tuple(
        replace(part, steps=_steps(part.steps, course), mods=_mods(part.mods, course))
        for part in plan.parts
    )
    breath = _tempo(plan.breath, course) if plan.breath else None
    return replace(plan, flows=flows, parts=parts, breath=breath)


def choices(plan: Plan, passages: bool = True) -> Choices:
    """What may vary in a plan; `passages` that may be dropped are only told of when asked for."""
    found = _Walk(plan, passages)
    for number, part in enumerate(plan.parts):
        found.part(number, part)
    return Choices(found.groups(), tuple(found.tempos.values()))


def varies(plan: Plan) -> bool:
    """Whether a plan says that rounds may grow or that breath may stretch."""
    found = choices(plan, passages=False)
    return bool(found.breaths) or any(
        max(one.counts) > one.written for group in found.groups for one in group
    )


def paces(tempos: tuple[Tempo, ...]) -> Iterator[tuple[int, Mapping[Span, Breath]]]:
    """All breaths there may be, nearest first: by how many percent they differ, and the lengths.

    All of them get slower or quicker together, each as far as its own bounds let it.
    """
    seen: set[tuple[Breath, ...]] = set()
    for percent in sorted(range(10, 1001), key=lambda one: (abs(one - 100), one)):
        breaths = {tempo.span: _paced(tempo, percent) for tempo in tempos}
        if tuple(breaths.values()) not in seen:
            seen.add(tuple(breaths.values()))
            written = {one.span: (one.inhale, one.exhale) for one in tempos}
            yield (
                abs(percent - 100),
                {span: one for span, one in breaths.items() if one != written[span]},
            )


def _paced(tempo: Tempo, percent: int) -> Breath:
    """The breath at that pace, within its bounds; inhale and exhale in the proportion written.

    Halves that are equal stay so. The bounds themselves can be reached, whatever lies between.
    """
    written = tempo.inhale + tempo.exhale
    step = 2 * TENTH_MS if tempo.inhale == tempo.exhale else TENTH_MS
    steps = (2 * written * (percent - 100) + 100 * step) // (200 * step)
    whole = min(max(written + step * steps, tempo.least), tempo.most)
    if whole == written:
        return tempo.inhale, tempo.exhale
    if tempo.inhale == tempo.exhale:
        return whole // 2, whole - whole // 2
    inhale = (2 * whole * tempo.inhale + TENTH_MS * written) // (2 * TENTH_MS * written) * TENTH_MS
    return inhale, whole - inhale


class _Walk:
    """A way through the plan as it is led, once each passage, that keeps what may vary."""

    def __init__(self, plan: Plan, passages: bool) -> None:
        self.plan = plan
        self.passages = passages
        self.tempos: dict[Span, Tempo] = {}
        self.found: dict[Span, Varying] = {}
        self.group: dict[Span, Span] = {}
        if plan.breath:
            self.tempo(plan.breath)

    def part(self, number: int, part: PartOf) -> None:
        """Go through one part."""
        self.steps(part.steps, self.within(part.mods, number, ()), number)

    def steps(self, steps: tuple[Step, ...], above: tuple[Span, ...], number: int) -> None:
        for step in steps:
            if isinstance(step, Block):
                self.block(step, above, number)
            elif not isinstance(step, Say | Bell):
                self.within(step.mods, number, above)

    def block(self, block: Block, above: tuple[Span, ...], number: int) -> None:
        least, most = block.least_rounds or block.rounds, block.most_rounds or block.rounds
        above = self.within(block.mods, number, above)
        if least < most:
            counts = tuple(
                count
                for count in range(least, most + 1)
                if not block.alternate or count % 2 == 0 or count == block.rounds
            )
            above = self.keep(block.span, block.rounds, counts, number, above, False)
        self.steps(block.steps, above, number)
        self.steps(block.between, above, number)
        if block.flow:
            flow = self.plan.flows[block.flow.value]
            self.steps(flow.steps, self.within(flow.mods, number, above), number)

    def within(self, mods: Mods, number: int, above: tuple[Span, ...]) -> tuple[Span, ...]:
        """What varies around a step that stands under these modifiers."""
        if mods.breath:
            self.tempo(mods.breath)
        drop = mods.may_drop
        if self.passages and drop and drop.value != LEFT_OUT:
            return self.keep(drop.span, 1, (0, 1), number, above, True)
        return above

    def tempo(self, tempo: Tempo) -> None:
        if tempo.least < tempo.most:
            self.tempos[tempo.span] = tempo

    def keep(
        self,
        span: Span,
        written: int,
        counts: tuple[int, ...],
        number: int,
        above: tuple[Span, ...],
        passage: bool,
    ) -> tuple[Span, ...]:
        before = self.found.get(span)
        parts = (before.parts if before else frozenset()) | {number}
        self.found[span] = Varying(span, written, counts, parts, passage)
        self.group.setdefault(span, span)
        for other in above:
            old, new = self.group[other], self.group[span]
            self.group = {key: new if of == old else of for key, of in self.group.items()}
        return (*above, span)

    def groups(self) -> tuple[tuple[Varying, ...], ...]:
        """What was found, by group, in the order of the class."""
        groups: dict[Span, list[Varying]] = {}
        for span, varying in self.found.items():
            groups.setdefault(self.group[span], []).append(varying)
        return tuple(map(tuple, groups.values()))


def _steps(steps: tuple[Step, ...], course: Course) -> tuple[Step, ...]:
    return tuple(_step(step, course) for step in steps)


def _step(step: Step, course: Course) -> Step:
    if isinstance(step, Bell):
        return step
    if not isinstance(step, Block):
        return replace(step, mods=_mods(step.mods, course)) if step.mods.may_drop else step
    return replace(
        step,
        steps=_steps(step.steps, course),
        between=_steps(step.between, course),
        rounds=course.rounds.get(step.span, step.rounds),
        mods=_mods(step.mods, course),
    )


def _mods(mods: Mods, course: Course) -> Mods:
    if mods.may_drop and mods.may_drop.span in course.gone:
        mods = replace(mods, may_drop=Text(LEFT_OUT, mods.may_drop.span))
    if mods.breath and mods.breath.span in course.breaths:
        mods = replace(mods, breath=_tempo(mods.breath, course))
    return mods


def _tempo(tempo: Tempo, course: Course) -> Tempo:
    inhale, exhale = course.breaths.get(tempo.span, (tempo.inhale, tempo.exhale))
    return replace(tempo, inhale=inhale, exhale=exhale)
