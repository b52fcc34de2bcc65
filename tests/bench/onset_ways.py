"""Plays a plan of cues in one way: `onset_ways.py WAY CONDITION PLAN` (ms, comma separated).

A child of onsets.py, one process a way, so that no way disturbs another.
"""

from __future__ import annotations

import ctypes
import importlib
import importlib.util
import os
import random
import sys
import threading
import time
from array import array
from collections.abc import Callable, Generator
from typing import Any

RATE = 44_100
CLICK = array("h", [16_000 if k // 22 % 2 == 0 else -16_000 for k in range(RATE * 60 // 1000)])
AHEAD_S = 1.0  # from "ready" to the time the plan counts from
HOLD_MS = 30  # the busy interpreter is held this long at a time, ten times a second


def at_times(plan: list[float], play: Callable[[], object]) -> None:
    """Call `play` from a timer at each time of the plan."""
    begun = time.monotonic() + AHEAD_S
    for ms in plan:
        done = threading.Event()

        def fire(done: threading.Event = done) -> None:
            try:
                play()
            finally:
                done.set()

        threading.Timer(max(0.0, begun + ms / 1000 - time.monotonic()), fire).start()
        done.wait()


def ours(plan: list[float]) -> None:
    """The device of this project: sounds declared up to 4 s ahead, as a class declares them."""
    from conductor.clock import SystemClock  # noqa: PLC0415 - peers' interpreter has not all of it
    from conductor.score.model import Saying  # noqa: PLC0415
    from conductor.score.sounds import Sound, SoundId  # noqa: PLC0415
    from conductor.settings import Settings  # noqa: PLC0415
    from conductor.sound.device import Device  # noqa: PLC0415

    word, clock = Saying("click"), SystemClock()
    device = Device(lambda _: CLICK, clock, Settings())
    while not device.status().playing:
        time.sleep(0.05)
    begun = clock.now() + round(AHEAD_S * 1000)
    device.timed(begun, 1.0)
    sounds = [
        Sound(SoundId(f"{k}", 0, "voice"), round(ms), word, round(ms) + 1500)
        for k, ms in enumerate(plan)
    ]
    while (now := clock.now() - begun) < plan[-1] + 1000:
        device.want([s for s in sounds if now - 1000 < s.start < now + 4000], now)
        time.sleep(0.25)
    print(device.status(), file=sys.stderr)
    device.close()


def simpleaudio(plan: list[float]) -> None:
    """simpleaudio, started from a timer."""
    library = importlib.import_module("simpleaudio")
    library.play_buffer(array("h", bytes(882)), 1, 2, RATE).wait_done()
    at_times(plan, lambda: library.play_buffer(CLICK, 1, 2, RATE))


def new_device(plan: list[float]) -> None:
    """miniaudio with a new device for each cue, opened from a timer."""
    library = importlib.import_module("miniaudio")
    open_ones: list[Any] = []

    def frames() -> Generator[array[int], int, None]:
        at, count = 0, (yield array("h"))
        while True:
            piece = CLICK[at : at + count]
            at += count
            count = yield piece + array("h", bytes(2 * (count - len(piece))))

    def play() -> None:
        device = library.PlaybackDevice(nchannels=1, sample_rate=RATE)
        stream = frames()
        next(stream)
        device.start(stream)
        open_ones.append(device)
        if len(open_ones) > 1:
            old = open_ones.pop(0)
            context = old._context  # given back, or the server refuses its 65th client
            old.close()
            library.lib.ma_context_uninit(context)

    at_times(plan, play)


def pyttsx3_say(plan: list[float]) -> None:
    """pyttsx3 speaking a syllable in a thread, started from a timer."""
    if importlib.util.find_spec("espeakng_loader"):
        loader = importlib.import_module("espeakng_loader")
        ctypes.CDLL(loader.get_library_path(), mode=ctypes.RTLD_GLOBAL)
        os.environ["ESPEAK_DATA_PATH"] = loader.get_data_path()
    engine = importlib.import_module("pyttsx3").init()

    def play() -> None:
        engine.say("pa")
        engine.runAndWait()

    at_times(plan, play)


def keep_busy() -> None:
    """Hold the interpreter for 30 ms at a time, as a long sort or a parse does."""
    rnd = random.Random(1)  # noqa: S311 - not for secrets
    numbers = [rnd.random() for _ in range(60_000)]
    before = time.perf_counter()
    sorted(numbers)
    size = min(10.0, HOLD_MS / 1000 / (time.perf_counter() - before))
    numbers = [rnd.random() for _ in range(round(60_000 * size))]
    while True:
        sorted(numbers)
        time.sleep(0.1 - HOLD_MS / 1000)


WAYS: dict[str, Callable[[list[float]], None]] = {
    "ours": ours,
    "simpleaudio": simpleaudio,
    "new-device": new_device,
    "pyttsx3": pyttsx3_say,
}

if __name__ == "__main__":
    way, condition, times = sys.argv[1:]
    if condition == "busy":
        threading.Thread(target=keep_busy, daemon=True).start()
    WAYS[way]([float(ms) for ms in times.split(",")])
    time.sleep(1)
    os._exit(0)  # some libraries hang on their way out
