"""The mixer: sounds wanted in, samples out; pure, and the same for any size of block."""

from __future__ import annotations

from array import array
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from conductor.sound.lanes import UNITY, doubled, scaled, summed
from conductor.values import Struct

__all__ = ["FADE", "RATE", "SAME", "UNITY", "Event", "Mixer", "doubled", "scaled"]

RATE = 44_100  # frames a second; speech at 22 050 doubles exactly
FADE = 529  # frames, 12 ms: no click is left of a sound cut off (measured: below -90 dB)
SAME = 882  # frames, 20 ms: a smaller change of a start is not worth moving a sound for
RECOVER = 17_457  # frames, 396 ms in which a bell comes back after a voice
DUCK_STEP = 33  # a bell goes down 33 times as fast as it comes back: in 12 ms
UNDER = 1310  # of UNITY: a bell under a voice is 28 dB down


class Event(Struct, frozen=True):
    """A sound and the frame at which it starts; `voice` tells speech, which bells give way to.

    `gain` is in parts of UNITY, at most that; another one is taken up in the midst of the sound.
    """

    id: Hashable
    start: int
    pcm: array[int]
    voice: bool = True
    gain: int = UNITY


@dataclass(slots=True)
class _Playing:
    """A sound taken up by the mixer; from frame `fade` on, if set, it goes out.

    Its gain went, or goes, from `before` to `gain` in the frames after `turned`.
    """

    start: int
    pcm: array[int]
    voice: bool
    gain: int = UNITY
    fade: int | None = None
    before: int = UNITY
    turned: int | None = None

    @property
    def end(self) -> int:
        end = self.start + len(self.pcm)
        return end if self.fade is None else max(self.start, min(end, self.fade + FADE))

    def turn(self, gain: int, frame: int) -> None:
        """Let it go to another gain from a frame on."""
        if gain != self.gain:
            self.before, self.gain, self.turned = self.gain_at(frame), gain, frame

    def gain_at(self, frame: int) -> int:
        """Its gain at a frame: a smooth step while it changes."""
        if self.turned is None or frame >= self.turned + FADE:
            return self.gain
        return self.gain + ((self.before - self.gain) * FALL[frame - self.turned] >> 15)

    def level(self, samples: array[int], first: int) -> array[int]:
        """Samples of it from frame `first` on, at its gain."""
        turning = 0 if self.turned is None else max(0, self.turned + FADE - first)
        moving, steady = samples[:turning], samples[turning:]
        ramp = [s * self.gain_at(first + k) >> 15 for k, s in enumerate(moving)]
        return array("h", ramp) + (steady if self.gain == UNITY else scaled(steady, self.gain))


@dataclass(slots=True)
class _Block:
    """The block being mixed: where it starts, its samples, the stretches already filled."""

    start: int
    out: array[int]
    filled: list[tuple[int, int]] = field(default_factory=list)

    def lay(self, at: int, samples: array[int]) -> None:
        """Add samples at a frame of the stream; what would not fit 16 bits is held at the limit."""
        first = at - self.start
        last = first + len(samples)
        if any(first < end and start < last for start, end in self.filled):
            samples = summed(self.out[first:last], samples)
        self.out[first:last] = samples
        self.filled.append((first, last))


