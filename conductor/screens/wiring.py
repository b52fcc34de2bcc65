"""What the screens are handed: a shelf of plans, a class made ready, a class being led."""

from collections.abc import Callable, Sequence
from enum import StrEnum
from typing import Protocol

from conductor.progress import Progress
from conductor.score.model import Score
from conductor.values import Struct, field
from conductor.view.actions import EVERY, Action
from conductor.view.glass import Glass
from conductor.view.leading import Leading
from conductor.view.machine import Fact

TimeOfDay = Callable[[], str]
"""The clock on the wall, as people read it."""


class Wishes(Struct, frozen=True):
    """What a person set for the screens: the actions with their keys, and what was amiss in it.

    `pixels` are those of a row, as the terminal told before the screens took it. The `glass` says
    whose side is told, and is shared with the voice.
    """

    actions: tuple[Action, ...] = EVERY
    troubles: tuple[str, ...] = ()
    pixels: float | None = None
    glass: Glass = field(default_factory=Glass)


AS_USUAL = Wishes()


class Entry(Struct, frozen=True):
    """A plan on the shelf: what opens it, and what a person chooses by.

    `file` is its name in its folder, `for_` whom it is for, `led` when it was led last, in words.
    `problem` says why it cannot be read at all. What only reading tells is there when it is `read`.
    """

    key: str
    title: str
    kind: str = "class"
    length_ms: int = 0
    errors: int = 0
    warnings: int = 0
    problem: str = ""
    for_: str = ""
    led: str = ""
    file: str = ""
    read: bool = True


class Prepared(Protocol):
    """A plan that can be led, before it is."""

    @property
    def score(self) -> Score:
        """The compiled plan."""
        ...

    @property
    def as_last_time(self) -> str:
        """What is taken over from the last time the plan was led, in words; "" when nothing is."""
        ...

    @property
    def goes_on(self) -> str:
        """Id of the moment a class that broke off goes on from; "" for one that begins."""
        ...

    @property
    def voiced(self) -> bool:
        """Whether cues are heard, as far as is known: else the screen shows them large."""
        ...

    @property
    def distance_m(self) -> float:
        """From how far away the screen is read, as settings or plan have it."""
        ...

    @property
    def findings(self) -> str:
        """What the check has to say, as text; "" when nothing."""
        ...

    def machine(self) -> Sequence[Fact]:
        """How sound, sleep and power are; may take half a second."""
        ...

    def begin_now(self) -> str:
        """What beginning now would change of a class with an end to meet; "" if nothing."""
        ...

    def prepare(self, progress: Progress) -> str:
        """Render the voice, on the caller's thread; what went wrong in words, "" when nothing."""
        ...

    def sound_test(self) -> str:
        """Let a bell and a few words be heard; what to listen for, or what is the matter."""
        ...

    def begin(self) -> Leading:
        """Open the sound and give the class, ready to begin."""
        ...

    def close(self) -> None:
        """Let go of sound and voice, from any thread; nothing is done once the class has begun."""
        ...


class Shelf(Protocol):
    """The plans there are."""

    def plans(self) -> Sequence[Entry]:
        """All of them in the order to show them, most of them unread; on a thread of its own."""
        ...

    def entry(self, key: str) -> Entry:
        """One of them read: its length and what the check says; on a thread of its own."""
        ...

    def open(self, key: str) -> Prepared | str:
        """A plan made ready, or the findings that keep it from being led."""
        ...


class Opening(Struct, frozen=True):
    """The one plan asked for: the name it is waited for by, and what opens it.

    `open` may take a while and is called on a thread of its own, once a picture stands; it gives
    words for a plan that cannot be led.
    """

    name: str
    open: Callable[[], Prepared | str]


class Offer(Struct, frozen=True):
    """A class that broke off and can be gone on with: what to say of it, and the two answers.

    Both may take a while and are called on a thread of their own; `go_on` gives words where the
    class cannot be had after all.
    """

    title: str
    words: str
    go_on: Callable[[], Prepared | str]
    let_go: Callable[[], None]
    otherwise: str = "n leaves it, for good."


Offering = Callable[[], Offer | None]
"""Looks whether a class broke off; called on a thread of its own, once a picture stands."""


class How(StrEnum):
    """How the screens came to an end."""

    FINISHED = "finished"  # the class came to its end
    ENDED = "ended"  # a person ended it
    LEFT = "left"  # no class had begun
    REFUSED = "refused"  # the plan asked for cannot be led; `error` says why
    DIED = "died"  # the screen failed; the class, if any, goes on


class Ending(Struct, frozen=True):
    """The end of the screens, and the class that was being led: still going when `how` is DIED."""

    how: How
    leading: Leading | None = None
    error: str = ""
