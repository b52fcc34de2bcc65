"""The device on a real sound server, recorded; and what of it needs no server."""

import gc
import math
import os
import subprocess
import sys
import threading
import time
from array import array
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import pairwise
from pathlib import Path

import pytest

from conductor.clock import SystemClock
from conductor.run.ports import Output
from conductor.score.model import Saying
from conductor.score.sounds import Bell, Sound, SoundId
from conductor.settings import Settings
from conductor.sound import device as device_module
from conductor.sound.device import Device, Silent, open_stream, quiet_stderr
from conductor.sound.player import Fill, NoOutputError, Stream
from conductor.sound.timed import Timed
from conductor.values import replace
from tests.sound import pulse

CLICK, TONE, BELL = Saying("click"), Saying("tone"), Bell("bell")
BUFFER_MS = 200
RECORDER_MS = 20  # what the recorder itself asks to be ahead of
SOUNDS: dict[Saying | Bell, "array[int]"] = {
    CLICK: pulse.click(),
    BELL: pulse.click(),
    TONE: array("h", [round(16_000 * math.sin(k / 40)) for k in range(20 * pulse.RATE)]),
}


def said(start: int, what: Saying | Bell = CLICK) -> Sound:
    return Sound(SoundId(f"{start}", 0, "voice"), start, what, start + 1500)


@contextmanager
def playing(*, wait: bool = True) -> Iterator[Device]:
    clock = SystemClock()
    device = Device(SOUNDS.get, clock, Settings(buffer_ms=BUFFER_MS))
    try:
        if wait:
            assert pulse.until(lambda: device.status().playing)
        device.timed(clock.now(), 1.0)
        yield device
    finally:
        device.close()


@pytest.mark.device
@pytest.mark.slow
def test_gaps_between_sounds_are_exact(sound_server: pulse.Server) -> None:
    plan = [500, 733, 1100, 1301, 1900, 2222, 2500, 3333]
    whats = [CLICK if k % 3 else BELL for k in range(len(plan))]
    with pulse.Recorder(sound_server) as recorder, playing() as device:
        device.want([said(*pair) for pair in zip(plan, whats, strict=True)], 0)
        recording = recorder.listen(plan[-1] / 1000 + 1)
    found = pulse.onsets(recording)
    assert len(found) == len(plan)
    gaps = [(b - a) / 44.1 for a, b in pairwise(found)]
    wanted = [b - a for a, b in pairwise(plan)]
    assert max(abs(a - b) for a, b in zip(gaps, wanted, strict=True)) < 1


@pytest.mark.device
@pytest.mark.slow
def test_what_is_taken_back_is_silent_within_two_buffers_and_does_not_click(
    sound_server: pulse.Server,
) -> None:
    with pulse.Recorder(sound_server) as recorder, playing() as device:
        device.want([said(0, TONE)], 0)
        assert recorder.wait(lambda samples: any(samples[-1000:]))
        recorder.listen(0.5)
        taken = len(recorder.samples)
        device.want([], 1000)
        recording = recorder.listen(1)
    last = max(k for k, sample in enumerate(recording) if sample)
    assert last * 1000 / pulse.RATE < 2 * BUFFER_MS + 20 + RECORDER_MS
    assert taken > 0
    step = max(abs(b - a) for a, b in pairwise(recording))
    assert step <= max(abs(b - a) for a, b in pairwise(SOUNDS[TONE][:1000])) + 1


@pytest.mark.device
@pytest.mark.slow
def test_a_volume_is_heard_within_two_buffers_in_the_midst_of_a_cue_and_does_not_click(
    sound_server: pulse.Server,
) -> None:
    with pulse.Recorder(sound_server) as recorder, playing() as device:
        device.want([said(0, TONE)], 0)
        assert recorder.wait(lambda samples: any(samples[-1000:]))
        loud = max(recorder.listen(0.5))
        device.want([replace(said(0, TONE), db=-12)], 1000)
        recording = recorder.listen(1)
    last = max(k for k, sample in enumerate(recording) if sample > loud / 2)
    assert last * 1000 / pulse.RATE < 2 * BUFFER_MS + 20 + RECORDER_MS
    assert abs(20 * math.log10(max(recording[-10_000:]) / loud) + 12) < 0.1
    step = max(abs(b - a) for a, b in pairwise(recording))
    assert step <= max(abs(b - a) for a, b in pairwise(SOUNDS[TONE][:1000])) + 1


@pytest.mark.device
@pytest.mark.slow
def test_a_server_that_dies_and_comes_back_costs_sound_and_nothing_else(
    sound_server: pulse.Server,
) -> None:
    cues = [said(k) for k in range(500, 30_000, 250)]
    with playing() as device:
        device.want(cues, 0)
        sound_server.kill()
        assert pulse.until(lambda: not device.status().playing, 3)
        assert "the output device is gone" in device.status().words
        before = time.monotonic()
        device.want(cues, 2000)
        assert time.monotonic() - before < 0.05
        sound_server.start()
        back = time.monotonic()
        with pulse.Recorder(sound_server) as recorder:
            assert recorder.wait(lambda samples: bool(pulse.onsets(samples[-8820:])))
            assert time.monotonic() - back < 3
        status = device.status()
    assert (status.playing, status.words, status.lost) == (True, "", 1)


