import pytest

from conductor.engine.course import course
from conductor.engine.descent import way_down
from tests.support import plan_of, score_of

PLAN = """
- come to: {before}
- in: same
"""
CLOSING = """
  - part: Rest
    steps:
      - in: arms overhead
      - out: standing fold
{arrival}
      - stay: 3 min
"""
LYING = "      - free: 40 s\n        to: final rest"
SITTING = "      - in: half lift\n      - out: garland\n      - in: staff\n      - out: final rest"


@pytest.mark.parametrize(
    ("before", "arrival", "lands"),
    [
        ("mountain", LYING, "final-rest"),
        ("staff", LYING, "final-rest"),
        ("staff", SITTING, "final-rest"),
        ("mountain", SITTING, "garland"),
    ],
)
def test_the_way_down_is_no_longer_than_it_must_be(before: str, arrival: str, lands: str) -> None:
    score = score_of(plan_of(PLAN.format(before=before)) + CLOSING.format(arrival=arrival))
    where = course(score, ())
    assert score.moments[way_down(where, 0)].shape == lands
