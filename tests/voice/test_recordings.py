from __future__ import annotations

import math
import struct
import subprocess
import wave
from array import array
from pathlib import Path

import pytest

from conductor.voice import pcm
from conductor.voice.recordings import Recordings, decode


def record(path: Path, rate: int = 44100, channels: int = 1, seconds: float = 0.5) -> Path:
    """Half a second of room, half a second of voice, half a second of room."""
    room = [20, -20] * round(rate * seconds / 2)
    turn = 2 * math.pi * 300 / rate
    voice = [round(9000 * math.sin(turn * at)) for at in range(round(rate * seconds))]
    frames = [sample for sample in room + voice + room for _ in range(channels)]
    with wave.open(str(path), "wb") as file:
        file.setparams((channels, 2, rate, 0, "NONE", ""))
        file.writeframes(struct.pack(f"<{len(frames)}h", *frames))
    return path


def test_a_file_is_found_by_the_words_of_its_name(tmp_path: Path) -> None:
    record(tmp_path / "step-the-left-foot-back.wav")
    record(tmp_path / "Child's pose.WAV")
    (tmp_path / "notes.txt").touch()
    found = Recordings(tmp_path)
    assert found.of("Step the left foot back.") == tmp_path / "step-the-left-foot-back.wav"
    assert found.of("Child’s pose") == tmp_path / "Child's pose.WAV"
    assert found.of("Step the right foot back.") is None
    assert found.of("notes") is None
    assert not found.troubles


def test_a_list_of_names_says_which_is_which_and_wins(tmp_path: Path) -> None:
    for name in ("take-01.wav", "half-lift.wav"):
        record(tmp_path / name)
    (tmp_path / "names").write_text("take-01.wav: Half lift.\n\n", "utf-8")
    assert Recordings(tmp_path).of("half lift") == tmp_path / "take-01.wav"


def test_a_wrong_line_is_told_with_its_place_and_the_rest_counts(tmp_path: Path) -> None:
    record(tmp_path / "a.wav")
    (tmp_path / "names").write_text("a.wav\nb.wav: Fold.\nc.mp3: Rest.\na.wav: Lift.\n", "utf-8")
    found = Recordings(tmp_path)
    assert found.of("Lift") == tmp_path / "a.wav"
    assert [trouble.split(":")[1] for trouble in found.troubles] == ["1", "2", "3"]
    assert "there is no file b.wav" in found.troubles[1]


def test_nothing_outside_the_folder_is_used(tmp_path: Path) -> None:
    outside = record(tmp_path / "secret.wav")
    folder = tmp_path / "mine"
    folder.mkdir()
    (folder / "fold.wav").symlink_to(outside)
    (folder / "names").write_text("../secret.wav: Lift.\n", "utf-8")
    found = Recordings(folder)
    assert found.of("fold") is None
    assert found.of("lift") is None
    assert len(found.troubles) == 2


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    found = Recordings(tmp_path / "nowhere")
    assert found.of("fold") is None
    assert "nowhere" in found.troubles[0]


@pytest.mark.parametrize(("rate", "channels"), [(44100, 2), (48000, 1), (22050, 1)])
def test_a_recording_is_cut_to_the_voice_in_its_room(
    tmp_path: Path, rate: int, channels: int
) -> None:
    samples = decode(record(tmp_path / "a.wav", rate, channels))
    assert pcm.length_ms(samples) == pytest.approx(500 + 20 + 80, abs=8)


def test_flac_is_read_as_wav_is(tmp_path: Path) -> None:
    source = record(tmp_path / "a.wav")
    subprocess.run(["sox", source, tmp_path / "a.flac"], check=True)
    assert decode(tmp_path / "a.flac") == decode(source)


@pytest.mark.parametrize("suffix", ["wav", "flac"])
def test_what_is_no_recording_is_refused(tmp_path: Path, suffix: str) -> None:
    (tmp_path / f"a.{suffix}").write_bytes(b"this is a letter, not a sound")
    with pytest.raises(pcm.DamagedError):
        decode(tmp_path / f"a.{suffix}")


def test_a_recording_of_silence_leaves_nothing(tmp_path: Path) -> None:
    pcm.store(tmp_path / "a.wav", array("h", [5] * 9000))
    assert decode(tmp_path / "a.wav") == array("h")
