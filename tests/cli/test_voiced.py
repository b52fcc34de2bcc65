from collections.abc import Iterable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conductor.cli import cli, voiced
from conductor.progress import Progress
from conductor.score.model import Lengths, Saying
from conductor.voice.manner import VoiceError

PLAN = """plan: 1
title: Still
kind: piece
breath: 4 s in, 4 s out
parts:
  - part: All
    steps:
      - come to: mountain
      - in: arms overhead
        say: Reach up.
      - out: mountain
"""


class Mouth:
    """A voice that takes as long as it is told to for every cue."""

    def __init__(self, ms: int, status: str = "") -> None:
        self.ms = ms
        self.status = status

    def prepare(self, wanted: Iterable[Saying], progress: Progress) -> Lengths:
        sayings = list(wanted)
        assert any("each up" in saying.text for saying in sayings), sayings
        progress(len(sayings), len(sayings))
        return dict.fromkeys(sayings, self.ms)


@pytest.fixture
def plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr("conductor.store.settings_file", lambda: tmp_path / "none.toml")
    path = tmp_path / "still.yaml"
    path.write_text(PLAN, "utf-8")
    return path


def check(path: Path, mouth: Mouth | VoiceError, monkeypatch: pytest.MonkeyPatch) -> Result:
    def renderer(*_: object) -> Mouth:
        if isinstance(mouth, VoiceError):
            raise mouth
        return mouth

    monkeypatch.setattr(voiced, "renderer", renderer)
    return CliRunner().invoke(cli, ["check", "--voice", str(path)])


def test_words_are_judged_on_speech_as_measured(
    plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "nothing to say" in check(plan, Mouth(600), monkeypatch).stdout
    done = check(plan, Mouth(9000), monkeypatch)
    assert "each up.” takes 9.0 s" in done.stdout
    assert "[cue-too-long]" in done.stdout


def test_a_voice_that_cannot_be_had_is_told_and_nothing_is_judged(
    plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for mouth in (VoiceError("there is no voice Zephyr"), Mouth(1, "there is no voice Zephyr")):
        done = check(plan, mouth, monkeypatch)
        assert done.exit_code == 2
        assert "there is no voice Zephyr (without --voice the check needs no voice)" in done.stderr
        assert done.stdout == ""


def test_a_plan_that_cannot_be_led_needs_no_voice(
    plan: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plan.write_text(PLAN.replace("arms overhead", "flying carpet"), "utf-8")
    done = check(plan, VoiceError("never asked"), monkeypatch)
    assert done.exit_code == 1
    assert "[unknown-shape]" in done.stdout


def test_what_cannot_be_read_is_a_finding(plan: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = plan.parent / "all"
    folder.mkdir()
    (folder / "gone.yaml").symlink_to(plan.parent / "nowhere")
    done = check(folder, Mouth(600), monkeypatch)
    assert done.exit_code == 1
    assert "[unreadable-file]" in done.stdout
