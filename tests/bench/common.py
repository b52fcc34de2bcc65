"""What benches and soaks share: a program in a pseudo-terminal, its cost, a table of results."""

from __future__ import annotations

import contextlib
import fcntl
import json
import os
import platform
import pty
import struct
import subprocess
import sys
import tempfile
import termios
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

ROOT = Path(__file__).parents[2]
PYTHON = sys.executable
CORES = os.cpu_count() or 1
WIDTH, HEIGHT = 120, 40
TICKS = os.sysconf("SC_CLK_TCK")
LEAVES = "q"
DISTURBING = (
    "PYTHONDONTWRITEBYTECODE",
    "NO_COLOR",
    "TEXTUAL_THEME",
    "TEXTUAL_ANIMATIONS",
    "COLUMNS",
    "LINES",
)


ASKS = b"\x1b[c"  # what are you?
ANSWERS = b"\x1b[?62;c"  # a VT220


class Terminal:
    """A program in a pseudo-terminal of its own that is read to the end, unless told not to.

    `received` counts bytes, `screen` keeps the last of them; `first_at` tells when a text came.
    """

    def __init__(self, args: Sequence[str], env: dict[str, str], awaited: str = "") -> None:
        self.received = 0
        self.screen = b""
        self.first_at: float | None = None
        self.reading = threading.Event()
        self.reading.set()
        self._awaited = awaited.encode()
        self._master, slave = pty.openpty()
        fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", HEIGHT, WIDTH, 0, 0))
        env = {**env, "TERM": "xterm-256color", "COLORTERM": "truecolor"}
        self.began = time.monotonic()
        self.process = subprocess.Popen(
            args, cwd=ROOT, env=env, stdin=slave, stdout=slave, stderr=slave, start_new_session=True
        )
        os.close(slave)
        self._thread = threading.Thread(target=self._read, daemon=True)
        self._thread.start()

    @property
    def pid(self) -> int:
        """The process in it."""
        return self.process.pid

    def press(self, keys: str) -> None:
        """Type."""
        os.write(self._master, keys.encode())

    def alive(self) -> bool:
        """Whether the program still runs."""
        return self.process.poll() is None

    def end(self, limit: float = 10.0) -> int:
        """Wait for the program to end and give its exit code; after the limit (s) it is killed."""
        try:
            return self.process.wait(limit)
        except subprocess.TimeoutExpired:
            self.process.kill()
            return self.process.wait()
        finally:
            self._thread.join(2.0)
            os.close(self._master)

    def _read(self) -> None:
        while True:
            self.reading.wait()
            try:
                data = os.read(self._master, 65_536)
            except OSError:  # the other side is closed
                return
            if not data:
                return
            if data.endswith(ASKS):  # as every terminal does, and none tells its pixels here
                os.write(self._master, ANSWERS)
            self.received += len(data)
            self.screen = (self.screen + data)[-200_000:]
            if self.first_at is None and self._awaited and self._awaited in self.screen:
                self.first_at = time.monotonic()


def until(true: Callable[[], object], limit: float = 30.0, every: float = 0.02) -> bool:
    """Ask again and again until it is so, or the limit (s) is over."""
    end = time.monotonic() + limit
    while not true():
        if time.monotonic() > end:
            return False
        time.sleep(every)
    return True


@dataclass(frozen=True)
class Usage:
    """What a process has used so far, by /proc; children are not in it.

    Seconds of processor time, bytes of memory resident, switches of all threads living.
    """

    at: float
    cpu: float
    rss: int
    waited: int
    forced: int
    threads: int
    descriptors: int
    by_thread: dict[str, float]