@pytest.mark.device
@pytest.mark.slow
def test_no_server_at_the_start_is_told_and_one_that_comes_is_taken(
    sound_server: pulse.Server,
) -> None:
    sound_server.kill()
    with playing(wait=False) as device:
        assert pulse.until(lambda: "no output device was found" in device.status().words)
        assert not device.test()
        sound_server.start()
        with pulse.Recorder(sound_server) as recorder:
            assert pulse.until(lambda: device.status().playing, 4)
            assert device.status().lost == 0
            assert device.test()
            assert recorder.wait(lambda samples: bool(pulse.onsets(samples[-8820:])))


@pytest.mark.device
def test_opening_and_failing_to_open_leave_nothing_behind(sound_server: pulse.Server) -> None:
    def held() -> "Counter[str]":
        """Every open file, each socket and pipe by its own number, and every thread."""
        gc.collect()
        files = [link for fd in Path("/proc/self/fd").iterdir() if (link := opened(fd))]
        return Counter([*files, *(str(one.ident) for one in threading.enumerate())])

    def opened(fd: Path) -> str:
        try:
            return str(fd.readlink())
        except FileNotFoundError:  # the listing itself
            return ""

    def silence(frames: int) -> "array[int]":
        return array("h", bytes(2 * frames))

    open_stream(silence, BUFFER_MS).close()
    before = held()
    for _ in range(10):
        open_stream(silence, BUFFER_MS).close()
    sound_server.control("unload-module", "module-null-sink")
    for _ in range(10):
        with pytest.raises(NoOutputError):
            open_stream(silence, BUFFER_MS)
    sound_server.kill()
    for _ in range(10):
        with pytest.raises(NoOutputError):
            open_stream(silence, BUFFER_MS)
    assert pulse.until(lambda: not held() - before), held() - before


class Deaf:
    """An output that never asks for anything, or hangs when it is closed."""

    def __init__(self, hang: threading.Event | None = None) -> None:
        self.hang = hang
        self.latency_ms = 0.0
        self.name = "Null Output"

    def close(self) -> None:
        if self.hang is not None:
            self.hang.wait(10)


def test_closing_takes_less_than_a_second_even_if_the_output_hangs() -> None:
    hang = threading.Event()

    def opener(_fill: Fill, _buffer_ms: int) -> Stream:
        return Deaf(hang)

    device = Device(SOUNDS.get, SystemClock(), Settings(), opener=opener)
    before = time.monotonic()
    device.close()
    assert time.monotonic() - before < 1.0
    hang.set()


def test_an_error_on_the_thread_is_told_and_does_not_end_the_sound() -> None:
    turns = iter([ZeroDivisionError("a fault")])
    opened: list[Stream] = []

    def opener(_fill: Fill, _buffer_ms: int) -> Stream:
        for fault in turns:
            raise fault
        opened.append(Deaf())
        return opened[-1]

    device = Device(SOUNDS.get, SystemClock(), Settings(), opener=opener)
    assert pulse.until(lambda: "a fault" in device.status().words)
    device.want([], 0)
    assert pulse.until(lambda: bool(opened))
    assert pulse.until(lambda: "a fault" not in device.status().words)
    device.close()


def test_silent_says_why_and_plays_nothing() -> None:
    output: Output = Silent("Sound is off above 1.5 times the speed.")
    output.want([said(1)], 0)
    assert output.status().words == "Sound is off above 1.5 times the speed."
    assert not output.status().playing
    output.close()


@pytest.mark.parametrize(
    ("installed", "kind"),
    [
        ({"miniaudio"}, Device),
        ({"sounddevice", "simpleaudio"}, Device),
        ({"simpleaudio"}, Timed),
        (set(), Silent),
    ],
)
def test_the_best_output_that_is_installed_is_taken(
    installed: set[str], kind: type[Output], monkeypatch: pytest.MonkeyPatch
) -> None:
    def closed(_fill: Fill, _buffer_ms: int) -> Stream:
        raise NoOutputError("none")

    monkeypatch.setattr(device_module, "find_spec", lambda name: name in installed or None)
    monkeypatch.setattr(device_module, "open_stream", closed)
    found = device_module.output(SOUNDS.get, SystemClock(), Settings())
    assert isinstance(found, kind)
    found.close()


def test_sound_that_is_switched_off_is_silent() -> None:
    found = device_module.output(SOUNDS.get, SystemClock(), Settings(sound=False))
    assert isinstance(found, Silent)


def test_the_sound_library_is_not_loaded_before_a_stream_is_opened() -> None:
    code = "import sys, conductor.sound.device as d; print('miniaudio' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_descriptor_2_is_kept_from_c_libraries_and_given_back(tmp_path: Path) -> None:
    kept = os.dup(2)
    path = tmp_path / "err"
    try:
        with path.open("wb") as file:
            os.dup2(file.fileno(), 2)
            with quiet_stderr():
                os.write(2, b"ALSA lib")
            os.write(2, b"ours")
    finally:
        os.dup2(kept, 2)
        os.close(kept)
    assert path.read_bytes() == b"ours"
