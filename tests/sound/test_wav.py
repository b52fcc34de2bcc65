import io
import wave
from array import array
from pathlib import Path

import pytest

from conductor.sound.mix import RATE
from conductor.sound.wav import from_wav, to_wav


def wav(rate: int = RATE, channels: int = 1, width: int = 2, frames: int = 50) -> bytes:
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(width)
        file.setframerate(rate)
        file.writeframes(bytes(channels * width * frames))
    return out.getvalue()


def test_a_file_at_half_the_rate_is_doubled() -> None:
    assert len(from_wav(wav())) == 50
    assert len(from_wav(wav(rate=RATE // 2))) == 100


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"nothing", "not a WAV file"),
        (wav(channels=2), "2 channels of 16 bits at 44100 Hz; wanted 1 channel"),
        (wav(rate=48_000), "at 48000 Hz"),
        (wav(width=1), "8 bits"),
        (wav()[:-31], "not a WAV file|whole"),
    ],
)
def test_a_file_that_cannot_be_played_is_told(data: bytes, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        from_wav(data)


def test_what_is_written_is_read_again(tmp_path: Path) -> None:
    blocks = [array("h", [1, -2]), array("h"), array("h", [32_767, -32_768])]
    to_wav(tmp_path / "a.wav", iter(blocks))
    assert from_wav((tmp_path / "a.wav").read_bytes()).tolist() == [1, -2, 32_767, -32_768]
