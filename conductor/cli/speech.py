"""The voice as settings and plan ask for it, with the words it needs help with."""

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from conductor import places, store
from conductor.cli.opening import Opened
from conductor.settings import Settings
from conductor.shapes.model import Shape
from conductor.values import replace
from conductor.voice.manner import Manner

if TYPE_CHECKING:  # a class is shown before it speaks
    from conductor.voice.paces import Paces


def lexicon(shapes: Iterable[Shape]) -> Mapping[str, str]:
    """Give the respellings of every name that the voice would say wrongly."""
    words: dict[str, str] = {}
    for shape in shapes:
        if shape.spoken:
            words.update(dict.fromkeys(shape.names, shape.spoken))
        if shape.spoken_sanskrit:
            for name in (shape.iast, shape.ascii):
                if name:
                    words[name] = shape.spoken_sanskrit
    return words


def with_plan(settings: Settings, options: Mapping[str, str]) -> Settings:
    """Let a plan choose its voice and pace, where a person has not, or do without a voice."""
    base = Settings()
    if "voice.rate" in options and settings.rate == base.rate:
        settings = store.changed(settings, {"rate": int(options["voice.rate"])}, "voice: rate")
    for name, setting in (("voice.fastest", "fastest"), ("view.distance", "view_distance_m")):
        if name in options and getattr(settings, setting) == getattr(base, setting):
            number = float(options[name].rstrip("% m"))
            value = int(number) if setting == "fastest" else number
            settings = store.changed(settings, {setting: value}, name.replace(".", ": "))
    if "voice.name" in options and not settings.voice:
        settings = replace(settings, voice=options["voice.name"])
    if options.get("voice.off", "").lower() in {"yes", "true", "on"}:
        settings = replace(settings, speak=False)
    return settings


def manner(settings: Settings) -> Manner:
    """Give the manner of speaking that the settings ask for."""
    return Manner(engine=settings.engine, voice=settings.voice, rate=settings.rate)


def renderer(opened: Opened, settings: Settings) -> "Paces":
    """Make the renderer of a class; raises VoiceError for what cannot be had."""
    from conductor.voice.paces import Paces  # noqa: PLC0415 -- only with a voice
    from conductor.voice.render import Renderer  # noqa: PLC0415 -- only with a voice

    assert opened.score is not None  # noqa: S101 -- only leadable plans are spoken
    options = opened.score.meta.options
    recordings = None
    if "voice.recordings" in options:
        recordings = places.inside(opened.path, options["voice.recordings"])
    known = lexicon(opened.shapes.values())
    asked = manner(settings)
    usual = Renderer(store.speech(), known, asked, recordings=recordings)
    if settings.voice:
        usual.check()
    return Paces(usual, lambda rate: Renderer(store.speech(), known, replace(asked, rate=rate)))
