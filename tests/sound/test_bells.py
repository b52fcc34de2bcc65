import math
import runpy
from array import array
from pathlib import Path

import pytest

from conductor.sound.bells import STROKE_GAP, load, struck
from conductor.sound.desk import VOICE_DB
from conductor.sound.mix import RATE

SOUNDS = Path(__file__).parents[2] / "sounds"
VOICE_DBFS = -20.1 + VOICE_DB  # espeak as measured, as mixed


def test_the_bells_that_lie_there_are_what_the_script_makes(tmp_path: Path) -> None:
    runpy.run_path(str(SOUNDS / "make_bells.py"))["write"](tmp_path)
    made = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    assert made == {path.name: path.read_bytes() for path in SOUNDS.glob("*.wav")}
    assert sum(map(len, made.values())) < 500_000


@pytest.mark.parametrize("name", ["bell", "end", "part", "rest"])
def test_a_bell_suits_the_voice_and_ends_in_silence(name: str) -> None:
    pcm = load(SOUNDS)[name]
    size = RATE * 2 // 5
    loud = max(
        math.sqrt(sum(s * s for s in pcm[k : k + size]) / size) for k in range(0, RATE, RATE // 10)
    )
    assert 20 * math.log10(loud / 32_768) == pytest.approx(VOICE_DBFS, abs=3)
    assert max(map(abs, pcm)) < 0.3 * 32_768  # with a voice at its peak below the limit
    assert max(map(abs, pcm[-50:])) < 10
    assert abs(pcm[0]) < 10
    assert 1.5 * RATE < len(pcm) < 6 * RATE


def test_a_bad_file_of_a_folder_is_named(tmp_path: Path) -> None:
    (tmp_path / "gong.wav").write_bytes(b"RIFF")
    with pytest.raises(ValueError, match=r"gong\.wav: not a WAV file"):
        load(tmp_path)


def test_strokes_ring_into_each_other() -> None:
    pcm = array("h", [100] * (STROKE_GAP + 10))
    out = struck(pcm, 3)
    assert len(out) == 3 * STROKE_GAP + 10
    assert out.tolist() == (
        [100] * STROKE_GAP + ([200] * 10 + [100] * (STROKE_GAP - 10)) * 2 + [100] * 10
    )
    assert struck(pcm, 1) == pcm
