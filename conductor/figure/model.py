"""The values of a figure: lanes of stretches of time. Drawing needs them alone, no score."""

from enum import StrEnum

from conductor.values import Struct

FULL = 1000  # the top of a curve's scale


class Form(StrEnum):
    """How a lane is drawn.

    Banners with names, boxes whose names may stand upright, low bands, a curve, bars about an axis,
    or marks of when.
    """

    BANNERS = "banners"
    BOXES = "boxes"
    BANDS = "bands"
    CURVE = "curve"
    SIDES = "sides"
    MARKS = "marks"


class Kind(StrEnum):
    """What a stretch is; each looks different without colour too, by its place, sign or hatch."""

    PLAIN = "plain"
    REST = "rest"
    RIGHT = "right"  # above the axis
    LEFT = "left"  # below it
    FRONT = "front"
    BACK = "back"
    LONG = "long side"
    SPEECH = "speech"
    BELL = "bell"
    OWN = "own breath"
    EFFORT = "effort"
    LOAD = "load"
    HELD = "held"  # the class waited in the shape
    STOPPED = "stopped"
    SKIPPED = "skipped"
    ADDED = "added"  # only here, of two that are compared
    LEFT_OUT = "left out"  # not in the other of two


class Stretch(Struct, frozen=True):
    """From `start` on for `length` ms something is so; `label` is drawn where it fits.

    `level` is its height on a curve or beside an axis, 0 to FULL. `note` says more, where a picture
    can be pointed at.
    """

    start: int
    length: int
    label: str = ""
    kind: Kind = Kind.PLAIN
    level: int = FULL
    note: str = ""

    @property
    def end(self) -> int:
        """When it is over, in ms."""
        return self.start + self.length


class Lane(Struct, frozen=True):
    """One thing that is followed through the class; `words` says its sum, for who cannot see it."""

    name: str
    form: Form
    stretches: tuple[Stretch, ...] = ()
    words: str = ""


class Timeline(Struct, frozen=True):
    """One class, or one way it went: lanes over the same `length` ms."""

    name: str
    length: int
    lanes: tuple[Lane, ...]


class Figure(Struct, frozen=True):
    """What is drawn: one timeline, or several on one scale beneath each other, and words first."""

    title: str
    timelines: tuple[Timeline, ...]
    words: tuple[str, ...] = ()

    @property
    def length(self) -> int:
        """The longest timeline's length in ms: the scale of all of them."""
        return max((one.length for one in self.timelines), default=0)
