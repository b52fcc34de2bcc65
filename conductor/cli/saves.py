"""Saves: when a plan, or a file that it names, has other words in it than before."""

import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path

QUIET_MS = 100  # a burst of saves is over when nothing changed for so long
TICK_MS = 500  # how often files are looked at in any case: not every file system tells of changes

Wake = Callable[[frozenset[Path]], Iterator[object]]


class Saves:
    """The files of a plan, looked at whenever something in their folders changes.

    Folders are watched, not files: an editor that saves by renaming puts another file in place.
    """

    def __init__(self, files: Iterable[Path]) -> None:
        self.files = frozenset(files)
        self._held = _contents(self.files)

    def follow(self, files: Iterable[Path]) -> None:
        """Watch these files from now on, those already known as they were last seen."""
        self.files = frozenset(files)
        new = {file: held for file, held in _contents(self.files).items() if file not in self._held}
        self._held = {**{file: self._held[file] for file in self.files & self._held.keys()}, **new}

    def changed(self) -> bool:
        """Whether any file has other words in it than at the last look, is gone, or is back."""
        held = _contents(self.files)
        if held == self._held:
            return False
        self._held = held
        return True

    def folders(self) -> frozenset[Path]:
        """Where these files lie, and where they really lie where they are links."""
        both = (path.parent for file in self.files for path in (file.absolute(), file.resolve()))
        return frozenset(folder for folder in both if folder.is_dir())

    def wait(self, wake: Wake) -> Iterator[bool]:
        """Give True for each change, False for each look at which there is none."""
        while True:
            folders = self.folders()
            for _ in wake(folders):
                yield self.changed()
                if self.folders() != folders:
                    break


def _contents(files: Iterable[Path]) -> Mapping[Path, bytes | None]:
    return {file: _content(file) for file in files}


def _content(file: Path) -> bytes | None:
    try:
        return file.read_bytes()
    except OSError:
        return None


def woken(folders: frozenset[Path]) -> Iterator[object]:
    """Wake when anything in the folders changes, once for a burst, and at least each tick."""
    from watchfiles import watch  # noqa: PLC0415 -- brings asyncio, for this alone

    try:
        yield from watch(
            *folders,
            watch_filter=None,
            step=QUIET_MS,
            rust_timeout=TICK_MS,
            yield_on_timeout=True,
            recursive=False,
        )
    except FileNotFoundError:  # the folders are gone too; they are looked for again
        time.sleep(TICK_MS / 1000)
        yield None
