"""`conductor audio`: a whole class as a sound file, with the mixer of the live class."""

import sys
from pathlib import Path

import click

from conductor.cli.classroom import Class, How
from conductor.cli.opening import find, opened
from conductor.cli.progress import on_one_line
from conductor.cli.speech import with_plan
from conductor.cli.tell import tell
from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do
from conductor.score.sounds import Sound
from conductor.sound.encode import FORMS, NoEncoderError, check, encoded
from conductor.store import SettingsError
from conductor.store import settings as kept_settings
from conductor.voice.manner import VoiceError


@click.command()
@click.argument("plan")
@click.option("-o", "--output", type=click.Path(dir_okay=False, path_type=Path), required=True)
@click.option("--chapters/--no-chapters", default=True, help="A cue sheet beside the file.")
def audio(plan: str, output: Path, chapters: bool) -> None:
    """Write the class of PLAN as sound: .wav, or .flac and .ogg with the extra audio-files.

    The parts of the class are named in a cue sheet beside the file.
    """
    _checked(output)
    found = opened(find(plan))
    if found.score is None or not found.leadable:
        tell(found)
        raise SystemExit(1)
    try:
        ready = Class(found, with_plan(kept_settings(), found.score.meta.options), How())
        trouble = ready.prepare_speech(on_one_line("Rendering the voice"))
    except (VoiceError, SettingsError) as error:
        raise click.UsageError(str(error)) from error
    if trouble:
        click.echo(trouble, err=True)
    sounds, lead_in, length = declared(ready)
    _write(ready, sounds, length, output)
    if chapters:
        from conductor.report.chapters import cue_sheet  # noqa: PLC0415 -- only here

        sheet = output.with_suffix(".cue")
        try:
            sheet.write_text(cue_sheet(found.score, output.name, lead_in), "utf-8", newline="")
        except OSError as error:
            raise click.ClickException(f"{sheet}: {error.strerror}") from error
    minutes, seconds = divmod(round(length / 1000), 60)
    click.echo(f"{output}: {minutes}:{seconds:02}, {len(sounds)} cues and bells", err=True)


def _checked(output: Path) -> None:
    """Refuse what cannot be written, before anything is rendered."""
    suffix = output.suffix.lower()
    if suffix != ".wav" and suffix not in FORMS:
        raise click.UsageError("name a file that ends in .wav, .flac or .ogg")
    try:
        if suffix != ".wav":
            check()
    except NoEncoderError as error:
        raise click.UsageError(str(error)) from error
    if not output.absolute().parent.is_dir():
        raise click.UsageError(f"there is no folder {output.absolute().parent}")
    if not output.absolute().parent.is_dir():
        raise click.UsageError(f"there is no folder {output.absolute().parent}")


def declared(ready: Class) -> tuple[tuple[Sound, ...], int, int]:
    """Every sound of the class, as the engine declares them from its beginning.

    Gives also the ms before the first moment, and the length of the whole.
    """
    engine = Engine(ready.score, ready.lengths, ready.settings)
    engine.command(Command(Do.BEGIN), 0)
    lead_in = engine.snapshot(0).entered
    length = lead_in + ready.score.length
    return engine.upcoming(0, length), lead_in, length


def _write(ready: Class, sounds: tuple[Sound, ...], length: int, output: Path) -> None:
    from conductor.sound.offline import write_wav  # noqa: PLC0415 -- only here

    wav = output.with_suffix(".wav") if output.suffix.lower() == ".wav" else None
    target = wav or output.with_name(f".{output.name}.part.wav")
    try:
        write_wav(target, sounds, ready.samples, length, on_one_line("Mixing"))
        if wav is None:
            encoded(target, output, on_one_line("Encoding"))
    except OSError as error:
        raise click.ClickException(f"{output}: {error.strerror}") from error
    finally:
        if wav is None:
            target.unlink(missing_ok=True)
        sys.stderr.flush()
