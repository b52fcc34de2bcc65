"""A teacher's own recordings in a folder, matched by the words of the cue."""

from __future__ import annotations

from array import array
from pathlib import Path

from conductor.voice import pcm
from conductor.voice.text import slug

SUFFIXES = (".wav", ".flac")
NAMES_FILE = "names"
LEAD_MS, TAIL_MS = 20, 80
_FLOOR = 0.01  # of the peak, -40 dB: a room is never as quiet as an engine
_LIMIT_BYTES = 50_000_000


class Recordings:
    """Finds the recording of a cue; `troubles` names lines and files that cannot be used.

    A file is named by the words ("step-the-left-foot-back.wav"), or a file `names` in the folder
    says which is which, one a line: `take-07.wav: Step the left foot back.`
    """

    def __init__(self, folder: Path) -> None:
        self.troubles: list[str] = []
        self._root = folder.resolve()
        self._files = self._by_name(folder) | self._by_list(folder)

    def of(self, words: str) -> Path | None:
        """The file with these words, or None."""
        return self._files.get(slug(words))

    def _by_name(self, folder: Path) -> dict[str, Path]:
        try:
            files = sorted(folder.iterdir())
        except OSError as error:
            self.troubles.append(f"recordings in {folder}: {error.strerror}")
            return {}
        sounds = (file for file in files if file.suffix.lower() in SUFFIXES)
        return {slug(file.stem): file for file in sounds if self._inside(file)}

    def _by_list(self, folder: Path) -> dict[str, Path]:
        try:
            lines = (folder / NAMES_FILE).read_text("utf-8").splitlines()
        except FileNotFoundError:
            return {}
        except (OSError, ValueError) as error:
            self.troubles.append(f"{folder / NAMES_FILE}: {error}")
            return {}
        told = {number: line for number, line in enumerate(lines, 1) if line.strip()}
        return dict(filter(None, (self._line(folder, *item) for item in told.items())))

    def _line(self, folder: Path, number: int, line: str) -> tuple[str, Path] | None:
        name, _, words = (part.strip() for part in line.partition(":"))
        file = folder / name
        at = f"{folder / NAMES_FILE}:{number}"
        if not words or Path(name).suffix.lower() not in SUFFIXES:
            self.troubles.append(f"{at}: write it as `file.wav: the words`, not {line.strip()!r}")
        elif not file.is_file():
            self.troubles.append(f"{at}: there is no file {name}")
        elif self._inside(file):
            return slug(words), file
        return None

    def _inside(self, file: Path) -> bool:
        inside = file.resolve().is_relative_to(self._root)
        if not inside:
            self.troubles.append(f"{file} lies outside the folder of recordings and is left out")
        return inside


def decode(path: Path) -> array[int]:
    """Mono samples at the voice's rate, trimmed; DamagedError when it cannot be read."""
    if path.stat().st_size > _LIMIT_BYTES:
        raise pcm.DamagedError("longer than a cue can be")
    samples = _flac(path) if path.suffix.lower() == ".flac" else pcm.resampled(*pcm.read(path))
    floor = max(round(max(map(abs, samples), default=0) * _FLOOR), pcm.SILENCE)
    return pcm.trimmed(samples, floor, LEAD_MS, TAIL_MS)


def _flac(path: Path) -> array[int]:
    try:
        import miniaudio  # noqa: PLC0415
    except ImportError as error:
        raise pcm.DamagedError("FLAC cannot be read on this machine; save it as WAV") from error
    try:
        decoded = miniaudio.flac_read_file_s16(str(path))
    except (miniaudio.MiniaudioError, OSError) as error:
        raise pcm.DamagedError(f"not a FLAC file: {error}") from error
    return pcm.resampled(pcm.mono(decoded.samples, decoded.nchannels), decoded.sample_rate)
