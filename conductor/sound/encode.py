"""A written WAV file as FLAC or Ogg, by the library of the extra `audio-files`."""

import importlib
from pathlib import Path

from conductor.progress import Progress, silent

FORMS = {".flac": ("FLAC", "PCM_16"), ".ogg": ("OGG", "VORBIS"), ".oga": ("OGG", "VORBIS")}
BLOCK = 1 << 16


class NoEncoderError(Exception):
    """The library that writes this form is not installed; the words say how to get it."""


def check() -> None:
    """Raise NoEncoderError where FLAC and Ogg cannot be written, before anything is rendered."""
    try:
        importlib.import_module("soundfile")
    except (ImportError, OSError) as error:
        words = 'FLAC and Ogg need: pip install "breath-conductor[audio-files]"'
        raise NoEncoderError(words) from error


def encoded(wav: Path, path: Path, progress: Progress = silent) -> None:
    """Write the samples of a WAV file in the form that the ending of `path` names."""
    check()
    library = importlib.import_module("soundfile")
    form, kind = FORMS[path.suffix.lower()]
    with (
        library.SoundFile(str(wav)) as source,
        library.SoundFile(
            str(path), "w", source.samplerate, source.channels, format=form, subtype=kind
        ) as target,
    ):
        done = 0
        for block in source.blocks(blocksize=BLOCK, dtype="int16"):
            target.write(block)
            done += len(block)
            progress(done, source.frames)
