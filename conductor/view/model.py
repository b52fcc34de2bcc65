"""The picture of a class in ready words: everything a front end shows, and nothing it must know."""

from conductor.engine.model import State
from conductor.sides import Side
from conductor.values import Struct


class SideFace(Struct, frozen=True):
    """A side in words and signs: "right foot", "right foot forward", "R ▶"."""

    side: Side
    words: str
    phrase: str
    sign: str


class Face(Struct, frozen=True):
    """A shape as shown: its names, its side, the breath on which it is entered, how long it stays.

    `detail` holds arms, props and shapes passed through; `turn` tells of a turn of the body.
    """

    name: str
    sanskrit: str = ""
    detail: str = ""
    side: SideFace | None = None
    turn: str = ""
    breath: str = ""
    sign: str = ""
    stay: str = ""
    unseen: bool = False

    @property
    def phrase(self) -> str:
        """The shape with its details and its side in one line."""
        side = self.side.phrase if self.side else ""
        return ", ".join(words for words in (self.name, self.detail, side, self.turn) if words)


class View(Struct, frozen=True):
    """One picture. `fraction` is the part of the half breath that is done, per mille.

    `count` says it whole ("breath 2 of 5"), `tally` in a few signs ("2/5"). `emphasis` is now,
    where the class stays, or both, where teachers cue what comes. `ahead` follows after `next`
    and is there only before and within a stretch in which the screen cannot be seen. `alert` asks
    for attention: holding, stopped, a lost sound. `beside` tells of a rehearsal. `keys` tells what
    to press where the class waits. `mark` says whose side is told while a mirror is on.
    """

    state: State
    state_words: str
    title: str
    part: str
    place: str
    now: Face
    next: Face | None
    ahead: tuple[Face, ...]
    emphasis: str
    breath: str
    sign: str
    fraction: int
    count: str
    tally: str
    elapsed: str
    to_end: str
    standing: str
    saying: str = ""
    notes: tuple[str, ...] = ()
    reply: str = ""
    refused: bool = False
    offer: str = ""
    owed: str = ""
    trouble: str = ""
    keys: str = ""
    mark: str = ""
    quiet: bool = False
    silenced: bool = False
    beside: str = ""

    @property
    def rising(self) -> bool:
        """Whether the breath goes in: its bar fills, and empties on the way out."""
        return self.breath == "INHALE"
