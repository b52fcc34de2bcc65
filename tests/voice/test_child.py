from __future__ import annotations

import errno
import json
import subprocess
import wave
from array import array
from pathlib import Path
from typing import Any

import pytest

from conductor.voice import child, pcm
from conductor.voice.child import Desk
from conductor.voice.engines import NoEngineError, UnknownVoiceError, VoiceInfo
from conductor.voice.process import COMMAND, _environment
from conductor.voice.text import split

SPEECH = array("h", [0] * 500 + [8000, -8000] * 11025 + [0] * 500)  # one second


class SetEngine:
    """An engine that says what it was given."""

    name, voice = "set", "one"

    def __init__(self, samples: array[int]) -> None:
        self.samples = samples

    def voices(self) -> list[VoiceInfo]:
        return [VoiceInfo("one", "One", "en")]

    def say(self, text: str) -> tuple[array[int], int]:
        if text == "crash":
            raise RuntimeError("no such phoneme")
        return self.samples, 22050


def desk(samples: array[int] = SPEECH) -> Desk:
    made = Desk()
    made._engine = SetEngine(samples)
    return made


def render(at: Desk, part: Path, text: str = "one two three", **more: Any) -> dict[str, Any]:
    return at.answer({"do": "render", "text": text, "part": str(part), "volume": 1.0, **more})


def test_a_render_is_trimmed_levelled_and_stored(tmp_path: Path) -> None:
    answer = render(desk(), tmp_path / "a")
    samples = pcm.load(tmp_path / "a")
    assert answer == {"ok": True, "samples": len(samples)}
    assert pcm.length_ms(samples) == pytest.approx(1000 + 5 + 23, abs=2)


def test_a_long_text_is_said_in_pieces_with_a_pause_between(tmp_path: Path) -> None:
    text = "Let it go. " * 90
    render(desk(), tmp_path / "a", text, even_odd=True)
    pieces = len(split(text, 500))
    assert pieces > 1
    length = pcm.length_ms(pcm.load(tmp_path / "a"))
    assert length == pytest.approx(pieces * 1028 + (pieces - 1) * 250, abs=2 * pieces)


def test_half_the_volume_is_half_the_samples(tmp_path: Path) -> None:
    render(desk(), tmp_path / "loud")
    render(desk(), tmp_path / "soft", volume=0.5)
    loud, soft = (max(pcm.load(tmp_path / name)) for name in ("loud", "soft"))
    assert soft == pytest.approx(loud / 2, abs=2)


@pytest.mark.parametrize(
    ("samples", "text", "words"),
    [
        (array("h", [0] * 22050), "one two three", "not a sound"),
        (array("h", [100] * 22050), "one two three", "not a sound"),
        (SPEECH, "one two three four five six seven eight nine ten eleven", "1.0 s where about"),
        (SPEECH * 9, "one", "9.4 s where about"),
    ],
    ids=["mute", "hardly there", "too short", "too long"],
)
def test_an_odd_render_is_told(tmp_path: Path, samples: array[int], text: str, words: str) -> None:
    answer = render(desk(samples), tmp_path / "a", text)
    assert (answer["ok"], answer["kind"]) == (False, "odd")
    assert words in answer["words"]
    assert not (tmp_path / "a").exists()


def test_the_second_time_an_odd_length_is_believed_and_silence_is_not(tmp_path: Path) -> None:
    assert render(desk(SPEECH * 9), tmp_path / "a", "one", even_odd=True)["ok"]
    mute = array("h", [0] * 22050)
    assert not render(desk(mute), tmp_path / "b", "one", even_odd=True)["ok"]


def test_a_full_disk_is_told_as_such(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def store(_path: Path, _samples: array[int]) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(pcm, "store", store)
    answer = render(desk(), tmp_path / "a")
    assert (answer["kind"], answer["words"]) == ("full", "No space left on device")


def test_whatever_an_engine_raises_costs_one_cue(tmp_path: Path) -> None:
    at = desk()
    assert render(at, tmp_path / "a", "crash")["words"] == "no such phoneme"
    assert render(at, tmp_path / "a")["ok"]


def test_before_an_engine_is_started_there_is_none(tmp_path: Path) -> None:
    assert render(Desk(), tmp_path / "a")["kind"] == "no engine"


def test_a_missing_library_and_an_unknown_voice_are_told_apart(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    start = {"do": "start", "engine": "espeak", "voice": "x", "rate": 150, "work": str(tmp_path)}

    def missing(*_: object) -> None:
        raise NoEngineError("no voice library was found")

    def unknown(*_: object) -> None:
        raise UnknownVoiceError("en-uk", ("en-us", "de", "en-gb"))

    monkeypatch.setattr(child, "SystemEngine", missing)
    assert Desk().answer(start)["kind"] == "no engine"
    monkeypatch.setattr(child, "SystemEngine", unknown)
    answer = Desk().answer(start)
    assert answer["kind"] == "unknown voice"
    assert set(answer["near"]) == {"en-us", "en-gb"}


def test_a_recording_is_taken_without_an_engine(tmp_path: Path) -> None:
    pcm.store(tmp_path / "mine.wav", SPEECH)
    take = {"do": "take", "source": str(tmp_path / "mine.wav"), "volume": 1.0}
    assert Desk().answer({**take, "part": str(tmp_path / "a")})["ok"]
    (tmp_path / "mine.wav").write_bytes(b"RIFF")
    assert not Desk().answer({**take, "part": str(tmp_path / "b")})["ok"]


def test_the_pace_heard_is_words_by_minutes_of_trimmed_speech() -> None:
    answer = desk().answer({"do": "measure"})
    words = sum(len(text.split()) for text in child.MEASURED)
    assert answer["delivered"] == pytest.approx(words * 60 / (1.028 * 4), rel=0.01)


def test_nothing_but_answers_leaves_the_process(tmp_path: Path) -> None:
    questions: list[dict[str, object]] = [
        {"do": "start", "engine": "espeak", "voice": "", "rate": 150, "work": str(tmp_path)}
    ]
    for number in range(10):
        part = str(tmp_path / f"{number}.part")
        text = f"Inhale, half lift {number}"
        questions.append({"do": "render", "text": text, "part": part, "volume": 1.0})
    done = subprocess.run(
        COMMAND,
        input="".join(json.dumps(question) + "\n" for question in questions),
        capture_output=True,
        text=True,
        check=True,
        env=_environment(),
    )
    answers = [json.loads(line) for line in done.stdout.splitlines()]
    assert [answer["ok"] for answer in answers] == [True] * 11
    assert done.stderr == ""
    for number in range(10):
        with wave.open(str(tmp_path / f"{number}.part")) as file:
            assert file.getframerate() == 22050
    assert not list(tmp_path.glob("*.raw"))
