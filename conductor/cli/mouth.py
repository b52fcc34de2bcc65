"""What a class needs of a voice."""

from array import array
from collections.abc import Collection
from typing import Protocol

from conductor.progress import Progress
from conductor.score.model import Lengths, Saying


class Mouth(Protocol):
    """What the classroom needs of a voice."""

    @property
    def status(self) -> str:
        """What is the matter, "" when nothing."""
        ...

    @property
    def troubles(self) -> list[str]:
        """Single cues that stay silent, and why."""
        ...

    def prepare(self, wanted: Collection[Saying], progress: Progress) -> Lengths:
        """Render and measure."""
        ...

    def pcm(self, saying: Saying) -> "array[int] | None":
        """Give the samples."""
        ...

    def close(self) -> None:
        """Let go of what is held."""
        ...
