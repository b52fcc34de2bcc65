"""Fitting a plan: the nearest class of a length, found in the plan and written into its text."""

from collections.abc import Iterator, Sequence

from conductor.compiler.compile import Made, can_go, compiled, passes
from conductor.compiler.courses import Course, led
from conductor.compiler.measure import Measure
from conductor.compiler.nearest import Found, Nearest
from conductor.compiler.resolve import with_own
from conductor.fit.changes import Told, told
from conductor.fit.model import Fitting, PartLength
from conductor.fit.stays import Amounts, Shared, share
from conductor.fit.veto import watched
from conductor.plan.amounts import written
from conductor.plan.edit import Change as Edit
from conductor.plan.edit import Set, Sheet, amount_set, changed, put
from conductor.plan.model import LEFT_OUT, Plan
from conductor.plan.reader import read
from conductor.score.model import Score
from conductor.shapes.catalogue import Catalogue
from conductor.spans import Span
from conductor.timing.leaving import Leaving
from conductor.values import replace

SETTLES = 3  # times the text follows what the compiler makes of it
TRIES = 24  # courses given up because the class could not be led on
_HEAD = ("for", "kind", "title", "plan")  # behind which of these keys `length` is put


class UnfitError(ValueError):
    """A plan that cannot be fitted, in words for a person."""


class Fitter:
    """A plan that can be led, measured once for all the lengths it is fitted to.

    `text` is what the plan was read from, byte order mark and line ends as they are; the shapes of
    a file that the plan names stand in the plan already.
    """

    def __init__(self, text: str, plan: Plan, catalogue: Catalogue) -> None:
        self._plan, self._catalogue = plan, catalogue
        self._sheet = Sheet(text)
        known, _ = with_own(plan, catalogue)
        self._known = known
        self._made = passes(plan, known, frozenset())
        if self._made.score is None:
            raise UnfitError("this plan has faults that must be mended first")
        self.nearest = Nearest(plan, known)
        self._leaving = Leaving(self._made.score, anew=True)
        self._rest = _rest(self._made.score)
        self._veto = watched(self._made.shapes)
        self._bad: set[tuple[frozenset[tuple[Span, int]], frozenset[Span]]] = set()

    @property
    def text(self) -> str:
        """The plan as it is."""
        return self._sheet.text

    def fit(self, target: int) -> Fitting:
        """The class of that length (ms) that is nearest to the plan."""
        for _ in range(TRIES):
            found, measures, shared = self.optimum(target)
            made = passes(led(self._plan, found.course), self._known, frozenset())
            if found.course.as_written or can_go(made, self._made, self._veto):
                return self._fitting(target, found, measures, shared, made)
            self._bad.add(_key(found.course))
        raise UnfitError("no way was found to leave something out and lead the class on")

    def optimum(self, target: int) -> tuple[Found, list[Measure], Shared]:
        """The best course for a length with the best amounts of its stays."""
        found = self.nearest.best(target, self._barred)
        measures = self.nearest.measured(found.course)
        wishes, rhythm = self.nearest.wishes(target), self.nearest.rhythm
        shared = share(measures, self._plan.parts, wishes, target, rhythm, self._rest)
        if not any(part.length for part in self._plan.parts):
            # measured together: half a breath may fall otherwise than where each was measured alone
            least = sum(one.length({}, "least") for one in measures)
            most = sum(one.length({}, "most") for one in measures)
            found = replace(found, least=least, most=most)
        return found, measures, shared

    def _barred(self, course: Course) -> bool:
        """Whether a class cannot be led on such a course, as far as its passages tell."""
        if _key(course) in self._bad:
            return True
        keys = {key for key, span in self._made.drops.items() if span in course.gone}
        assert self._made.score is not None  # noqa: S101 -- else nothing is fitted
        led_ = {moment.drop for moment in self._made.score.moments} & keys
        if not led_ <= set(self._leaving.keys):
            return True  # it holds the final rest
        return bool(keys and self._leaving.trouble(keys))

    def _fitting(
        self, target: int, found: Found, measures: list[Measure], shared: Shared, made: Made
    ) -> Fitting:
        course, amounts = found.course, shared.amounts
        assert self._made.score is not None  # noqa: S101 -- else nothing is fitted
        assert made.score is not None  # noqa: S101 -- it was compiled to be judged
        text, score = self._written(target, course, measures, amounts)
        for _ in range(SETTLES):
            more = _alike(score, made.score, amounts) if score else {}
            if not more:
                break
            amounts = {**amounts, **more}
            text, score = self._written(target, course, measures, amounts)
        about = Told(self._plan, self._made.score, made.score, self.nearest, self._sheet)
        return Fitting(
            target=target,
            text=text,
            score=score,
            changes=told(about, course, measures, amounts),
            parts=tuple(self._lengths(target, score, measures)),
            least=found.least,
            most=found.most,
            polished=_polished(score, made.score, amounts) if score else 0,
            stretchable=_stretchable(measures),
        )

    def _written(
        self, target: int, course: Course, measures: Sequence[Measure], amounts: Amounts
    ) -> tuple[str, Score | None]:
        """The plan's new text, and the class it makes: what is told of it is what will be led."""
        text = changed(self._sheet, list(self._edits(target, course, measures, amounts)))
        plan, _ = read(text, self._plan.file)
        if plan is None:
            return text, None
        plan = replace(plan, shapes={**self._plan.shapes, **plan.shapes})
        return text, compiled(plan, self._catalogue, watched).score

    def _edits(
        self, target: int, course: Course, measures: Sequence[Measure], amounts: Amounts
    ) -> Iterator[Edit]:
        """What is to be written so that the plan leads this class."""
        sheet = self._sheet
        after = next((key for key in _HEAD if (key,) in sheet), "")
        old = sheet.text_at(("length",)) or ""
        yield put(sheet, (), "length", written(0, target, clock=":" in old), after)
        for span, count in course.rounds.items():
            yield Set((*sheet.table(span).place, "rounds"), str(count))
        for span, (inhale, exhale) in course.breaths.items():
            yield Set(span, breath(inhale, exhale))
        for span in course.gone:
            yield Set(span, LEFT_OUT)
        lines = {span: line for measure in measures for span, line in measure.lines.items()}
        for span, line in lines.items():
            amount = amounts[span]
            if amount != line.amount and line.timed:
                yield amount_set(sheet, span, ms=amount)
            elif amount != line.amount:
                yield amount_set(sheet, span, halves=2 * amount + line.half)

    def _lengths(
        self, target: int, score: Score | None, measures: Sequence[Measure]
    ) -> Iterator[PartLength]:
        wishes = self.nearest.wishes(target)
        lasting = _lasting(score) if score else []
        for number, part in enumerate(self._plan.parts):
            led_ = bool(lasting) and lasting[0][0] == part.name.value  # an empty part is not led
            yield PartLength(
                part.name.value,
                self.nearest.measures[number].length({}),
                lasting.pop(0)[1] if led_ else 0,
                measures[number].length({}, "least"),
                wishes.get(number, 0),
            )