class Mixer:
    """Mixes what is wanted, frame by frame, from frame 0 on.

    `want` may be called from any thread: it changes one reference and the next `render` takes the
    new list up as a whole. `begun` names the sounds wanted that have started.
    """

    def __init__(self) -> None:
        self.frame = 0
        self.begun: frozenset[Hashable] = frozenset()
        self._wanted: tuple[Event, ...] = ()
        self._seen: tuple[Event, ...] = ()
        self._playing: dict[Hashable, _Playing] = {}
        self._leaving: list[_Playing] = []
        self._duck = 0  # 0 (bells as they are) to RECOVER (bells under a voice)

    def want(self, events: Iterable[Event]) -> None:
        """Declare the whole list wanted; the next block keeps, moves, fades and drops by id."""
        self._wanted = tuple(events)

    def render(self, frames: int) -> array[int]:
        """The next frames of the mix."""
        wanted = self._wanted
        if wanted is not self._seen:
            self._reconcile(wanted)
            self._seen = wanted
        block = _Block(self.frame, array("h", bytes(2 * frames)))
        end = self.frame + frames
        sounding = [p for p in self._all() if p.start < end and p.end > self.frame]
        if sounding or self._duck:
            self._mix(block, sounding, end)
        self.frame = end
        self._forget()
        return block.out

    def _all(self) -> list[_Playing]:
        return [*self._leaving, *self._playing.values()]

    def _reconcile(self, wanted: Sequence[Event]) -> None:
        old, self._playing = self._playing, {}
        for event in wanted:
            known = old.pop(event.id, None)
            self._playing[event.id] = self._take(event, known)
        for gone in old.values():
            if gone.start < self.frame < gone.end:
                gone.fade = self.frame if gone.fade is None else min(gone.fade, self.frame)
                self._leaving.append(gone)
        self._give_way()

    def _take(self, event: Event, known: _Playing | None) -> _Playing:
        if known is not None and known.start < self.frame:
            known.turn(event.gain, self.frame)
            return known
        if known is not None and abs(known.start - event.start) <= SAME:
            start = known.start
        else:
            start = max(event.start, self.frame)
        return _Playing(start, event.pcm, event.voice, event.gain)

    def _give_way(self) -> None:
        """Let a voice end where a later one starts, going out just before where there is time."""
        voices = sorted((p for p in self._all() if p.voice), key=lambda p: p.start)
        for earlier, later in pairwise(voices):
            if earlier.end > later.start:
                fade = max(later.start - FADE, self.frame)
                if earlier.start >= fade:
                    fade = earlier.start - FADE  # it never gets a word in
                earlier.fade = fade if earlier.fade is None else min(earlier.fade, fade)

    def _mix(self, block: _Block, sounding: list[_Playing], end: int) -> None:
        for playing in sounding:
            if playing.voice:
                first, last = max(playing.start, block.start), min(playing.end, end)
                block.lay(first, _faded(playing, first, last))
        bells = [p for p in sounding if not p.voice]
        for first, last, speaking in _stretches(block, end):
            self._bells(block, bells, first, last, speaking=speaking)

    def _bells(
        self, block: _Block, bells: list[_Playing], first: int, last: int, *, speaking: bool
    ) -> None:
        """Mix the bells of a stretch in which the voice speaks throughout, or not at all."""
        duck = self._duck
        step = DUCK_STEP if speaking else -1
        for bell in bells:
            start, end = max(bell.start, first), min(bell.end, last)
            if start < end:
                samples = _faded(bell, start, end)
                block.lay(start, _ducked(samples, duck + (start - first) * step, step))
        self._duck = min(RECOVER, max(0, duck + (last - first) * step))

    def _forget(self) -> None:
        self._leaving = [p for p in self._leaving if p.end > self.frame]
        begun = frozenset(key for key, p in self._playing.items() if p.start < self.frame)
        if begun != self.begun:
            self.begun = begun


def _stretches(block: _Block, end: int) -> list[tuple[int, int, bool]]:
    """The block cut where speech starts and ends; only voices have been laid so far."""
    cuts: list[tuple[int, int, bool]] = []
    at = block.start
    for first, last in sorted(block.filled):
        start, stop = max(at, first + block.start), last + block.start
        if start > at:
            cuts.append((at, start, False))
        if stop > start:
            cuts.append((start, stop, True))
        at = max(at, stop)
    if at < end:
        cuts.append((at, end, False))
    return cuts


def _faded(playing: _Playing, first: int, last: int) -> array[int]:
    """The sound's samples between two frames of the stream, with its going out if it does."""
    begin = playing.start
    samples = playing.level(playing.pcm[first - begin : last - begin], first)
    if playing.fade is None or last <= playing.fade:
        return samples
    cut = max(first, playing.fade)
    fall = FALL[cut - playing.fade : last - playing.fade]
    going = zip(samples[cut - first :], fall, strict=True)
    samples[cut - first :] = array("h", [(s * gain) >> 15 for s, gain in going])
    return samples


def _ducked(samples: array[int], duck: int, step: int) -> array[int]:
    """A bell's samples at the level the voice leaves it; `duck` may lie beyond its limits."""
    left = max(0, duck) if step < 0 else max(0, -((duck - RECOVER) // step))
    moving, steady = samples[:left], samples[left:]
    ramp = [
        (s * (UNITY - (UNITY - UNDER) * min(RECOVER, duck + i * step) // RECOVER)) >> 15
        for i, s in enumerate(moving)
    ]
    return array("h", ramp) + (steady if step < 0 else scaled(steady, UNDER))


def _fall() -> array[int]:
    """Gains of going out: a smooth step from just under UNITY to 0 (3t^2 - 2t^3)."""
    steps = range(1, FADE + 1)
    return array("i", [UNITY - UNITY * k * k * (3 * FADE - 2 * k) // FADE**3 for k in steps])


FALL = _fall()
