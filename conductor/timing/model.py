"""The values of timing: a cue with its start and length, and a refit with what it changed."""

from conductor.score.model import Saying, Score
from conductor.values import Struct


class Cue(Struct, frozen=True):
    """One thing said, in score time (ms).

    `slot` tells cues of one moment apart: "ahead" (heard half a breath early, without its breath
    word), "main", or "line0", "line1" and so on. `measured` is False where the length is
    estimated from the words. `room` is the time to the next cue; it fits when length <= room.
    `word_at` is when its breath word, or its first word, is heard.
    """

    moment: int
    slot: str
    saying: Saying
    start: int
    length: int
    measured: bool
    room: int
    form: str
    word_at: int

    @property
    def fits(self) -> bool:
        """Whether it is over before the next one starts."""
        return self.length <= self.room


class Change(Struct, frozen=True):
    """One stay (or droppable passage) that a refit changed, in its own unit."""

    hold: str
    before: int
    after: int


class Refit(Struct, frozen=True):
    """A score fitted to a time: what changed, and by how many ms it still misses (0: met)."""

    score: Score
    changes: tuple[Change, ...]
    misses_by_ms: int