def breath(inhale: int, exhale: int) -> str:
    """A breath as a plan has it."""
    return f"{inhale / 1000:g} s in, {exhale / 1000:g} s out"


def _key(course: Course) -> tuple[frozenset[tuple[Span, int]], frozenset[Span]]:
    return frozenset(course.rounds.items()), course.gone


def _rest(score: Score) -> Span | None:
    """Where the final rest is written."""
    rests = {name for name, hold in score.holds.items() if hold.rest}
    return next((one.origin for one in score.moments if one.hold in rests), None)


def _lasting(score: Score) -> list[tuple[str, int]]:
    """Each part of a class with its length (ms)."""
    return [
        (part.name, sum(one.length for one in score.moments[part.first : part.last]))
        for part in score.parts
    ]


def _alike(score: Score, made: Score, amounts: Amounts) -> Amounts:
    """What the compiler gave a line other than was written, alike whenever it is led."""
    given: dict[Span, set[int]] = {}
    for name, span in {one.hold: one.origin for one in made.moments if one.hold}.items():
        if name in score.holds:
            given.setdefault(span, set()).add(score.holds[name].amount)
    return {
        span: some.pop()
        for span, some in given.items()
        if len(some) == 1 and span in amounts and amounts[span] not in some
    }


def _polished(score: Score, made: Score, amounts: Amounts) -> int:
    """How many stays the compiler gave another amount than their line has."""
    wanted = {one.hold: amounts[one.origin] for one in made.moments if one.origin in amounts}
    return sum(wanted.get(name, hold.amount) != hold.amount for name, hold in score.holds.items())


def _stretchable(measures: Sequence[Measure]) -> int:
    lines = {span for one in measures for span, line in one.lines.items() if line.least < line.most}
    return len(lines)
