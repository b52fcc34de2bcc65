from types import ModuleType

from conductor.values import replace
from conductor.view.before import DISCLAIMER, going_on, lines, overview, unseen


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


def test_stretches_out_of_sight_are_told_but_for_the_short_ones(scene: ModuleType) -> None:
    score = scene.build()
    shapes = {key: replace(info, unseen=key == "final-rest") for key, info in score.shapes.items()}
    seen = replace(score, shapes=dict.fromkeys(shapes, replace(shapes["mountain"], unseen=False)))
    assert unseen(seen) == ""
    assert unseen(replace(score, shapes=shapes)) == (
        "One stretch of 5 min 20 s, at 03:04: the voice leads there, or your memory."
    )
    shapes["warrior-two"] = replace(shapes["warrior-two"], unseen=True)
    hidden = replace(score, shapes=shapes)
    assert unseen(hidden) == (
        "3 stretches of 15 s and more, the longest 5 min 20 s, the first at 00:28: "
        "the voice leads there, or your memory."
    )
    assert f"Screen out of sight: {unseen(hidden)}" in lines(hidden)
