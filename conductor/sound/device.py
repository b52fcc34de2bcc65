"""The output device: the only room that knows a sound library, loaded when it is first opened."""

from __future__ import annotations

import contextlib
import importlib
import os
import sys
import threading
from array import array
from collections.abc import Generator, Iterator, Sequence
from importlib.util import find_spec
from typing import Any

from conductor.clock import Clock
from conductor.run.ports import OutputStatus
from conductor.score.sounds import Bell, Sound
from conductor.settings import Settings
from conductor.sound.desk import Library
from conductor.sound.mix import RATE
from conductor.sound.player import UNABLE, Fill, NoOutputError, Opener, Player, Stream
from conductor.sound.timed import Playing, Timed

TICK_S = 0.25  # what is wanted is placed anew this often, so that drift is followed
SEEK_S = 0.1  # while there is no sound: looked for a device, or for its first callbacks
CLOSE_S = 0.6  # for fading and two buffers; with the closing itself below a second
BACKENDS = {  # never the library's null output: no device must be an error that can be told
    "linux": ("PULSEAUDIO", "ALSA", "JACK"),
    "darwin": ("COREAUDIO",),
    "win32": ("WASAPI", "DSOUND", "WINMM"),
}
NO_LIBRARY = "no sound library is installed (miniaudio or sounddevice)"
OTHER_BACKENDS = ("AUDIO4", "SNDIO", "OSS")


class Device:
    """Sound through the machine's output device, opened and kept open on a thread of its own.

    `library` gives samples and `clock` is the one the class's `now` is made of. `timed` says how;
    before it has, that is worked out from the calls of `want`.
    """

    def __init__(
        self,
        library: Library,
        clock: Clock,
        settings: Settings,
        speed: float = 1.0,
        opener: Opener | None = None,
    ) -> None:
        self._player = Player(library, clock, settings, opener or open_stream, speed)
        self._wake = threading.Event()
        self._closing = threading.Event()
        self._trouble = ""
        self._thread = threading.Thread(target=self._run, name="sound", daemon=True)
        self._thread.start()

    def timed(self, epoch: float, speed: float) -> None:
        """Learn how the class's time follows the clock."""
        self._player.timed(epoch, speed)
        self._wake.set()

    def want(self, sounds: Sequence[Sound], now: int) -> None:
        """Declare the whole list wanted for the next seconds; never blocks."""
        self._player.want(sounds, now)
        self._wake.set()

    def status(self) -> OutputStatus:
        """How it is going; never blocks."""
        status = self._player.status
        if self._trouble:
            return OutputStatus(False, self._trouble, status.lost, status.underruns)
        return status

    def test(self, bell: str = "bell") -> bool:
        """Strike a bell now, before class; False when nothing can be heard."""
        struck = self._player.test(Bell(bell))
        self._wake.set()
        return struck

    def close(self) -> None:
        """Fade, let two buffers out, close; within a second."""
        self._closing.set()
        self._wake.set()
        self._thread.join(1.0)

    def _run(self) -> None:
        while not self._closing.is_set():
            try:
                self._player.tick()
                self._trouble = ""
            except Exception as trouble:  # noqa: BLE001 - whatever it is, the class goes on
                self._trouble = f"No sound: {str(trouble) or repr(trouble)}. The class goes on."
            self._wake.wait(TICK_S if self._player.status.playing else SEEK_S)
            self._wake.clear()
        self._finish()

    def _finish(self) -> None:
        frame = self._player.finish()
        if frame is not None:
            turns = round(CLOSE_S / 0.02)
            while turns and not self._player.reached(frame):
                self._wake.wait(0.02)
                turns -= 1
        self._player.close()


class Silent:
    """No sound at all, and why: switched off, too fast for speech, or not possible here."""

    def __init__(self, words: str = "Sound is off.") -> None:
        self._status = OutputStatus(playing=False, words=words)

    def want(self, sounds: Sequence[Sound], now: int) -> None:
        """Nothing sounds."""

    def timed(self, epoch: float, speed: float) -> None:
        """Nothing sounds at any speed."""

    def status(self) -> OutputStatus:
        """Why nothing sounds."""
        return self._status

    def close(self) -> None:
        """There is nothing to close."""


def output(
    library: Library, clock: Clock, settings: Settings, speed: float = 1.0
) -> Device | Timed | Silent:
    """The best output that is installed here; nothing is opened before this returns."""
    if not settings.sound:
        return Silent()
    if any(map(find_spec, ("miniaudio", "sounddevice"))):
        return Device(library, clock, settings, speed)
    if find_spec("simpleaudio"):
        return Timed(library, clock, _simpleaudio, speed)
    return Silent(UNABLE.format(NO_LIBRARY))


