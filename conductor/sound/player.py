"""One stream after another: opens it, feeds it, notices that it is gone, opens the next."""

from __future__ import annotations

import threading
from array import array
from collections import deque
from collections.abc import Callable, Sequence
from typing import Protocol

from conductor.clock import Clock
from conductor.run.ports import OutputStatus
from conductor.score.sounds import Bell, Sound
from conductor.settings import Settings
from conductor.sound.clockmap import ClockMap
from conductor.sound.desk import Desk, Library
from conductor.sound.mix import RATE, Event, Mixer

LEAST_BUFFER_MS = 100  # below it something that holds the interpreter is heard (measured)
RETRY_MS = 500  # with a start of up to two seconds, sound is back within three
STARTING_MS = 3000  # a stream's first callbacks may stall this long (measured: 1.7 s)
STALLED_MS = 500  # this thread itself came so late: the machine is busy, not the device gone
CEASED_MS = 1000  # no callback for this long, or for five buffers: the device is gone
ANEW_MS = 50  # the class's time differs by more: it was set anew (a sleep, a new class)
CLOSING_S = 0.3
OPENING = "Sound: opening the output device."
GONE = "No sound: the output device is gone. The class goes on; sound returns with the device."
NONE = "No sound: {}. The class goes on; sound starts when there is an output device."
PARTLY = "Some of the sound is missing: {}."
UNABLE = "No sound: {}. The class goes on as text."

Fill = Callable[[int], "array[int]"]
"""What a stream calls for its next frames."""


class NoOutputError(Exception):
    """No stream could be opened; `lasting` when trying again is no use."""

    def __init__(self, words: str, *, lasting: bool = False) -> None:
        super().__init__(words)
        self.lasting = lasting


class Stream(Protocol):
    """An open output that asks for frames until it is closed.

    `latency_ms` is from asking for a frame to hearing it, when it asks as early as it does.
    """

    @property
    def latency_ms(self) -> float:
        """As far as it is known; what a loudspeaker adds is the person's own setting."""
        ...

    @property
    def name(self) -> str:
        """What the system calls the device; "" where that is not known."""
        ...

    def close(self) -> None:
        """End it; what was handed over may be lost."""
        ...


Opener = Callable[[Fill, int], Stream]
"""Opens a stream with a buffer of so many ms, or raises NoOutputError."""


class Link:
    """What one stream needs: its mixer, and the times at which it asked for frames."""

    def __init__(self, clock: Clock) -> None:
        self.mixer = Mixer()
        self.map = ClockMap()
        self.opened = clock.awake()
        self.called: int | None = None
        self.faults = 0
        self.stream: Stream | None = None
        self._clock = clock
        self._stamps: deque[tuple[int, int]] = deque(maxlen=512)

    def fill(self, frames: int) -> array[int]:
        """The stream's callback: mixes and nothing else, and lets no exception out."""
        try:
            self._stamps.append((self.mixer.frame, self._clock.now()))
            self.called = self._clock.awake()
            return self.mixer.render(frames)
        except Exception:  # noqa: BLE001 - one raised in here would end all sound for good
            self.faults += 1
            return array("h", bytes(2 * frames))

    def observe(self) -> None:
        """Let the clock map see when frames were asked for."""
        while self._stamps:
            self.map.observe(*self._stamps.popleft())


