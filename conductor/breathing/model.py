"""The values of a measured breath; times in ms, of any clock that only goes on."""

from conductor.sides import Breath
from conductor.values import Struct


class Tap(Struct, frozen=True):
    """A key was pressed as an inhale or an exhale began; `breath` None says only that it turned."""

    at: int
    breath: Breath | None = None


class Half(Struct, frozen=True):
    """An inhale or an exhale as it was tapped: when it began, and how long it was."""

    at: int
    ms: int
    breath: Breath


class Turns(Struct, frozen=True):
    """What taps tell: half breaths in order, and what was amiss.

    `wholes` are (at, ms) of whole breaths: two halves that follow each other, or a stretch in which
    the turn between them was not tapped. `missed` taps were left out, `doubled` ones are one too
    many, `wrong` ones were of the other key, `pauses` (ms) are stretches that are no breath.
    """

    halves: tuple[Half, ...] = ()
    wholes: tuple[tuple[int, int], ...] = ()
    missed: int = 0
    doubled: int = 0
    wrong: int = 0
    pauses: tuple[int, ...] = ()


class Estimate(Struct, frozen=True):
    """How long something usually lasts, from `count` times it was measured; ms.

    The true middle lies between `low` and `high` 19 times in 20. `spread` is how far a single one
    is usually off. `drift` is by how much it grows in a minute, `drift_low` to `drift_high` with
    the same certainty.
    """

    ms: int
    low: int
    high: int
    spread: int
    drift: int
    drift_low: int
    drift_high: int
    count: int

    @property
    def drifts(self) -> bool:
        """Whether it surely changes over the minutes."""
        return self.drift_low > 0 or self.drift_high < 0


class Reading(Struct, frozen=True):
    """A person's breath as far as it is known; `trouble` says why there is no more of it.

    `seconds` is how long was tapped. Without `trouble` all three estimates are there.
    """

    turns: Turns = Turns()
    inhale: Estimate | None = None
    exhale: Estimate | None = None
    breath: Estimate | None = None
    seconds: int = 0
    trouble: str = ""
