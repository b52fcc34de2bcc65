"""The voice as settings and plan ask for it, with the words it needs help with."""

from collections.abc import Callable, Container, Iterable, Mapping
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


_FROM_PLAN: Mapping[
    str, tuple[str, Callable[[str], object]]
] = {  # a plan's setting, what it is called here, and how it is read
    "voice.rate": ("rate", int),
    "voice.fastest": ("fastest", lambda text: int(float(text.rstrip("% ")))),
    "view.distance": ("view_distance_m", lambda text: float(text.rstrip("m "))),
    "voice.name": ("voice", str),
}


def with_plan(
    settings: Settings, options: Mapping[str, str], given: Container[str] = ()
) -> Settings:
    """Let a plan choose its voice and pace, where a person has not, or do without a voice.

    `given` names settings that were asked for just now, whatever their value.
    """
    usual = Settings()
    for name, (setting, read) in _FROM_PLAN.items():
        chosen = setting in given or getattr(settings, setting) != getattr(usual, setting)
        if name in options and not chosen:
            value = read(options[name])
            settings = store.changed(settings, {setting: value}, name.replace(".", ": "))
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
