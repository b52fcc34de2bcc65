from pathlib import Path

import pytest

from conductor.score.model import Saying
from conductor.voice.manner import Manner
from conductor.voice.paces import Paces
from conductor.voice.render import Renderer

WORDS = "Exhale, step your left foot between your palms, low lunge."


@pytest.mark.slow
def test_a_hurried_saying_is_rendered_faster_by_about_its_percent(tmp_path: Path) -> None:
    told: list[tuple[int, int]] = []
    paces = Paces(Renderer(tmp_path, {}), lambda rate: Renderer(tmp_path, {}, Manner(rate=rate)))
    usual, hurried = Saying(WORDS), Saying(WORDS, 15)
    lengths = paces.prepare([usual, hurried], lambda done, total: told.append((done, total)))
    assert paces.status == ""
    assert 1.08 < lengths[usual] / lengths[hurried] < 1.25
    for saying in (usual, hurried):
        pcm = paces.pcm(saying)
        assert pcm is not None
        assert len(pcm) * 1000 // paces.rate_hz == pytest.approx(lengths[saying], abs=1)
    assert told[-1] == (2, 2)
    assert [done for done, _ in told] == sorted(done for done, _ in told)
