"""A journal read as it grows, each line with the time at which it was there."""

from __future__ import annotations

import ctypes
import json
import os
import threading
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

IN_MODIFY = 2


@dataclass(frozen=True)
class Line:
    """A line of the journal, and the clock's reading (ms, counting sleep) when it was read."""

    at: float
    data: dict[str, Any]

    @property
    def kind(self) -> str:
        """What it tells of."""
        return str(self.data.get("kind"))

    @property
    def now(self) -> int:
        """The class's own time of it, ms."""
        return int(self.data["now"])


def clock_ms() -> float:
    """The clock a class goes by on Linux."""
    return time.clock_gettime(time.CLOCK_BOOTTIME) * 1000


class Tail:
    """Follows a journal on a thread of its own, woken by the system when the file grows."""

    def __init__(self, path: Path) -> None:
        self.lines: list[Line] = []
        self._more = threading.Condition()
        self._file = path.open("rb")
        self._libc = ctypes.CDLL(None, use_errno=True)
        self._watch = self._libc.inotify_init1(os.O_CLOEXEC)
        self._libc.inotify_add_watch(self._watch, os.fsencode(path), IN_MODIFY)
        self._read()
        threading.Thread(target=self._follow, daemon=True).start()

    def of(self, *kinds: str) -> list[Line]:
        """The lines of some kinds so far."""
        return [line for line in list(self.lines) if line.kind in kinds]

    def wait(self, kind: str, count: int = 1, limit: float = 60.0) -> bool:
        """Wait until there are so many of a kind."""
        with self._more:
            return self._more.wait_for(lambda: len(self.of(kind)) >= count, limit)

    def _follow(self) -> None:
        while os.read(self._watch, 65_536):
            self._read()

    def _read(self) -> None:
        at = clock_ms()
        while True:
            place = self._file.tell()
            raw = self._file.readline()
            if not raw.endswith(b"\n"):
                self._file.seek(place)
                break
            with self._more:
                self.lines.append(Line(at, json.loads(raw)))
                self._more.notify_all()


@dataclass(frozen=True)
class Lateness:
    """How late lines came after the class's own time of them, ms: real ones, sorted."""

    real: tuple[float, ...]
    off_score: int  # the greatest difference (class ms) of a moment from its place in the score

    def at(self, share: float) -> float:
        """The lateness that a share of all does not exceed."""
        return self.real[min(len(self.real) - 1, int(share * len(self.real)))]


def lateness(lines: Sequence[Line], speed: float = 1.0) -> Lateness:
    """Of moments against each other and the score; the earliest of all counts as not late.

    A stretch without commands is assumed: its score times and its own times run at one pace.
    """
    dues = [line.at - line.now / speed for line in lines]
    first = lines[0]
    off = [
        line.now - first.now - (int(line.data["start"]) - int(first.data["start"]))
        for line in lines
        if "start" in line.data
    ]
    real = tuple(sorted(due - min(dues) for due in dues))
    return Lateness(real, max((abs(one) for one in off), default=0))
