from __future__ import annotations

import struct
import wave
from array import array
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.voice import pcm
from conductor.voice.pcm import DamagedError


def wav(path: Path, frames: bytes, width: int = 2, channels: int = 1, rate: int = 22050) -> Path:
    with wave.open(str(path), "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(width)
        file.setframerate(rate)
        file.writeframes(frames)
    return path


def test_silence_goes_but_for_a_lead_and_a_faded_tail() -> None:
    speech = [1000] * 2205
    trimmed = pcm.trimmed(array("h", [0] * 5000 + speech + [10] * 20000))
    lead, tail = 5 * 22050 // 1000, 30 * 22050 // 1000
    assert len(trimmed) == lead + 2205 + tail
    assert list(trimmed[:lead]) == [0] * lead
    assert trimmed[lead] == 1000
    assert trimmed[-1] == 0


def test_speech_to_the_very_end_fades() -> None:
    trimmed = pcm.trimmed(array("h", [1000] * 3000))
    assert len(trimmed) == 3000
    assert list(trimmed[-110:]) == sorted(trimmed[-110:], reverse=True)
    assert trimmed[-1] == 0


def test_mere_silence_leaves_nothing() -> None:
    assert pcm.trimmed(array("h", [0, 33, -33] * 1000)) == array("h")


@settings(deadline=None)
@given(st.lists(st.integers(-32768, 32767), min_size=1).filter(any))
def test_what_is_stored_is_loaded(tmp_path_factory: pytest.TempPathFactory, it: list[int]) -> None:
    path = tmp_path_factory.mktemp("kept") / "a.wav"
    pcm.store(path, array("h", it))
    assert path.stat().st_size == 44 + 2 * len(it)
    assert list(pcm.load(path)) == it


@pytest.mark.parametrize(
    "damage",
    [
        lambda data: data[:-2],
        lambda data: data[:30],
        lambda _: b"",
        lambda data: data[:44] + bytes(len(data) - 44),
        lambda data: b"RIFX" + data[4:],
        lambda data: data + b"x",
    ],
    ids=["cut", "header cut", "empty", "zeros", "not a WAV", "too long"],
)
def test_a_damaged_file_is_noticed(tmp_path: Path, damage: Callable[[bytes], bytes]) -> None:
    path = tmp_path / "a.wav"
    pcm.store(path, array("h", range(1, 1000)))
    path.write_bytes(damage(path.read_bytes()))
    with pytest.raises(DamagedError):
        pcm.load(path)


@pytest.mark.parametrize(
    ("width", "frames"),
    [
        (1, bytes([128, 192, 64])),
        (2, struct.pack("<3h", 0, 16384, -16384)),
        (3, b"\0\0\0" + b"\0\0\x40" + b"\0\0\xc0"),
        (4, struct.pack("<3i", 0, 1 << 30, -(1 << 30))),
    ],
)
def test_every_width_of_wav_is_read(tmp_path: Path, width: int, frames: bytes) -> None:
    samples, rate = pcm.read(wav(tmp_path / "a.wav", frames, width))
    assert (list(samples), rate) == ([0, 16384, -16384], 22050)


def test_channels_are_mixed(tmp_path: Path) -> None:
    samples, _ = pcm.read(wav(tmp_path / "a.wav", struct.pack("<4h", 100, 300, -5, 5), channels=2))
    assert list(samples) == [200, 0]


def test_an_aiff_file_is_read_since_one_system_writes_no_other(tmp_path: Path) -> None:
    body = struct.pack(">3h", 1, -2, 3)
    comm = struct.pack(">hIhHQ", 1, 3, 16, 16383 + 14, 22050 << 49)
    chunks = b"COMM" + struct.pack(">I", 18) + comm
    chunks += b"SSND" + struct.pack(">I", 8 + len(body)) + bytes(8) + body
    form = b"FORM" + struct.pack(">I", len(chunks) + 4)
    (tmp_path / "a.aiff").write_bytes(form + b"AIFF" + chunks)
    samples, rate = pcm.read(tmp_path / "a.aiff")
    assert (list(samples), rate) == ([1, -2, 3], 22050)


@pytest.mark.parametrize("data", [b"", b"RIFF", b"FORM1234AIFF", b"hello, this is no sound"])
def test_what_is_no_sound_file_is_refused(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "a").write_bytes(data)
    with pytest.raises(DamagedError):
        pcm.read(tmp_path / "a")


def test_another_rate_keeps_length_and_level() -> None:
    tone = array("h", [round(10000 * ((at % 441) / 220.5 - 1)) for at in range(44100)])
    for rate in (16000, 44100, 48000):
        made = pcm.resampled(tone, rate)
        assert len(made) == pytest.approx(44100 * 22050 / rate, abs=2)
        assert max(made) == pytest.approx(10000, rel=0.05)


def test_a_length_is_rounded_up() -> None:
    assert pcm.length_ms(array("h", [1] * 22050)) == 1000
    assert pcm.length_ms(array("h", [1] * 22051)) == 1001
