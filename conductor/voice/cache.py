"""Rendered speech kept on disk under what was said and how, private to its owner."""

from __future__ import annotations

import errno
import hashlib
import json
import os
import time
from array import array
from contextlib import suppress
from pathlib import Path
from uuid import uuid4

from conductor.voice import pcm

TRIM_VERSION = 1  # raise it when trimming or levelling changes, so that old files are not used
KEPT_BYTES = 500_000_000
_STALE_S = 3600
_NO_ROOM = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)


class Cache:
    """Files of one folder; OSError from the constructor when it cannot be made."""

    def __init__(self, folder: Path) -> None:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        self.folder = folder
        self._sweep()

    def path(self, key: str) -> Path:
        """Where the speech of a key lies, or would."""
        return self.folder / f"{key}.wav"

    def part(self) -> Path:
        """A name nobody else writes to, so that two programs may render at once."""
        return self.folder / f"{uuid4().hex}.part"

    def load(self, key: str) -> array[int] | None:
        """The samples of a key; None when absent, and when damaged, which is then removed."""
        path = self.path(key)
        try:
            return pcm.load(path)
        except pcm.DamagedError:
            path.unlink(missing_ok=True)
        except OSError:
            pass
        return None

    def keep(self, part: Path, key: str) -> array[int]:
        """Move a whole part to its key, checked; DamagedError or OSError when it cannot be."""
        samples = pcm.load(part)
        os.replace(part, self.path(key))  # noqa: PTH105 - the call that is made to fail in tests
        return samples

    def note(self, key: str) -> dict[str, float] | None:
        """Figures noted under a key."""
        try:
            told = json.loads((self.folder / f"{key}.json").read_text("utf-8"))
            return {str(name): float(figure) for name, figure in told.items()}
        except (OSError, ValueError, TypeError, AttributeError):
            return None

    def keep_note(self, key: str, figures: dict[str, float]) -> None:
        """Note figures; a full disk only costs measuring them again."""
        part = self.part()
        with suppress(OSError):
            part.write_text(json.dumps(figures), "utf-8")
            part.replace(self.folder / f"{key}.json")

    def prune(self, kept_bytes: int = KEPT_BYTES) -> None:
        """Drop what has not been used for longest until the rest is small enough."""
        found = []
        for file in self.folder.glob("*.wav"):
            with suppress(OSError):
                found.append((file.stat().st_mtime, file.stat().st_size, file))
        total = sum(size for _, size, _ in found)
        for _, size, file in sorted(found):
            if total <= kept_bytes:
                return
            with suppress(OSError):
                file.unlink()
                total -= size

    def used(self, key: str) -> None:
        """Mark as used now, so that it is pruned last."""
        with suppress(OSError):
            os.utime(self.path(key))

    def _sweep(self) -> None:
        """Remove what a killed program left, but not what one that runs is writing."""
        for pattern in ("*.part", "*.raw"):
            for file in self.folder.glob(pattern):
                with suppress(OSError):
                    if time.time() - file.stat().st_mtime > _STALE_S:
                        file.unlink()


def no_room(error: BaseException) -> bool:
    """Whether an error means that the disk, or one's share of it, is full."""
    return isinstance(error, OSError) and error.errno in _NO_ROOM


def key_of(*facts: object) -> str:
    """The name under which speech with these facts is kept."""
    told = json.dumps([TRIM_VERSION, *facts], ensure_ascii=True, default=str)
    return hashlib.sha256(told.encode()).hexdigest()
