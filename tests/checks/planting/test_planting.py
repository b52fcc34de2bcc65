"""A smaller run of the table; the whole one is printed by `python -m tests.checks.planting`."""

from random import Random

import pytest

from tests.checks.planting.planters import PLANTERS
from tests.checks.planting.sound import Field, made
from tests.checks.planting.table import BARRED, barred, shown, table

pytestmark = pytest.mark.slow


def test_every_planted_fault_is_found_in_its_lines_and_nothing_else_is_said() -> None:
    rows, controls, alarms = table(seed=7, many=6)
    told = shown(rows, controls, alarms)
    assert not alarms, told
    strict = [row for row in rows if row.planter.family in BARRED]
    assert all(row.planted for row in strict), told
    assert not [row.planter.sentence for row in strict if row.missed], told
    assert not [row.planter.sentence for row in strict if row.false], told


def test_faults_of_load_and_care_that_are_plain_are_found() -> None:
    rows, *_ = table(seed=8, many=2)
    some = [row for row in rows if row.planter.family not in BARRED]
    assert len(some) == 5
    assert not [row.planter.sentence for row in some if row.missed]


@pytest.mark.parametrize("seed", range(200, 212))
def test_sound_classes_are_said_to_be_sound(seed: int) -> None:
    assert barred(Field(made(Random(seed))).findings) == []  # noqa: S311 -- can be done again


def test_the_table_knows_when_something_is_missed() -> None:
    rows, controls, _ = table(seed=9, many=0)
    assert controls == 6
    assert sum(row.planted for row in rows) > 100
    assert len({planter.sentence for planter in PLANTERS}) == len(PLANTERS)
    text = shown(rows, controls, [])
    assert all(planter.sentence in text for planter in PLANTERS)
