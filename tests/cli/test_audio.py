import wave
from array import array
from pathlib import Path

import pytest
from click.testing import CliRunner

from conductor.cli import cli
from conductor.cli.audio import declared
from conductor.cli.classroom import Class, How
from conductor.cli.opening import find, opened
from conductor.settings import Settings


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.setenv(name, str(tmp_path / name))


@pytest.mark.slow
def test_a_class_is_written_with_every_cue_at_its_place(tmp_path: Path) -> None:
    out = tmp_path / "class.wav"
    result = CliRunner().invoke(cli, ["audio", "salutation-a", "-o", str(out)])
    assert result.exit_code == 0, result.output
    ready = Class(opened(find("salutation-a")), Settings(), How())
    ready.prepare_speech()
    sounds, lead_in, length = declared(ready)
    assert length == lead_in + ready.score.length
    with wave.open(str(out)) as file:
        rate = file.getframerate()
        assert file.getnframes() == round(length * rate / 1000)
        samples = array("h", file.readframes(file.getnframes()))
    assert len(sounds) > 10
    for sound in sounds:
        at = round(sound.start * rate / 1000)
        assert max(map(abs, samples[at : at + rate // 2])) > 1000
    assert out.with_suffix(".cue").read_text("utf-8").startswith('TITLE "Counted Salutation A"')


@pytest.mark.parametrize("name", ["class.mp3", "class"])
def test_another_form_is_refused_before_anything_is_rendered(name: str, tmp_path: Path) -> None:
    result = CliRunner().invoke(cli, ["audio", "salutation-a", "-o", str(tmp_path / name)])
    assert result.exit_code == 2
    assert ".wav, .flac or .ogg" in result.output
