"""A plan opened with its speech measured, for a check on what will be heard."""

from pathlib import Path

import click

from conductor.cli.opening import Opened, opened
from conductor.cli.speech import renderer, with_plan
from conductor.progress import Progress
from conductor.settings import Settings
from conductor.timing.cues import cues
from conductor.voice.manner import VoiceError


def opened_with_voice(path: Path, settings: Settings, progress: Progress) -> Opened:
    """Render what is missing of a plan's speech, and check the plan on its measured length.

    A voice that cannot be had is an error of use: the check on estimates needs none.
    """
    first = opened(path, settings=settings)
    if first.score is None:
        return first
    settings = with_plan(settings, first.score.meta.options)
    _, needed = cues(first.score, {}, settings, settings.level)
    try:
        voice = renderer(first, settings)
        lengths = voice.prepare(needed, progress)
    except VoiceError as error:
        raise click.UsageError(f"{error} (without --voice the check needs no voice)") from error
    if voice.status:
        raise click.UsageError(f"{voice.status} (without --voice the check needs no voice)")
    return opened(path, lengths, settings)
