"""The value that the passes hand on: one step of the class, unfolded, with what is known so far."""

from collections.abc import Mapping

from conductor.body.moves import Way
from conductor.findings import Finding
from conductor.plan.model import Line, Mods, Stretch, Text
from conductor.score.model import Words
from conductor.shapes.model import Shape
from conductor.sides import Breath, End, Side
from conductor.spans import Span
from conductor.stance import Stance
from conductor.values import Struct


class Bit(Struct, frozen=True):
    """One step of the unfolded class.

    From unfold: `path` (source path, round and side, for ids), `verb` (come to, in, out, stay,
    free), `breath`, `shape` (None: stay as you are), the amount (`halves` of a breath or `ms`),
    tempo in ms, round, pass and mate, `mods` as written. From mirror: `side_written` (already
    exchanged in a mirrored pass) and `mirrored`. From place: side, decided, stance, way.
    From word: words and lines.
    """

    path: str
    verb: str
    breath: Breath
    span: Span
    part: int
    shape: Shape | None = None
    halves: int = 0
    ms: int = 0
    inhale: int = 4000
    exhale: int = 4000
    tempo: Span | None = None  # where its breath is written, if that may stretch
    round: tuple[int, int] = (1, 1)
    pass_side: Side | None = None
    pass_key: str = ""
    mate_key: str = ""
    mirrored: bool = False
    mods: Mods = Mods()
    side_text: Side | None = None  # a side written in the name or by `side`, as written
    side_other: bool = False
    side_written: Side | None = None
    turn: str = ""
    with_: str = ""
    through: tuple[Shape, ...] = ()
    cycle: tuple[Shape, ...] = ()
    form: str = ""
    drop: str = ""
    stretch: Stretch | None = None
    bells: int = 0
    bell: str = "bell"
    note: str = ""
    extra: tuple[Line, ...] = ()  # words of `say` steps that fall into this one
    side: Side | None = None
    decided: str = ""
    stance: Stance | None = None
    way: Way | None = None
    heading_in: End = End.FRONT  # heading before this step
    words: Words = Words()
    lines: tuple[tuple[str, str], ...] = ()  # (anchor, text) for a stay
    readings: tuple[str, str] | None = None
    early: bool = False
    twin: str = ""  # the path with its sides left out: steps that must stay equal share it
    used: int = 1  # how often this source line has been led on this side, this time included


class Run(Struct, frozen=True):
    """Another way of a stretch of the class: of the `count` bits from the one at path `first` on.

    With no bits of its own it is words alone.
    """

    level: str
    first: str
    count: int
    bits: tuple[Bit, ...]
    span: Span
    text: Text | None = None
    say: bool = False  # the text stands for the words of the movement, not beside them


class Unfolded(Struct, frozen=True):
    """The class as a flat list, other ways of stretches of it, and what there is to say.

    `drops` tells where it is written that the passage of a drop key may go.
    """

    bits: tuple[Bit, ...]
    runs: tuple[Run, ...] = ()
    findings: tuple[Finding, ...] = ()
    drops: Mapping[str, Span] = {}
