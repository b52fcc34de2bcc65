"""What fitting a plan gives: what changes, by the plan's lines, and what comes of it."""

from conductor.score.model import Score
from conductor.spans import Span
from conductor.timing.problem import NEAR_MS
from conductor.values import Struct


class Change(Struct, frozen=True):
    """One thing in the plan that changes: a `stay`, `rounds`, a `breath`, a `passage` that goes.

    `what` names it (a shape, a flow, ...), `parts` are those it is led in (none: the whole class),
    `before` and `after` stand as in the plan. It is led `times` times; all of them together make
    the class `ms` longer.
    """

    kind: str
    span: Span
    what: str
    parts: tuple[str, ...]
    before: str
    after: str
    times: int = 1
    ms: int = 0


class PartLength(Struct, frozen=True):
    """A part's length before and after (ms), the least there can be, and its wish (0: none)."""

    name: str
    before: int
    after: int
    least: int
    wish: int = 0


class Fitting(Struct, frozen=True):
    """A plan fitted to a length: its new text, and the class that is compiled from that text.

    `least` and `most` are the shortest and the longest class that stays can make of the rounds,
    breaths and passages chosen; where the length lies between them it is met, to a breath at most.
    `polished` counts stays that the compiler changed further, each by itself, to end on time.
    """

    target: int
    text: str
    score: Score | None
    changes: tuple[Change, ...]
    parts: tuple[PartLength, ...]
    least: int
    most: int
    polished: int = 0
    stretchable: int = 0  # lines of the plan with a stay that may stretch

    @property
    def rest(self) -> int:
        """How long the final rest is (ms); 0 where there is none."""
        holds = self.score.holds.values() if self.score else ()
        lasting = (one.amount * (1 if one.timed else one.unit) for one in holds if one.rest)
        return next(lasting, 0)

    @property
    def misses(self) -> int:
        """By how many ms the class is too long (negative: too short)."""
        return (self.score.length if self.score else self.least) - self.target

    @property
    def met(self) -> bool:
        """Whether the class lasts as long as asked for, as near as whole breaths allow."""
        if self.score is None:
            return False
        return (
            self.least - NEAR_MS < self.target < self.most + NEAR_MS or abs(self.misses) < NEAR_MS
        )
