import json
from pathlib import Path

import pytest

from conductor.score.form import from_json, name, to_json
from tests.support import score_of

PLAN = Path(__file__).parents[1] / "golden" / "harbour-crossing.yaml"


def test_a_score_survives_its_json_form() -> None:
    score = score_of(PLAN.read_text("utf-8"))
    again = from_json(to_json(score))
    assert again == score
    assert name(again) == name(score)


def test_the_form_is_canonical() -> None:
    score = score_of(PLAN.read_text("utf-8"))
    text = to_json(score)
    canonical = json.dumps(
        json.loads(text), sort_keys=True, ensure_ascii=False, separators=(",", ":")
    )
    assert text == canonical
    assert json.loads(text)["ms"] == score.length


@pytest.mark.parametrize("text", ["[]", "{}", '{"score":1}', '{"score":99}'])
def test_something_else_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="score"):
        from_json(text)
