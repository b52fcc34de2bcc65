from types import ModuleType

from conductor.screens.wiring import Ending, How, Prepared, Shelf
from conductor.view.leading import Leading


def test_the_stand_ins_keep_to_the_wiring(scene: ModuleType, hands: ModuleType) -> None:
    prepared: Prepared = hands.Ready(scene.snap(0))
    shelf: Shelf = hands.Plans(prepared)
    leading: Leading = prepared.begin()
    assert shelf.open("tide") is prepared
    assert leading.snapshot().score == prepared.score


def test_an_ending_without_a_class_has_none() -> None:
    assert Ending(How.LEFT) == Ending(How.LEFT, None, "")
