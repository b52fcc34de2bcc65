from types import ModuleType

from conductor.view.before import DISCLAIMER, going_on, lines, overview


def test_an_overview_tells_parts_props_and_cautions(scene: ModuleType) -> None:
    view = overview(scene.build())
    assert view.title == "Tide Table"
    assert view.summary == "class, mixed level, 8 min 24 s, 11 shapes"
    assert view.parts == (("Arrive", "24 s"), ("Stand", "1 min 52 s"), ("Rest", "6 min 8 s"))
    assert view.props == ("two blocks",)
    assert [names for words, names in view.cautions if words == "shoulder trouble"] == [
        "arms overhead, plank, downward dog"
    ]


def test_the_lines_end_with_the_disclaimer_and_promise_nothing(scene: ModuleType) -> None:
    told = lines(scene.build())
    assert told[-1] == DISCLAIMER
    assert "Take care with shoulder trouble: arms overhead, plank, downward dog" in told
    assert "medical advice" in DISCLAIMER
    assert "safe" not in DISCLAIMER


def test_a_class_that_broke_off_says_where_it_goes_on(scene: ModuleType) -> None:
    where = "It goes on from where it broke off: Stand, crescent lunge, right foot forward."
    assert lines(scene.build(), scene.build().moments[5].id) == ("Tide Table", where)
    assert going_on(scene.build(), "gone") == "It goes on from where it broke off."
