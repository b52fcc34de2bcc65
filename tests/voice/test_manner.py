from pathlib import Path

import pytest

from conductor.voice.manner import Manner, VoiceError


@pytest.mark.parametrize(("rate", "nearest"), [(79, "80"), (451, "450"), (0, "80"), (-5, "80")])
def test_a_rate_that_would_be_ignored_is_refused_with_the_nearest(rate: int, nearest: str) -> None:
    with pytest.raises(VoiceError) as refused:
        Manner(rate=rate).check()
    assert nearest in refused.value.hint


@pytest.mark.parametrize("rate", [80, 150, 450])
def test_rates_at_the_edge_are_fine(rate: int) -> None:
    Manner(rate=rate).check()


@pytest.mark.parametrize(
    ("manner", "words"),
    [
        (Manner(engine="robot"), "no voice engine is called 'robot'"),
        (Manner(volume=0), "volume"),
        (Manner(volume=1.5), "volume"),
        (Manner(engine="natural", model=Path("/nowhere.onnx")), "no voice model at"),
    ],
)
def test_what_cannot_be_had_is_refused(manner: Manner, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        manner.check()
