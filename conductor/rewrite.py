"""Writing a plan anew: the old file is kept beside it, and nobody's own change is lost."""

import os
import shutil
import tempfile
from itertools import count
from pathlib import Path

from conductor.values import Struct


class ChangedError(OSError):
    """The file is no longer what was read: somebody else has written it since."""


class Original(Struct, frozen=True):
    """A file as it was read; `text` has its byte order mark and its line ends."""

    path: Path
    raw: bytes

    @property
    def text(self) -> str:
        """The file as text; raises UnicodeDecodeError when it is not UTF-8."""
        return self.raw.decode("utf-8")


def original(path: Path) -> Original:
    """Read a file that may be written anew; a link stands for the file it leads to."""
    real = path.resolve()
    return Original(real, real.read_bytes())


def rewrite(old: Original, text: str) -> Path:
    """Put a text in the place of a file at once; give the name under which the old one is kept.

    Raises ChangedError when the file is not what it was, and OSError where nothing can be written.
    """
    fresh = _beside(old, text.encode("utf-8"))
    try:
        if old.path.read_bytes() != old.raw:
            raise ChangedError(f"{old.path.name} was changed by somebody else; nothing is written")
        kept = _kept(old.path)
        fresh.replace(old.path)
    finally:
        fresh.unlink(missing_ok=True)
    return kept


def _beside(old: Original, raw: bytes) -> Path:
    """The new file under another name in the same folder, wholly on disk, with the old rights."""
    with tempfile.NamedTemporaryFile(
        dir=old.path.parent, prefix=f".{old.path.name}.", delete=False
    ) as file:
        file.write(raw)
        file.flush()
        os.fsync(file.fileno())
    shutil.copymode(old.path, file.name)
    return Path(file.name)


def _kept(path: Path) -> Path:
    """Keep the file as name.yaml.1, or the next number that is free: no plan by its ending."""
    for number in count(1):
        kept = path.with_name(f"{path.name}.{number}")
        if not os.path.lexists(kept):
            shutil.copy2(path, kept)
            return kept
    raise AssertionError
