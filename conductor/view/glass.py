"""Which side is told, the class's or the mirrored one of a teacher who faces it; no text yet.

Knows nothing of words, so that it can be there before whatever reads a plan.
"""

from conductor.values import Struct


class Mirror(Struct, frozen=True):
    """Whether the screen, and whether the cues, tell the side of the teacher who faces the class.

    A teacher who faces the class and moves as its mirror image has the other foot in front: the
    class's right is the teacher's left (common practice). The score keeps the class's side.
    """

    screen: bool = False
    cues: bool = False

    @property
    def on(self) -> bool:
        """Whether anything is mirrored."""
        return self.screen or self.cues


MIRRORS = {
    "off": Mirror(),
    "screen": Mirror(screen=True),
    "cues": Mirror(cues=True),
    "both": Mirror(screen=True, cues=True),
}
"""What can be set, by name."""


class Glass:
    """The mirror as it stands now; front ends turn it, and the voice looks at it."""

    def __init__(self, name: str = "off") -> None:
        self._wished = MIRRORS[name] if MIRRORS[name].on else Mirror(screen=True)
        self.now = MIRRORS[name]

    @property
    def may_speak(self) -> bool:
        """Whether mirrored cues may be asked for, so that they are made ready."""
        return self._wished.cues

    def turn(self) -> Mirror:
        """Mirror what was wished for, at least the screen; or no more."""
        self.now = Mirror() if self.now.on else self._wished
        return self.now
