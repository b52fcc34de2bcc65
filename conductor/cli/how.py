"""How a class is to be led; stands apart so that a picture can come before all that leads."""

from datetime import datetime
from typing import TYPE_CHECKING

from conductor.values import Struct, field
from conductor.view.glass import Glass

if TYPE_CHECKING:
    from conductor.run.resume import Broken


class Wish(Struct, frozen=True):
    """What of a class is to be rehearsed, as it was typed: names of parts and shapes, a side."""

    parts: tuple[str, ...] = ()
    side: str = ""
    first: str = ""
    last: str = ""


class How(Struct, frozen=True):
    """How a class is to be led: `speed` times as fast, to end at a time of day, and kept or not.

    `rehearsal` is what is to be rehearsed of it, None where it is led in earnest.
    """

    speed: float = 1.0
    end: datetime | None = None
    journal: bool = True
    recall: bool = True  # lead a plan with what it was led with last time
    given: frozenset[str] = frozenset()  # settings that the command line names, over a plan's
    glass: Glass = field(default_factory=Glass)  # whose side is said
    broken: "Broken | None" = None  # a class that broke off, to be gone on with
    rehearsal: Wish | None = None

    @property
    def spoken(self) -> bool:
        """Whether voice and bells are heard; above a speed they are text, which may yet change."""
        if self.rehearsal is not None:
            return True
        from conductor.run.runner import VOICE_SPEED  # noqa: PLC0415 -- not before a picture

        return self.speed <= VOICE_SPEED
