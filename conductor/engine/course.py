"""A score made ready to be led: what every question in class needs, looked up once."""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Mapping, Sequence

from conductor.score.model import Moment, Score
from conductor.sides import Breath
from conductor.timing.model import Cue
from conductor.values import Struct

TIMED_MS = 12_000  # a moment longer than this is a stretch of time, not half a breath


class Course(Struct, frozen=True, eq=False):
    """A score with its cues in order and its indices; two are the same only if they are one.

    `first` and `last` bound the movement or stay each moment belongs to. `landing` is the last
    moment at or before each one whose shape can be entered safely, -1 where none is. `again` is
    where this side, round or stretch began. `breaths` is the inhale and exhale (score ms) in force.
    `levels` are the ways there are.
    """

    score: Score
    cues: tuple[Cue, ...]
    starts: tuple[int, ...]
    index_of: Mapping[str, int]
    cues_of: Mapping[int, tuple[Cue, ...]]
    first: tuple[int, ...]
    last: tuple[int, ...]
    landing: tuple[int, ...]
    again: tuple[int, ...]
    breaths: tuple[tuple[int, int], ...]
    passes: Mapping[str, tuple[int, ...]]
    hold_first: Mapping[str, int]
    closing: int
    levels: tuple[str, ...]

    @property
    def moments(self) -> tuple[Moment, ...]:
        """The score's moments."""
        return self.score.moments

    def timed(self, index: int) -> bool:
        """Whether a moment is a stretch of time, which is taken up where it was left."""
        moment = self.moments[index]
        return moment.breath is Breath.FREE or moment.length > TIMED_MS

    def at(self, score: int) -> int:
        """The moment that runs at a score time."""
        return max(bisect_right(self.starts, score) - 1, 0)

    def lead(self, index: int) -> int:
        """How long before a moment its first cue starts (score ms)."""
        start = self.starts[index]
        return max((start - cue.start for cue in self.cues_of.get(index, ())), default=0)

    def shape(self, index: int) -> str:
        """The name of a moment's shape, as people say it."""
        shape = self.moments[index].shape
        info = self.score.shapes.get(shape)
        return info.name if info else shape

    def part_beside(self, index: int, by: int) -> int | None:
        """The number of the next (`by` 1) or previous (-1) part that has moments, if any."""
        number = self.moments[index].part + by
        parts = self.score.parts
        while 0 <= number < len(parts):
            if parts[number].first < parts[number].last:
                return number
            number += by
        return None

    def mate(self, index: int) -> str:
        """The pass that a moment's pass exchanges with, or "" when it has none."""
        mate = self.moments[index].mate
        if mate in self.index_of:
            mate = self.moments[self.index_of[mate]].pass_key
        return mate if mate in self.passes and mate != self.moments[index].pass_key else ""


def course(score: Score, cues: Sequence[Cue]) -> Course:
    """Look everything up once, so that each tick in class is cheap."""
    ordered = tuple(sorted(cues, key=lambda cue: (cue.start, cue.moment, cue.slot)))
    by_moment: dict[int, list[Cue]] = defaultdict(list)
    for cue in ordered:
        by_moment[cue.moment].append(cue)
    first, last = _groups(score.moments)
    return Course(
        score=score,
        cues=ordered,
        starts=tuple(moment.start for moment in score.moments),
        index_of={moment.id: index for index, moment in enumerate(score.moments)},
        cues_of={index: tuple(those) for index, those in by_moment.items()},
        first=first,
        last=last,
        landing=_landing(score),
        again=_again(score),
        breaths=_breaths(score),
        passes=_passes(score.moments),
        hold_first={m.hold: first[at] for at, m in enumerate(score.moments) if first[at] == at},
        closing=_closing(score),
        levels=score.levels,
    )


def _groups(moments: Sequence[Moment]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The first and last moment of the stay (or single movement) each one belongs to."""
    first: list[int] = []
    for index, moment in enumerate(moments):
        goes_on = index > 0 and moment.hold and moments[index - 1].hold == moment.hold
        first.append(first[-1] if goes_on else index)
    last = list(range(len(moments)))
    for index in range(len(moments) - 2, -1, -1):
        if first[index + 1] == first[index]:
            last[index] = last[index + 1]
    return tuple(first), tuple(last)


def _landing(score: Score) -> tuple[int, ...]:
    landed, found = -1, []
    for index, moment in enumerate(score.moments):
        info = score.shapes.get(moment.shape)
        landed = index if info and info.landing else landed
        found.append(landed)
    return tuple(found)


def _again(score: Score) -> tuple[int, ...]:
    """Where this side began; outside passages with two sides, this round or stretch of a part."""
    begun: dict[str, int] = {}
    found: list[int] = []
    for index, moment in enumerate(score.moments):
        if moment.pass_key:
            found.append(begun.setdefault(moment.pass_key, index))
            continue
        before = score.moments[index - 1] if index else None
        same = before is not None and (before.pass_key, before.round, before.part) == (
            "",
            moment.round,
            moment.part,
        )
        found.append(found[-1] if same else index)
    return tuple(found)


def _breaths(score: Score) -> tuple[tuple[int, int], ...]:
    """The lengths of an inhale and an exhale around each moment, for breath that goes on."""
    now, found = (score.meta.inhale, score.meta.exhale), []
    for moment in score.moments:
        hold = score.holds.get(moment.hold)
        if hold is not None and 0 < hold.inhale < hold.unit:
            now = (hold.inhale, hold.unit - hold.inhale)
        elif 0 < moment.length <= TIMED_MS and moment.breath is Breath.IN:
            now = (moment.length, now[1])
        elif 0 < moment.length <= TIMED_MS and moment.breath is Breath.OUT:
            now = (now[0], moment.length)
        found.append(now)
    return tuple(found)


def _passes(moments: Sequence[Moment]) -> dict[str, tuple[int, ...]]:
    """The moments of each pass, those of passes nested in it included."""
    keys = sorted({moment.pass_key for moment in moments if moment.pass_key})
    around = {key: [k for k in keys if key == k or key.startswith(f"{k}/")] for key in keys}
    found: dict[str, list[int]] = {key: [] for key in keys}
    for index, moment in enumerate(moments):
        for key in around.get(moment.pass_key, ()):
            found[key].append(index)
    return {key: tuple(indices) for key, indices in found.items()}


def _closing(score: Score) -> int:
    """The first moment of the part that holds the final rest, or of the last part."""
    for part in reversed(score.parts):
        holds = (score.holds.get(moment.hold) for moment in score.moments[part.first : part.last])
        if any(hold is not None and hold.rest for hold in holds):
            return part.first
    return score.parts[score.moments[-1].part].first if score.moments else 0
