"""How a class is to be led; stands apart so that a picture can come before all that leads."""

from datetime import datetime
from typing import TYPE_CHECKING

from conductor.values import Struct

if TYPE_CHECKING:
    from conductor.run.resume import Broken


class How(Struct, frozen=True):
    """How a class is to be led: `speed` times as fast, to end at a time of day, and kept or not."""

    speed: float = 1.0
    end: datetime | None = None
    journal: bool = True
    recall: bool = True  # lead a plan with what it was led with last time
    given: frozenset[str] = frozenset()  # settings that the command line names, over a plan's
    broken: "Broken | None" = None  # a class that broke off, to be gone on with

    @property
    def spoken(self) -> bool:
        """Whether voice and bells are heard at this speed; above it they are text."""
        from conductor.run.runner import VOICE_SPEED  # noqa: PLC0415 -- not before a picture

        return self.speed <= VOICE_SPEED
