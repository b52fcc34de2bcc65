"""A private PulseAudio server with a null sink, a recorder of its monitor, and onsets."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import tempfile
import threading
import time
from array import array
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Self

RATE = 44_100
LOUD = 1500  # of 32 768: an onset is the first sample above it after a quiet stretch
QUIET = RATE * 80 // 1000


def missing() -> str:
    """Why no server can be started here, or ""."""
    lost = [name for name in ("pulseaudio", "pactl", "parec") if shutil.which(name) is None]
    return f"not installed: {', '.join(lost)}" if lost else ""


def until(true: Callable[[], bool], limit: float = 10.0) -> bool:
    """Ask again and again, giving way in between, until it is so or the limit (s) is over."""
    end = time.monotonic() + limit
    pause = threading.Event()
    while not true():
        if time.monotonic() > end:
            return False
        pause.wait(0.005)
    return True


class Server:
    """A PulseAudio of its own, known only by its socket; it can be killed and started again."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.socket = folder / "s"
        self.env = {
            **os.environ,
            "HOME": str(folder),
            "XDG_RUNTIME_DIR": str(folder),
            "PULSE_RUNTIME_PATH": str(folder / "run"),
            "PULSE_STATE_PATH": str(folder / "state"),
            "PULSE_COOKIE": str(folder / "cookie"),
            "PULSE_SERVER": f"unix:{self.socket}",
        }
        self._process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start it and wait until it answers."""
        socket = f"module-native-protocol-unix socket={self.socket} auth-anonymous=1"
        sink = f"module-null-sink sink_name=out rate={RATE} channels=1"
        quiet = ["--daemonize=no", "--use-pid-file=no", "--exit-idle-time=-1", "--log-level=error"]
        self._process = subprocess.Popen(
            ["pulseaudio", "-n", *quiet, "-L", sink, "-L", socket],
            env=self.env,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        assert until(self._answers), "the sound server did not come up"

    def kill(self) -> None:
        """End it without a word, as a crash would."""
        if self._process is not None:
            self._process.send_signal(signal.SIGKILL)
            self._process.wait()
            self._process = None
            self.socket.unlink(missing_ok=True)

    def control(self, *words: str) -> str:
        """What `pactl` says."""
        return subprocess.run(
            ["pactl", *words], env=self.env, capture_output=True, text=True, check=True
        ).stdout

    def _answers(self) -> bool:
        done = subprocess.run(["pactl", "info"], env=self.env, capture_output=True, check=False)
        return done.returncode == 0


@contextmanager
def running() -> Iterator[Server]:
    """A server in a folder of its own, with the environment pointing to it."""
    with tempfile.TemporaryDirectory(prefix="snd") as folder, _environment() as env:
        server = Server(Path(folder))
        env.update({k: v for k, v in server.env.items() if k.startswith(("PULSE", "XDG"))})
        server.start()
        try:
            yield server
        finally:
            server.kill()


@contextmanager
def _environment() -> Iterator[os._Environ[str]]:
    before = dict(os.environ)
    try:
        yield os.environ
    finally:
        os.environ.clear()
        os.environ.update(before)


class Recorder:
    """Records the sink's monitor from the moment it is made."""

    def __init__(self, server: Server) -> None:
        self.samples = array("h")
        self.stamps: list[tuple[float, int]] = []  # (monotonic s, samples had by then)
        self._more = threading.Condition()
        form = ["--raw", "--format=s16le", f"--rate={RATE}", "--channels=1", "--latency-msec=20"]
        self._process = subprocess.Popen(
            ["parec", "--device=out.monitor", *form], env=server.env, stdout=subprocess.PIPE
        )
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    def __enter__(self) -> Self:
        assert self.wait(lambda samples: len(samples) > 0), "nothing is recorded"
        return self

    def __exit__(self, *_: object) -> None:
        self._process.terminate()
        self._process.wait()
        self._reader.join()
        if self._process.stdout is not None:
            self._process.stdout.close()

    def wait(self, true: Callable[[array[int]], bool], limit: float = 15.0) -> bool:
        """Wait for the recording to be so, or for the limit (s)."""
        with self._more:
            return self._more.wait_for(lambda: true(self.samples), limit)

    def listen(self, seconds: float, limit: float = 15.0) -> array[int]:
        """The next stretch of the recording, when it has been heard."""
        first = len(self.samples)
        last = first + round(seconds * RATE)
        assert self.wait(lambda samples: len(samples) >= last, limit), "the recording stopped"
        return self.samples[first:last]

    def _read(self) -> None:
        pipe = self._process.stdout
        assert pipe is not None
        left = b""
        while data := os.read(pipe.fileno(), 65_536):
            data = left + data
            whole = len(data) // 2 * 2
            with self._more:
                self.samples.frombytes(data[:whole])
                self.stamps.append((time.monotonic(), len(self.samples)))
                self._more.notify_all()
            left = data[whole:]


def onsets(samples: Sequence[int], loud: int = LOUD, quiet: int = QUIET) -> list[int]:
    """Frames at which sound sets in after quiet."""
    found: list[int] = []
    last = -quiet
    for frame, sample in enumerate(samples):
        if sample > loud or sample < -loud:
            if frame - last >= quiet:
                found.append(frame)
            last = frame
    return found


def click(ms: int = 60) -> array[int]:
    """A tone that starts with its loudest sample, so that its onset is one frame exactly."""
    frames = RATE * ms // 1000
    wave = [16_000 if k // 22 % 2 == 0 else -16_000 for k in range(frames)]
    return array("h", wave)
