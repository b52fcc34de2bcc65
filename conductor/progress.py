"""Progress of long work, told to whoever shows it."""

from typing import Protocol


class Progress(Protocol):
    """Called with how many are done and how many there are; must return at once."""

    def __call__(self, done: int, total: int) -> None:
        """Take note of how far it is."""
        ...


def silent(done: int, total: int) -> None:
    """Tell nobody: for tests and pipes."""
