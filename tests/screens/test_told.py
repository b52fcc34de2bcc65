from types import ModuleType

from conductor.screens.told import Seat, letters_told
from conductor.settings import Settings
from conductor.view.cell import cell_of


def seat(width: int, height: int, distance_m: float = 2.0, cell_mm: float = 3.7) -> Seat:
    return Seat(width, height, cell_of(Settings(cell_mm=cell_mm), None), distance_m)


def test_nothing_is_said_where_all_letters_are_large_enough(scene: ModuleType) -> None:
    assert letters_told(scene.build(), seat(120, 40), True) == ""


def test_a_height_nobody_measured_is_told_even_where_all_is_well(scene: ModuleType) -> None:
    assert letters_told(scene.build(), seat(120, 40, cell_mm=0.0), True) == (
        "Rows of 3.7 mm (a guess: this terminal does not tell its pixels), read from 2 m. "
        "`conductor screen` measures it with a ruler."
    )


def test_at_the_usual_size_every_shape_now_reads_well(scene: ModuleType) -> None:
    assert letters_told(scene.build(), seat(80, 24), True) == ""


def test_letters_too_small_are_told_with_what_would_help(scene: ModuleType) -> None:
    told = letters_told(scene.build(), seat(80, 24, 3.0), True).split("\n")
    assert told[0] == "Rows of 3.7 mm (as you measured it), read from 3 m."
    assert told[1].startswith("Minutes of arc, of which 22 read well: the shape now at least 19,")
    assert told[2].startswith("Smaller than that, as the shape now: ")
    assert told[-1].startswith("A larger window would help; a larger font alone does not.")
    assert told[-1].endswith("From 2.0 m all of them read well.")


def test_a_font_that_is_told_to_do_does(scene: ModuleType) -> None:
    told = letters_told(scene.build(), seat(150, 60, 4.0, 2.5), True)
    assert "A font 1.25 times as large (120 x 48 in this window) would do." in told
    larger = letters_told(scene.build(), seat(120, 48, 4.0, 3.125), True)
    assert "as the shape now" not in larger
    assert "would do" not in larger
