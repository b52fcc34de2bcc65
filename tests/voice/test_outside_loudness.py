"""Loudness by a meter written elsewhere: pyloudnorm, after ITU-R BS.1770."""

from pathlib import Path

import numpy as np
import pyloudnorm
import pytest

from conductor.score.model import Saying
from conductor.voice.loudness import TARGET_LUFS
from conductor.voice.render import Renderer

CUES = [
    "Inhale, reach the arms up.",
    "Exhale, fold forward.",
    "Inhale, lift the right leg, three-legged dog.",
    "Exhale, step your left foot between your palms.",
    "Let the floor carry you, and let the breath come and go.",
    "Last breath.",
]


@pytest.mark.slow
def test_cues_are_as_loud_as_each_other_and_as_stated(tmp_path: Path) -> None:
    renderer = Renderer(tmp_path, {})
    sayings = [Saying(text) for text in CUES]
    lengths = renderer.prepare(sayings)
    assert set(lengths) == set(sayings), renderer.status
    meter = pyloudnorm.Meter(renderer.rate_hz)
    loudness = []
    for saying in sayings:
        pcm = renderer.pcm(saying)
        assert pcm is not None
        samples = np.frombuffer(pcm, np.int16) / 32768
        assert np.max(np.abs(samples)) <= 10 ** (-1 / 20)  # -1 dBFS: never clipped
        loudness.append(meter.integrated_loudness(samples))
    # cues within 1 LU of each other, and within 1 LU (EBU R 128's tolerance) of the target
    assert max(loudness) - min(loudness) <= 1.0
    assert all(abs(one - TARGET_LUFS) <= 1.0 for one in loudness)
