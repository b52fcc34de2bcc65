"""The score's values: frozen, hashable, the same on every machine."""

from collections.abc import Mapping

from conductor.sides import Breath, Side
from conductor.spans import Span
from conductor.stance import Stance
from conductor.values import Struct, field


class Saying(Struct, frozen=True):
    """Words to be spoken or shown, sides and ends of the mat already resolved.

    `hurry` is by how many percent they are spoken faster than usual, to fit their breath.
    """

    text: str
    hurry: int = 0


Lengths = Mapping[Saying, int]
"""Milliseconds of each saying as rendered and trimmed; one that is absent is estimated."""


class Words(Struct, frozen=True):
    """The cue of a moment in its lengths, without the breath word, which stands apart.

    `full` and `short` are whole phrases ("step the left foot back"); `breath` is "Inhale",
    "Exhale" or "". `form` is the length spoken this time: full, short, breath or nothing.
    `written` tells words of the plan's author from generated ones.
    """

    full: str = ""
    short: str = ""
    breath: str = ""
    form: str = "full"
    written: bool = False


class Line(Struct, frozen=True):
    """Words within a moment: `at` ms after its start, or before its end if negative."""

    at: int
    saying: Saying


class Variant(Struct, frozen=True):
    """Another way to do the same moment: gentler (`ease`), fuller (`more`), `or`, or one by name.

    `lines` are said in place of the moment's own while the class is led this way; None: its own.
    """

    level: str
    text: str
    shape: str = ""
    words: Words = Words()
    lines: tuple[Line, ...] | None = None


class Moment(Struct, frozen=True):
    """One half breath, or one stretch of free time.

    `start` and `length` are ms of score time; `id` is source path + round + side + index and
    stays the same under a refit. `decided` says what chose the side: written, stance, pass or "".
    `hold` names the stay it belongs to, `of_stay` is (breath k, of n). `readings` keeps the words
    as written and as led when they differ. `early` asks that the cue be heard half a breath ahead
    (a change of side, a turn, a balance).
    """

    id: str
    start: int
    length: int
    breath: Breath
    shape: str
    side: Side | None
    decided: str
    stance: Stance
    words: Words
    origin: Span
    part: int
    with_: str = ""
    through: tuple[str, ...] = ()
    cycle: tuple[str, ...] = ()
    lines: tuple[Line, ...] = ()
    readings: tuple[str, str] | None = None
    note: str = ""
    round: tuple[int, int] = (1, 1)
    pass_side: Side | None = None
    pass_key: str = ""
    mate: str = ""
    hold: str = ""
    of_stay: tuple[int, int] = (0, 0)
    drop: str = ""
    early: bool = False
    bells: int = 0
    variants: tuple[Variant, ...] = ()
    arriving: bool = True  # a movement into a shape, not a breath within it
    turn: str = ""  # "other end", "long side" or "" when this movement turns the body
    bell: str = "bell"  # which of the bells is struck
    struck: int = 0  # how long before its start, so that the first words do not cover it

    @property
    def end(self) -> int:
        """Score time at which it is over."""
        return self.start + self.length


class Hold(Struct, frozen=True):
    """A stay as a whole, so that it can be made longer or shorter without the plan.

    In whole breaths of `unit` ms each (`inhale` of them in) or, when `timed`, in plain ms;
    `amount`, `least` and `most` are breaths or ms accordingly. `mates` are the holds that must
    change together with it (the other side). `lines` are (anchor, text): anchor "first", "last"
    or "" for one line a breath in order. `half` marks a stay that begins or ends on half a breath.
    `ways` holds the lines of the stays that other ways have in its place, by level.
    """

    id: str
    amount: int
    least: int
    most: int
    unit: int
    inhale: int
    mates: tuple[str, ...] = ()
    lines: tuple[tuple[str, str], ...] = ()
    rest: bool = False
    keep: bool = False
    half: bool = False
    timed: bool = False
    ways: Mapping[str, tuple[tuple[str, str], ...]] = {}

    @property
    def stretchable(self) -> bool:
        """Whether it may be longer or shorter than written."""
        return self.least < self.amount or self.most > self.amount


class Part(Struct, frozen=True):
    """A named stretch of the class: moments `first` up to, not including, `last`."""

    name: str
    first: int
    last: int


class ShapeInfo(Struct, frozen=True):
    """What leading needs to know of a shape, so that no catalogue is needed in class.

    `side_means` is the convention ("front foot"), `side_part` the part of the body to speak of
    ("foot"). `landing`: can be entered safely after a break. `loads`: not to be waited in.
    `unseen`: the screen cannot be seen from it. `spoken`: an ASCII respelling or "".
    """

    id: str
    name: str
    sanskrit: str = ""
    spoken: str = ""
    side_means: str = ""
    side_part: str = ""
    landing: bool = False
    loads: bool = False
    unseen: bool = False
    balance: bool = False
    level: int = 1  # 0 rest, 1 easy, 2 middling, 3 strong
    cautions: tuple[str, ...] = ()
    props: tuple[str, ...] = ()
    family: str = ""


class Meta(Struct, frozen=True):
    """What the plan says of itself. `length` is the wanted length in ms, 0 when left open."""

    title: str
    kind: str = "class"
    for_: str = ""
    length: int = 0
    first_side: Side = Side.RIGHT
    inhale: int = 4000
    exhale: int = 4000
    props: tuple[str, ...] = ()
    source: str = ""
    options: Mapping[str, str] = field(default_factory=dict)


class Score(Struct, frozen=True):
    """The whole class. Moments follow each other without a gap from 0 to the length."""

    meta: Meta
    moments: tuple[Moment, ...]
    parts: tuple[Part, ...]
    holds: Mapping[str, Hold]
    shapes: Mapping[str, ShapeInfo]

    @property
    def length(self) -> int:
        """Milliseconds from the first moment's start to the last one's end."""
        return self.moments[-1].end if self.moments else 0

    @property
    def levels(self) -> tuple[str, ...]:
        """The ways a class can be led: as written (""), then those it has, in their order."""
        ways = (way.level for moment in self.moments for way in moment.variants)
        return tuple(dict.fromkeys(("", *ways)))
