from types import ModuleType

from conductor.screens.told import letters_told
from conductor.settings import Settings


def test_nothing_is_said_where_all_names_are_large_enough(scene: ModuleType) -> None:
    assert letters_told(scene.build(), Settings(), True, 120, 40) == ""


def test_names_that_do_not_fit_are_told(scene: ModuleType) -> None:
    told = letters_told(scene.build(), Settings(), True, 80, 24)
    assert told == (
        "In this window of 80 x 24, smaller letters for: crescent lunge. "
        "A window of more columns shows them larger."
    )


def test_a_distance_too_far_asks_for_a_larger_font(scene: ModuleType) -> None:
    told = letters_told(scene.build(), Settings(view_distance_m=3.0), True, 120, 40)
    assert told.startswith("At 3 m these letters are 15 minutes of arc tall")