class Player:
    """Keeps a stream open and fed; has no thread: `tick` does what is due."""

    def __init__(
        self,
        library: Library,
        clock: Clock,
        settings: Settings,
        opener: Opener,
        speed: float = 1.0,
    ) -> None:
        self.buffer_ms = max(LEAST_BUFFER_MS, settings.buffer_ms)
        self.status = OutputStatus(playing=False, words=OPENING)
        self._clock = clock
        self._open = opener
        self._time: tuple[float | None, float] = None, speed
        self._offset = settings.offset_ms
        self._library = library
        self._desk = Desk(library)
        self._link: Link | None = None
        self._wish: tuple[Sound, ...] = ()
        self._guess: float | None = None
        self._next_try: int | None = clock.awake()
        self._tests: tuple[Event, ...] = ()
        self._underruns = 0
        self._ticked = clock.awake()

    @property
    def epoch(self) -> float | None:
        """Reading of the clock (ms) at which the class's `now` was 0; None before it was told."""
        return self._time[0]

    def timed(self, epoch: float | None, speed: float) -> None:
        """Learn how the class's time follows the clock, both in one; what plays plays on."""
        self._time = epoch, speed

    def want(self, sounds: Sequence[Sound], now: int) -> None:
        """Remember what is wanted at the class's `now` (ms); taken up by the next tick."""
        guess = self._clock.now() - now / self._time[1]
        if self._guess is None or abs(guess - self._guess) > ANEW_MS:
            self._guess = guess
        self._guess = min(self._guess, guess)  # a call may come late, never early
        self._wish = tuple(sounds)

    def test(self, bell: Bell) -> bool:
        """Strike a bell now, so that a person can hear whether all is well; False if it cannot."""
        pcm = self._library(bell)
        if pcm is None or not self.status.playing:
            return False
        number = self._tests[0].id[1] + 1 if self._tests else 0  # type: ignore[index]
        self._tests = (Event(("test", number), 0, pcm, voice=False),)
        return True

    def tick(self) -> None:
        """Open, watch, feed: what is due."""
        now = self._clock.awake()
        stalled = now - self._ticked > STALLED_MS
        self._ticked = now
        if self._link is None and self._next_try is not None and now >= self._next_try:
            self._try(now)
        link = self._link
        if link is None:
            return
        link.observe()
        if not stalled and self._ceased(link, now):
            self._lose(link, now)
        elif link.map.frame_at(0) is not None:
            self._feed(link)

    def finish(self) -> int | None:
        """Want nothing any more; the frame at which silence has been let out, if there is one."""
        self._wish, self._tests = (), ()
        link = self._link
        if link is None or link.called is None:
            return None
        link.mixer.want(())
        return link.mixer.frame + 2 * self.buffer_ms * RATE // 1000

    def reached(self, frame: int) -> bool:
        """Whether the stream has asked for that frame."""
        return self._link is None or self._link.mixer.frame >= frame

    def close(self) -> None:
        """Let the stream go."""
        link, self._link, self._next_try = self._link, None, None
        if link is not None:
            release(link)

    def _try(self, now: int) -> None:
        link = Link(self._clock)
        try:
            link.stream = self._open(link.fill, self.buffer_ms)
        except NoOutputError as trouble:
            self._next_try = None if trouble.lasting else now + RETRY_MS
            if not self.status.lost:
                words = (UNABLE if trouble.lasting else NONE).format(trouble)
                self.status = OutputStatus(playing=False, words=words)
        else:
            link.opened = self._clock.awake()
            self._link = link

    def _ceased(self, link: Link, now: int) -> bool:
        limit = max(CEASED_MS, 5 * self.buffer_ms)
        if link.map.frame_at(0) is None:
            return now - link.opened > max(STARTING_MS, limit)
        return link.called is not None and now - link.called > limit

    def _lose(self, link: Link, now: int) -> None:
        started = self.status.playing
        self._underruns += link.map.underruns
        self._link, self._next_try, self._tests = None, now, ()
        lost = self.status.lost + started
        words = GONE if lost else NONE.format("the output device does not start")
        self.status = OutputStatus(False, words, lost, self._underruns)
        release(link)

    def _feed(self, link: Link) -> None:
        epoch, speed = self._time
        epoch = self._guess if epoch is None else epoch
        if not self.status.playing and epoch is not None:
            self._desk.miss(round((self._clock.now() - epoch) * speed))
        events = () if epoch is None else self._events(link, epoch, speed)
        link.mixer.want((*events, *self._tests))
        words = PARTLY.format(self._desk.trouble) if self._desk.trouble else ""
        underruns = self._underruns + link.map.underruns
        name = link.stream.name if link.stream else ""
        self.status = OutputStatus(True, words, self.status.lost, underruns, name)

    def _events(self, link: Link, epoch: float, speed: float) -> tuple[Event, ...]:
        shift = epoch + self._offset - (link.stream.latency_ms if link.stream else 0.0)

        def frame_at(start: int) -> int:
            return link.map.frame_at(shift + start / speed) or 0

        now = round((self._clock.now() - epoch) * speed)
        return self._desk.events(self._wish, now, frame_at, link.mixer.begun)


def release(link: Link) -> None:
    """Close a stream on a thread of its own: a driver that hangs must not hold up the rest."""
    stream = link.stream
    if stream is not None:
        closer = threading.Thread(target=stream.close, name="close sound", daemon=True)
        closer.start()
        closer.join(CLOSING_S)