def _simpleaudio(pcm: array[int]) -> Playing:
    play: Playing = importlib.import_module("simpleaudio").play_buffer(pcm, 1, 2, RATE)
    return play


def open_stream(fill: Fill, buffer_ms: int) -> Stream:
    """Open the machine's default output with the first library that is installed."""
    for name, opener in (("miniaudio", _Miniaudio), ("sounddevice", _Sounddevice)):
        try:
            library = importlib.import_module(name)
        except (ImportError, OSError):  # sounddevice finds its C library at import
            continue
        with quiet_stderr():
            return opener(library, fill, buffer_ms)
    raise NoOutputError(NO_LIBRARY, lasting=True)


class _Miniaudio:
    """A stream of miniaudio's; the generator is its way of a callback."""

    def __init__(self, library: Any, fill: Fill, buffer_ms: int) -> None:
        self.latency_ms = buffer_ms / 2 + 20  # measured with 100, 200 and 400 ms, recorded
        self._uninit = library.lib.ma_context_uninit
        self._contexts: list[Any] = []
        names = BACKENDS.get(sys.platform, OTHER_BACKENDS)
        backends = [getattr(library.Backend, name) for name in names]
        try:
            devices = library.Devices(backends)
            self.name = _default_name(library, devices)
            if not devices.get_playbacks():
                raise NoOutputError("no output device was found")  # opening one would leak
            self._device = _keeping_contexts(library, self._contexts)(
                nchannels=1,
                sample_rate=RATE,
                buffersize_msec=buffer_ms,
                backends=backends,
                app_name="conductor",
            )
            self._device.start(_frames(fill))
        except library.MiniaudioError as error:
            self._disconnect()
            raise NoOutputError("no output device was found") from error

    def close(self) -> None:
        """End the stream and the connection to the sound server."""
        self._device.close()
        self._disconnect()

    def _disconnect(self) -> None:
        """Give contexts back: the library keeps them, ten file descriptors each (measured)."""
        while self._contexts:
            self._uninit(self._contexts.pop())


def _default_name(library: Any, devices: Any) -> str:
    """The name of the output the system plays through; the library's own list leaves that out."""
    ffi = library.ffi
    with ffi.new("ma_device_info**") as infos, ffi.new("ma_uint32*") as number:
        context = devices._context
        found = library.lib.ma_context_get_devices(context, infos, number, ffi.NULL, ffi.NULL)
        if found != library.lib.MA_SUCCESS:
            return ""
        listed = [infos[0][at] for at in range(number[0])]
        default = next((one for one in listed if one.isDefault), None)
        return str(ffi.string(default.name).decode("utf-8", "replace")) if default else ""


def _keeping_contexts(library: Any, contexts: list[Any]) -> Any:
    """The library's device, its contexts noted in a list even where opening it fails."""

    class Keeping(library.PlaybackDevice):  # type: ignore[misc]
        def _make_context(self, *args: Any) -> Any:
            contexts.append(super()._make_context(*args))
            return contexts[-1]

    return Keeping


def _frames(fill: Fill) -> Generator[array[int], int, None]:
    def frames() -> Generator[array[int], int, None]:
        count = yield array("h")
        while True:
            count = yield fill(count)

    generator = frames()
    next(generator)
    return generator


class _Sounddevice:
    """A stream of sounddevice's, for machines that miniaudio has no wheel for."""

    def __init__(self, library: Any, fill: Fill, buffer_ms: int) -> None:
        self.latency_ms = buffer_ms + 20.0  # measured with 200 ms, recorded
        self.name = ""

        def callback(out: Any, frames: int, _time: object, _status: object) -> None:
            out[:] = fill(frames).tobytes()

        try:
            self._stream = library.RawOutputStream(
                samplerate=RATE,
                channels=1,
                dtype="int16",
                latency=buffer_ms / 1000,
                callback=callback,
            )
            self._stream.start()
            self.name = str(library.query_devices(kind="output").get("name", ""))
        except library.PortAudioError as error:
            library._terminate()  # it lists the devices only once: look anew next time
            library._initialize()
            raise NoOutputError("no output device was found") from error

    def close(self) -> None:
        """End the stream."""
        self._stream.close()


@contextlib.contextmanager
def quiet_stderr() -> Iterator[None]:
    """Keep file descriptor 2 from C libraries, which print there when a device is missing.

    Whoever draws on it has a duplicate of its own.
    """
    try:
        kept = os.dup(2)
    except OSError:
        yield
        return
    try:
        with open(os.devnull, "wb") as nothing:  # noqa: PTH123 - a descriptor is what is needed
            os.dup2(nothing.fileno(), 2)
        yield
    finally:
        os.dup2(kept, 2)
        os.close(kept)
