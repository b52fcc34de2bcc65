"""The journal: one JSON line for each thing that happened, written as it happens."""

import json
import os
import sys
import threading
from pathlib import Path

SYNC_S = 1.0
_CHUNK = 4096


class FileJournal:
    """Appends lines at once; a helper thread forces them to disk each second.

    A write error is kept in `trouble` for the screen to tell, and stops nothing. A failed sync is
    not tried again on the same data: the system may have dropped it.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.trouble = ""
        self._fd = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND, 0o600)
        if _locked(self._fd):  # tells others, as long as we live, that this class is being led
            _mended(self._fd)
        self._dirty = threading.Event()
        self._closing = threading.Event()
        self._thread = threading.Thread(target=self._sync, name="journal", daemon=True)
        self._thread.start()

    def write(self, line: dict[str, object]) -> None:
        """Append one line with one write, so that a torn one can only be the last."""
        data = json.dumps(line, ensure_ascii=False, separators=(",", ":")) + "\n"
        try:
            os.write(self._fd, data.encode())
        except OSError as error:
            self.trouble = f"The journal cannot be written: {error.strerror}."
        self._dirty.set()

    def close(self) -> None:
        """Force the last lines to disk and let go."""
        self._closing.set()
        self._dirty.set()
        self._thread.join(2.0)
        os.close(self._fd)

    def _sync(self) -> None:
        while not self._closing.is_set():
            self._dirty.wait()
            self._dirty.clear()
            try:
                os.fsync(self._fd)
            except OSError as error:
                self.trouble = f"The journal may not be on disk: {error.strerror}."
            self._closing.wait(SYNC_S)
        try:
            os.fsync(self._fd)
        except OSError as error:
            self.trouble = f"The journal may not be on disk: {error.strerror}."


def being_led(path: Path) -> bool:
    """Whether another program has this journal open: its class has not broken off."""
    try:
        fd = os.open(path, os.O_WRONLY)
    except OSError:
        return False
    try:
        return not _locked(fd)
    finally:
        os.close(fd)


def _locked(fd: int) -> bool:
    """Lock an open journal, for as long as it is open; tell whether that could be done."""
    if sys.platform == "win32":
        return True  # locks there would keep readers out too
    import fcntl  # noqa: PLC0415 -- not on every system

    try:
        fcntl.flock(fd, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _mended(fd: int) -> None:
    """Drop a torn last line, so that the next one does not grow out of it."""
    size = os.fstat(fd).st_size
    tail = b""
    while b"\n" not in tail and len(tail) < size:
        tail = _bytes(fd, max(0, size - len(tail) - _CHUNK), size)
    torn = tail.rpartition(b"\n")[2]
    if not torn:
        return
    try:
        json.loads(torn)
    except ValueError:
        os.ftruncate(fd, size - len(torn))
    else:
        os.write(fd, b"\n")  # only its end was lost


def _bytes(fd: int, start: int, stop: int) -> bytes:
    os.lseek(fd, start, os.SEEK_SET)
    return os.read(fd, stop - start)


def lines(path: Path) -> list[dict[str, object]]:
    """Read a journal back; a torn last line is left out."""
    kept: list[dict[str, object]] = []
    for raw in path.read_bytes().splitlines():
        try:
            line = json.loads(raw)
        except ValueError:
            continue
        if isinstance(line, dict):
            kept.append(line)
    return kept