def usage(pid: int) -> Usage:
    """Read it now."""
    proc = Path(f"/proc/{pid}")
    waited = forced = 0
    threads: dict[str, float] = {}
    tasks = list((proc / "task").iterdir())
    for task in tasks:
        with contextlib.suppress(FileNotFoundError, ProcessLookupError):
            lines = dict(line.split(":", 1) for line in (task / "status").read_text().splitlines())
            waited += int(lines["voluntary_ctxt_switches"])
            forced += int(lines["nonvoluntary_ctxt_switches"])
            threads[f"{lines['Name'].strip()}-{task.name}"] = _cpu(task)
    rss = int((proc / "statm").read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE")
    descriptors = len(list((proc / "fd").iterdir()))
    return Usage(
        time.monotonic(), _cpu(proc), rss, waited, forced, len(tasks), descriptors, threads
    )


def _cpu(of: Path) -> float:
    fields = (of / "stat").read_text().rpartition(")")[2].split()
    try:  # nanoseconds, where the scheduler keeps them, against ticks of 10 ms
        if of.parent.name == "task":
            return int((of / "schedstat").read_text().split()[0]) / 1e9
    except (FileNotFoundError, IndexError):
        pass
    return (int(fields[11]) + int(fields[12])) / TICKS


@contextmanager
def home(base: dict[str, str] | None = None) -> Iterator[dict[str, str]]:
    """An environment with a home of its own, so that nothing of a person's is read or written.

    Bytecode is kept there too: an installed program finds its own compiled.
    """
    with tempfile.TemporaryDirectory(prefix="home") as folder:
        env = {**os.environ, **(base or {}), "HOME": folder}
        for name, part in (("STATE", "state"), ("CACHE", "cache"), ("CONFIG", "config")):
            env[f"XDG_{name}_HOME"] = f"{folder}/{part}"
        env["PYTHONPYCACHEPREFIX"] = f"{folder}/bytecode"
        for name in DISTURBING:
            env.pop(name, None)
        yield env


def journals(env: dict[str, str]) -> list[Path]:
    """The journals written in that home, the oldest first."""
    folder = Path(env["XDG_STATE_HOME"]) / "conductor/journals"
    return sorted(folder.glob("*.jsonl"), key=lambda path: path.stat().st_mtime)


def lines_of(path: Path) -> list[dict[str, object]]:
    """The journal's whole lines so far."""
    whole = path.read_bytes().rpartition(b"\n")[0]
    return [json.loads(line) for line in whole.splitlines()]


def class_command(plan: str, *options: str) -> list[str]:
    """The command that leads a plan."""
    return [PYTHON, "-m", "conductor", "lead", plan, *options]


def begin(terminal: Terminal, env: dict[str, str], limit: float = 120.0) -> Path:
    """Open the class as a person does, Enter before it and Space to begin; give its journal."""
    known = set(journals(env))

    def opened() -> bool:
        assert terminal.alive(), terminal.screen.decode(errors="replace")[-2000:]
        fresh = set(journals(env)) - known
        if not fresh:
            terminal.press("\r")
        return bool(fresh)

    assert until(opened, limit, every=0.3), "the class did not open"
    journal = (set(journals(env)) - known).pop()
    time.sleep(1.0)
    terminal.press(" ")
    assert until(lambda: of_kind(journal, "moment"), 30), "the class did not begin"
    return journal


def of_kind(journal: Path, *kinds: str) -> list[dict[str, object]]:
    """The journal's lines of some kinds."""
    return [line for line in lines_of(journal) if line.get("kind") in kinds]


def finish(terminal: Terminal) -> int:
    """End a class as a person does, and close the screen."""
    for key in "qy":
        terminal.press(key)
        time.sleep(0.7)
    if terminal.alive():
        terminal.press(LEAVES)
    return terminal.end()


def machine() -> str:
    """The machine in one line, with the load that was on."""
    names = [
        line.split(":", 1)[1].strip()
        for line in Path("/proc/cpuinfo").read_text().splitlines()
        if line.startswith("model name")
    ]
    load = "/".join(f"{one:.1f}" for one in os.getloadavg())
    return (
        f"{datetime.now().astimezone():%Y-%m-%d}, "
        f"{CORES} cores ({names[0] if names else platform.machine()}), "
        f"{platform.system()} {platform.release()}, Python {platform.python_version()}, "
        f"textual {_version('textual')}, load {load}"
    )


def _version(name: str) -> str:
    from importlib.metadata import version  # noqa: PLC0415 - only here

    return version(name)


def table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """A table as documents have it."""
    lines = [" | ".join(head), "|".join("---" for _ in head), *(" | ".join(row) for row in rows)]
    return "\n".join(f"| {line} |" if "---" not in line else f"|{line}|" for line in lines)
