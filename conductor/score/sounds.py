"""Sounds wanted: declared, not commanded, so a hold, a skip or a refit needs no taking back."""

from conductor.score.model import Saying
from conductor.values import Struct


class Bell(Struct, frozen=True):
    """A bell by name ("rest", "part", "end"), struck `strokes` times."""

    name: str
    strokes: int = 1


class SoundId(Struct, frozen=True):
    """What makes a sound the same sound: its moment, how often that was entered, and its slot."""

    moment: str
    pass_no: int
    slot: str


class Sound(Struct, frozen=True):
    """A sound and the `now` (ms) at which it starts; past `stale_after` it is dropped, not said.

    `db` is how much louder (or, below 0, softer) than as recorded it is wanted.
    """

    id: SoundId
    start: int
    what: Saying | Bell
    stale_after: int
    db: int = 0
