"""What a front end needs of a class that is being led; whoever leads it implements this."""

from collections.abc import Sequence
from typing import Protocol

from conductor.engine.model import Command, Happening, Snapshot
from conductor.view.after import After


class Leading(Protocol):
    """A class being led on a thread of its own. Methods return at once, but `news` and `after`."""

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

    def after(self) -> After:
        """How it went, once it is over; may take a while, for it looks at earlier classes."""
        ...


class Telling(Leading, Protocol):
    """A class that also tells what happened, one thing after the other."""

    def news(self, seconds: float) -> Sequence[Happening]:
        """Wait until something has happened, at most so long; what happened since last asked."""
        ...
