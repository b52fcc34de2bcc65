"""Left and right, the two ends of the mat, and the two halves of a breath."""

from enum import StrEnum


class Side(StrEnum):
    """A side of the body; what it means for a shape is the shape's own convention."""

    RIGHT = "right"
    LEFT = "left"

    @property
    def other(self) -> "Side":
        """The opposite side."""
        return Side.LEFT if self is Side.RIGHT else Side.RIGHT


class End(StrEnum):
    """An end of the mat as the room names it: the front is where the class begins facing."""

    FRONT = "front"
    BACK = "back"

    @property
    def other(self) -> "End":
        """The opposite end."""
        return End.BACK if self is End.FRONT else End.FRONT


class Breath(StrEnum):
    """What a moment rides on: half a breath, or time at one's own breath."""

    IN = "in"
    OUT = "out"
    FREE = "free"

    @property
    def other(self) -> "Breath":
        """The half that follows; free time is followed by whatever is written."""
        return {Breath.IN: Breath.OUT, Breath.OUT: Breath.IN}.get(self, Breath.FREE)
