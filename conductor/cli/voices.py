"""`conductor voices`: which voices there are, and what one sounds like."""

import threading
from typing import TYPE_CHECKING

import click

from conductor import store
from conductor.cli.progress import on_one_line
from conductor.clock import SystemClock
from conductor.score.model import Saying
from conductor.score.sounds import Sound, SoundId
from conductor.settings import Settings

if TYPE_CHECKING:
    from array import array

OPENING_MS = 4_000
SAMPLE = "Inhale, reach the arms up. Exhale, step the left foot back, low lunge."


@click.command()
@click.argument("name", required=False)
@click.option("--engine", type=click.Choice(["espeak", "natural"]), help="Only this engine's.")
@click.option("--rate", type=int, default=150, help="Words a minute, 80 to 450.")
@click.option("--language", default="en", help="Only voices of this language; 'all' for every one.")
def voices(name: str | None, engine: str | None, rate: int, language: str) -> None:
    """List the voices there are; with NAME, speak a sample in that voice."""
    from conductor.voice.manner import Manner, VoiceError  # noqa: PLC0415 -- only here
    from conductor.voice.pool import NoVoiceError  # noqa: PLC0415 -- only here
    from conductor.voice.voices import voices as known  # noqa: PLC0415 -- only here

    if name is not None:
        _speak(name, engine or "espeak", rate)
        return
    for one in [engine] if engine else ["espeak", "natural"]:
        click.echo(f"{one}:")
        try:
            for voice in known(Manner(engine=one)):
                if language == "all" or voice.language.lower().startswith(language.lower()):
                    click.echo(f"  {voice.id:<28} {voice.name:<32} {voice.language}")
                    for line in voice.terms.splitlines():
                        click.echo(f"      {line}")
        except (NoVoiceError, VoiceError) as error:
            click.echo(f"  none: {error}")


def _speak(name: str, engine: str, rate: int) -> None:
    from conductor.voice.manner import Manner, VoiceError  # noqa: PLC0415 -- only here
    from conductor.voice.render import Renderer  # noqa: PLC0415 -- only here

    sample = Saying(SAMPLE)
    try:
        renderer = Renderer(store.speech(), {}, Manner(engine=engine, voice=name, rate=rate))
        renderer.check()
        renderer.prepare([sample], on_one_line("Rendering the voice"))
    except VoiceError as error:
        raise click.UsageError(str(error)) from error
    pcm = renderer.pcm(sample)
    if renderer.status or pcm is None:
        raise click.ClickException(renderer.status or "; ".join(renderer.troubles))
    _play(pcm)


def _play(pcm: "array[int]") -> None:
    """Let the sample be heard once; a missing device is told."""
    from conductor.sound.device import output  # noqa: PLC0415 -- only here
    from conductor.sound.mix import doubled  # noqa: PLC0415 -- only here

    clock, over = SystemClock(), threading.Event()
    device = output(lambda _: doubled(pcm), clock, Settings())
    began = clock.now()
    device.timed(began, 1.0)
    try:
        while not device.status().playing and clock.now() - began < OPENING_MS:
            over.wait(0.05)
        if not device.status().playing:
            raise click.ClickException(device.status().words)
        now = clock.now() - began
        sound = Sound(SoundId("sample", 1, "main"), now + 500, Saying(SAMPLE), now + 2_000)
        device.want((sound,), now)
        over.wait(0.5 + len(pcm) / 22_050 + 0.5)
    finally:
        device.close()
