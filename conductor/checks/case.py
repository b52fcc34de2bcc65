"""What a rule looks at: the score, its cues, the shapes in full, and the limits in force."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.score.model import Moment, Score
from conductor.shapes.model import Shape
from conductor.spans import Span
from conductor.timing.model import Cue


@dataclass(frozen=True)
class Case:
    """One plan under check. `limits` gives every threshold by name, as the plan may set it."""

    score: Score
    cues: tuple[Cue, ...]
    shapes: Mapping[str, Shape]
    limits: Mapping[str, float] = field(default_factory=dict)

    @cached_property
    def by_id(self) -> Mapping[str, int]:
        """The index of each moment by its id."""
        return {moment.id: index for index, moment in enumerate(self.score.moments)}

    @cached_property
    def said(self) -> Mapping[int, tuple[Cue, ...]]:
        """The cues of each moment by its index."""
        said: dict[int, list[Cue]] = {}
        for cue in self.cues:
            said.setdefault(cue.moment, []).append(cue)
        return {index: tuple(cues) for index, cues in said.items()}

    @property
    def is_class(self) -> bool:
        """Whether it is a whole class; a piece needs no arrival and no rest."""
        return self.score.meta.kind == "class"

    def shape(self, moment: Moment) -> Shape:
        """The shape of a moment in full."""
        return self.shapes[moment.shape]

    def entries(self) -> Iterator[tuple[int, Moment, Moment | None]]:
        """Every movement into a shape, with its index and the moment before it."""
        before: Moment | None = None
        for index, moment in enumerate(self.score.moments):
            if moment.arriving:
                yield index, moment, before
            before = moment


@dataclass(frozen=True, slots=True)
class Check:
    """A rule with what finds it."""

    rule: Rule
    find: Callable[[Case], Iterable[Finding]]

    def __call__(self, case: Case) -> tuple[Finding, ...]:
        """Find, with one finding for one fault however often its line is led."""
        return gathered(self.find(case))


def finding(
    rule: Rule,
    words: str,
    span: Span | None,
    hint: str = "",
    also: tuple[tuple[Span, str], ...] = (),
    *,
    weight: Weight | None = None,
) -> Finding:
    """Make a finding of a rule, with the rule's own weight unless another is given."""
    return Finding(rule.name, weight or rule.weight, words, span, hint, also)


def gathered(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Count findings of one rule at one place as one."""
    kept: dict[tuple[str, Span | None], Finding] = {}
    for one in findings:
        key = (one.rule, one.span)
        before = kept.get(key)
        if before is None:
            kept[key] = one
        else:
            kept[key] = Finding(
                before.rule,
                before.weight,
                before.words,
                before.span,
                before.hint,
                before.also,
                before.times + one.times,
            )
    return tuple(kept.values())
