"""A smaller run of the table; the whole one is printed by `python -m tests.checks.planting`."""

from random import Random

import pytest

from tests.checks.planting.planters import PLANTERS
from tests.checks.planting.sound import Field, made, shipped
from tests.checks.planting.table import BARRED, Row, barred, shown, sown

pytestmark = pytest.mark.slow
LONGEST = 12_000  # characters; planting in an hour's class again and again is for the whole table


@pytest.fixture(scope="module")
def rows() -> list[Row]:
    """Every kind of fault planted once in each shipped plan but the longest, and in three made."""
    texts = [text for text in shipped() if len(text) < LONGEST]
    sound = [Field(text) for text in (*texts, *(made(Random(seed)) for seed in range(3)))]  # noqa: S311
    chance = Random(7)  # noqa: S311 -- a seed, so that it can be done again
    found = [Row(planter) for planter in PLANTERS]
    for row in found:
        for one in sound:
            sown(row, one, chance)
    return found


def test_every_planted_fault_is_found_in_its_lines_and_nothing_else_is_said(
    rows: list[Row],
) -> None:
    told = shown(rows, 0, [])
    strict = [row for row in rows if row.planter.family in BARRED]
    assert all(row.planted for row in strict), told
    assert not [row.planter.sentence for row in strict if row.missed], told
    assert not [row.planter.sentence for row in strict if row.false], told


def test_faults_of_load_and_care_that_are_plain_are_found(rows: list[Row]) -> None:
    some = [row for row in rows if row.planter.family not in BARRED]
    assert len(some) == 5
    assert not [row.planter.sentence for row in some if row.missed]


@pytest.mark.parametrize("seed", range(200, 212))
def test_sound_classes_are_said_to_be_sound(seed: int) -> None:
    assert barred(Field(made(Random(seed))).findings) == []  # noqa: S311 -- can be done again


def test_the_table_shows_every_kind_and_what_was_missed(rows: list[Row]) -> None:
    assert len({planter.sentence for planter in PLANTERS}) == len(PLANTERS)
    text = shown(rows, 9, [])
    assert all(planter.sentence in text for planter in PLANTERS)
    assert "clean controls: 9, false alarms in them: 0" in text
    lost = Row(PLANTERS[0], planted=4, found=3)
    assert "75.0 % found" in shown([lost], 0, [])
