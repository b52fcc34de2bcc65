"""What a rule looks at: the score, its cues, the shapes in full, and the limits in force."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cached_property

from conductor.body.moves import Way
from conductor.body.ways import way
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.score.model import Moment, Score
from conductor.shapes.model import Shape
from conductor.sides import Breath, Side
from conductor.spans import Span
from conductor.stance import Stance
from conductor.timing.model import Cue
from conductor.values import Struct, field, replace

SHOWN = 3  # other places named beside the first one
_ORDER = tuple(Weight)


class Case(Struct, frozen=True, dict=True):
    """One plan under check. `limits` gives every threshold by name, as the plan may set it."""

    score: Score
    cues: tuple[Cue, ...]
    shapes: Mapping[str, Shape]
    limits: Mapping[str, float] = field(default_factory=dict)
    places: Mapping[str, Span] = field(default_factory=dict)
    elsewhere: frozenset[str] = frozenset()

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

    @cached_property
    def ways(self) -> tuple[tuple[Way, ...], ...]:
        """The movements that lead into each moment; several where shapes are passed on the way."""
        before: Moment | None = None
        found: list[tuple[Way, ...]] = []
        for moment in self.score.moments:
            moves = before is not None and moment.arriving and before.stance != moment.stance
            passed = moment.through + moment.cycle
            if before is None or not (moves or passed):
                found.append(())
            else:
                found.append(self._ways(before.stance, moment.stance, passed))
            before = moment
        return tuple(found)

    def _ways(self, start: Stance, goal: Stance, passed: tuple[str, ...]) -> tuple[Way, ...]:
        """The easiest way through the shapes passed, on whatever side each of them is taken."""
        trails: list[tuple[Stance, tuple[Way, ...]]] = [(start, ())]
        for name in passed:
            place = self.shapes[name].place
            ends = dict.fromkeys((start.heading, goal.heading))
            stances = {place.at(side, end) for end in ends for side in Side}
            trails = [_easiest(trails, stance) for stance in stances]
        return _easiest(trails, goal)[1]

    @cached_property
    def told(self) -> tuple[str, ...]:
        """All that is said for each moment, in one text, as it is led."""
        return tuple(
            " ".join(cue.saying.text for cue in self.said.get(index, ()))
            for index in range(len(self.score.moments))
        )

    @staticmethod
    def hurried(moment: Moment) -> bool:
        """Whether a movement rides on half a breath, with no time of its own."""
        return moment.breath is not Breath.FREE

    def entries(self) -> Iterator[tuple[int, Moment, Moment | None]]:
        """Every movement into a shape, with its index and the moment before it."""
        before: Moment | None = None
        for index, moment in enumerate(self.score.moments):
            if moment.arriving:
                yield index, moment, before
            before = moment


def _easiest(
    trails: list[tuple[Stance, tuple[Way, ...]]], goal: Stance
) -> tuple[Stance, tuple[Way, ...]]:
    """Extend the trail that gets to a stance with the least effort."""
    tried = ((*trail, way(here, goal)) for here, trail in trails)
    return goal, min(tried, key=_effort)


def _effort(trail: tuple[Way, ...]) -> tuple[bool, int, int]:
    efforts = [one.effort for one in trail]
    return not all(one.possible for one in trail), max(efforts), sum(efforts)


class Check(Struct, frozen=True):
    """A rule with what finds it; a matter of taste is counted `once` for the whole plan."""

    rule: Rule
    find: Callable[[Case], Iterable[Finding]]
    once: bool = False

    def __call__(self, case: Case) -> tuple[Finding, ...]:
        """Find, with one finding for one fault however often its line is led."""
        found = gathered(self.find(case))
        return (_summed(found),) if self.once and len(found) > 1 else found


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
    """Count findings of one rule at one place as one, as heavy as the heaviest."""
    kept: dict[tuple[str, Span | None], Finding] = {}
    for one in findings:
        key = (one.rule, one.span)
        before = kept.get(key)
        if before is None:
            kept[key] = one
        else:
            heavier = _ORDER.index(one.weight) < _ORDER.index(before.weight)
            model = one if heavier else before
            kept[key] = replace(model, times=before.times + one.times)
    return tuple(kept.values())


def _summed(found: tuple[Finding, ...]) -> Finding:
    """One finding for all, at the first place, with the total and the first few other places."""
    total = sum(one.times for one in found)
    also = tuple((one.span, one.words) for one in found[1 : 1 + SHOWN] if one.span)
    return replace(found[0], times=total, also=found[0].also + also)
