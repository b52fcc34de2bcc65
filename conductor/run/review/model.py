"""The values of a review: what was led, when, for how long. All times are ms of class time."""

from collections.abc import Mapping
from enum import StrEnum

from conductor.values import Struct

FORM = 1  # of the review as JSON; raised when a field changes its meaning


class Doing(StrEnum):
    """What the class did in a stretch of its time."""

    LED = "led"
    HELD = "held"
    STOPPED = "stopped"
    AWAY = "away"  # the machine slept, or the class had broken off
    COMING = "coming in"  # the run-in after a jump or a stop


class Ending(StrEnum):
    """How a class came to its end."""

    FINISHED = "finished"  # its last moment ended
    ENDED = "ended"  # by hand
    BROKE_OFF = "broke off"
    GOING_ON = "going on"  # it is being led at this moment


class Stretch(Struct, frozen=True):
    """What was done from `start` to `end`, counted from the first moment; at `pace` per mille."""

    start: int
    end: int
    doing: Doing
    moment: str
    shape: str
    side: str
    part: int
    hold: str
    pace: int = 1000

    @property
    def length(self) -> int:
        """How long it was."""
        return self.end - self.start

    @property
    def scaled(self) -> int:
        """How long it would have been at the pace as written."""
        return round(self.length * 1000 / self.pace)


class Waited(Struct, frozen=True):
    """One hold or stop: when, for how long, in which shape."""

    at: int
    ms: int
    shape: str
    side: str
    part: str


class PartLed(Struct, frozen=True):
    """A part: planned, and led with its holds; what was waited, and how many moments left out."""

    name: str
    planned: int
    led: int
    held: int
    stopped: int
    left_out: int


class ShapeLed(Struct, frozen=True):
    """A shape: planned, and led with its holds, `times` entered; by side where it has two."""

    id: str
    name: str
    times: int
    planned: int
    led: int
    planned_right: int = 0
    planned_left: int = 0
    right: int = 0
    left: int = 0


class StayLed(Struct, frozen=True):
    """A stay: whole breaths, or ms when `timed`, planned and led, its holds included.

    `sure` when its length was the teacher's wish: led to its end, and fitted to no clock.
    """

    hold: str
    shape: str
    side: str
    timed: bool
    rest: bool
    planned: int
    led: int
    sure: bool


class Spoken(Struct, frozen=True):
    """The cues: how many were said, for how long in all, late ones and those not said.

    `heard` when a voice said them; else they stood on the screen. `latest` is in ms.
    """

    cues: int
    ms: int
    late: int
    latest: int
    dropped: int
    heard: bool


class Review(Struct, frozen=True):
    """A class that was led.

    `account` says where the difference between `led` and `planned` lies; its values add up to it.
    Of its `moments`, `left_out` were passed over and `not_reached` lay after its end; a fit to the
    clock took out `landed`. `must_end` is when it should have ended by the clock on the wall, None
    when that was left open. `wall` is when it was opened.
    """

    title: str
    plan: str
    score: str
    version: str
    wall: str
    speed: float
    rehearsal: bool
    ending: Ending
    planned: int
    led: int
    must_end: int | None
    account: Mapping[str, int]
    parts: tuple[PartLed, ...]
    shapes: tuple[ShapeLed, ...]
    stays: tuple[StayLed, ...]
    holds: tuple[Waited, ...]
    stops: tuple[Waited, ...]
    commands: Mapping[str, int]
    refused: int
    offers: int
    faults: int
    moments: int
    left_out: int
    not_reached: int
    landed: int
    spoken: Spoken
    line: tuple[Stretch, ...]
