"""What the catalogue knows of a shape."""

from collections.abc import Mapping

from conductor.sides import End, Side
from conductor.stance import Base, Foot, Frame, Hands, Stance, Trunk
from conductor.values import Struct, field


class Template(Struct, frozen=True):
    """A stance before its side is known: `own` is the limb on the side that names the shape.

    A shape without sides whose feet are `own` TOP and `other` BACK (wide-legged fold) takes the
    foot in front from where the class comes from.
    """

    base: Base
    own: Foot
    other: Foot
    knees: tuple[str, ...] = ()  # "own", "other"
    hands: Hands = Hands.FREE
    trunk: Trunk = Trunk.UPRIGHT
    frame: Frame = Frame.END
    standing: str = ""  # "own" or "other": the limb that bears when one of two does

    def at(self, side: Side, heading: End, frame: Frame | None = None) -> Stance:
        """The stance with `side` for own, heading for an end of the mat.

        On the right with the right foot toward the front, the pelvis opens to the left wall.
        """
        limb = {"own": side, "other": side.other}
        frame = frame or self.frame
        opens = Side.LEFT if (side is Side.RIGHT) == (heading is End.FRONT) else Side.RIGHT
        return Stance(
            base=self.base,
            right=self.own if side is Side.RIGHT else self.other,
            left=self.other if side is Side.RIGHT else self.own,
            knees=tuple(sorted(limb[knee] for knee in self.knees)),
            hands=self.hands,
            trunk=self.trunk,
            heading=heading,
            frame=frame,
            wall=opens if frame is Frame.LONG else None,
            standing=limb.get(self.standing),
        )


class Shape(Struct, frozen=True):
    """One shape of the catalogue, or of the teacher's own.

    `names[0]` is the display name; `spellings` are usual misspellings. `spoken` and
    `spoken_sanskrit` are ASCII respellings for the voice ("" = as written). `side_means` is the
    convention in words ("front foot", "" for a shape without sides) and `side_part` the part of
    the body to speak of ("foot"). `enter` is the verb phrase of getting there ("fold forward"),
    which may hold <side> and <other>; "" lets the change of stance speak. `breath` is the usual
    one on entry: in, out or either. `asks` maps an area to 1..3. `hold` is the usual stay in
    seconds. `hand` says for a twist which hand meets the knee: same, opposite or "".
    `sources` maps a field, or caution code, to where it comes from; "*" stands for all the rest.
    """

    id: str
    names: tuple[str, ...]
    family: str
    place: Template
    spellings: tuple[str, ...] = ()
    iast: str = ""
    deva: str = ""
    ascii: str = ""
    spoken: str = ""
    spoken_sanskrit: str = ""
    side_means: str = ""
    side_part: str = ""
    spine: str = "neutral"
    breath: str = "either"
    breath_note: str = ""
    enter: str = ""
    level: int = 1
    landing: bool = False
    loads: bool = False
    unseen: bool = False
    balance: bool = False
    asks: Mapping[str, int] = field(default_factory=dict)
    prepares: tuple[str, ...] = ()  # shapes that prepare for this one
    undoes: tuple[str, ...] = ()  # shapes that undo this one
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    gentler: str = ""
    props: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    hold: tuple[int, int] = (5, 60)
    hand: str = ""
    note: str = ""
    sources: Mapping[str, str] = field(default_factory=dict)

    @property
    def sided(self) -> bool:
        """Whether it has a left and a right."""
        return bool(self.side_means)

    @property
    def name(self) -> str:
        """The name to show."""
        return self.names[0]
