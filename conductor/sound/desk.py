"""From the sounds a class wants to the mixer's events: what it sounds like and at which frame."""

from __future__ import annotations

from array import array
from collections.abc import Callable, Sequence
from collections.abc import Set as AbstractSet

from conductor.score.model import Saying
from conductor.score.sounds import Bell, Sound, SoundId
from conductor.sound.mix import UNITY, Event

Library = Callable[[Saying | Bell], "array[int] | None"]
"""Samples (mono, 16 bits, 44.1 kHz) of words or a bell; None where there are none."""

Speech = Callable[[Saying], "array[int] | None"]
"""Samples (mono, 16 bits, 44.1 kHz) of words as rendered; None where they could not be."""

VOICE_DB = -3.1  # leaves room for a bell, and for the voice to be made 3 dB louder


def gain_of(decibels: float) -> int:
    """A gain in parts of UNITY, never above it: so nothing is ever clipped."""
    return min(round(UNITY * 10 ** (decibels / 20)), UNITY)


class Desk:
    """Holds the samples of the sounds wanted and remembers what was refused.

    A sound seen for the first time too late, or missed while there was no device, is refused
    for good: what is stale is dropped, not said.
    """

    def __init__(self, library: Library) -> None:
        self._library = library
        self._samples: dict[Saying | Bell, array[int] | None] = {}
        self._failed: dict[Saying | Bell, str] = {}
        self._refused: set[SoundId] = set()
        self._deaf_until: int | None = None

    def events(
        self,
        sounds: Sequence[Sound],
        now: int,
        frame_at: Callable[[int], int],
        begun: AbstractSet[object] = frozenset(),
    ) -> tuple[Event, ...]:
        """Events of the sounds wanted at `now` (ms); `frame_at` tells the frame of a start."""
        self._forget(sounds)
        events = []
        for sound in sounds:
            if sound.id not in begun and self._too_late(sound, now):
                self._refused.add(sound.id)
            if sound.id in self._refused:
                continue
            pcm = self._lookup(sound.what)
            if pcm:
                voice = isinstance(sound.what, Saying)
                gain = gain_of(sound.db + (VOICE_DB if voice else 0))
                events.append(Event(sound.id, frame_at(sound.start), pcm, voice, gain))
        return tuple(events)

    def miss(self, now: int) -> None:
        """There was no device until `now` (ms): what should have begun by then stays unsaid."""
        self._deaf_until = now

    @property
    def trouble(self) -> str:
        """Why something wanted has no sound, if the library failed; or ""."""
        return next(iter(self._failed.values()), "")

    def _too_late(self, sound: Sound, now: int) -> bool:
        missed = self._deaf_until is not None and sound.start < self._deaf_until
        return missed or now > sound.stale_after

    def _lookup(self, what: Saying | Bell) -> array[int] | None:
        if what not in self._samples:
            self._samples[what] = self._ask(what)
        return self._samples[what]

    def _ask(self, what: Saying | Bell) -> array[int] | None:
        try:
            return self._library(what)
        except Exception as error:  # noqa: BLE001 - one broken cue must not silence the others
            self._failed[what] = str(error) or type(error).__name__
            return None

    def _forget(self, sounds: Sequence[Sound]) -> None:
        """Keep only what is wanted still: a class may want an hour of speech one by one."""
        ids = {sound.id for sound in sounds}
        whats = {sound.what for sound in sounds}
        self._refused &= ids
        self._samples = {what: pcm for what, pcm in self._samples.items() if what in whats}
        self._failed = {what: why for what, why in self._failed.items() if what in whats}
