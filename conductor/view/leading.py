"""What a front end needs of a class that is being led; whoever leads it implements this."""

from collections.abc import Collection, Sequence
from typing import Protocol

from conductor.engine.model import Command, Happening, Snapshot
from conductor.score.model import Score


class Leading(Protocol):
    """A class being led on a thread of its own. Every method returns at once, but `news`."""

    def snapshot(self) -> Snapshot:
        """The latest picture; immutable."""
        ...

    def now(self) -> int:
        """The class's clock, ms: the `now` of snapshots and happenings."""
        ...

    def post(self, command: Command) -> None:
        """Hand in a command, from any thread; the reply comes with a later snapshot."""
        ...

    def trouble(self) -> str:
        """What is the matter with sound or journal, in a person's words; "" when all is well."""
        ...

    def written(self) -> Score:
        """The score as it was before the class, with nothing left out to land on time."""
        ...

    def entered(self) -> Collection[str]:
        """Ids of the moments that have been led, in order."""
        ...


class Telling(Leading, Protocol):
    """A class that also tells what happened, one thing after the other."""

    def news(self, seconds: float) -> Sequence[Happening]:
        """Wait until something has happened, at most so long; what happened since last asked."""
        ...
