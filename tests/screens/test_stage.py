from types import ModuleType

from conductor.engine.model import State
from conductor.screens.rows import Rows, text_of
from conductor.screens.stage import stage
from conductor.values import replace
from conductor.view.look import look
from conductor.view.model import Face, View


def seen(scene: ModuleType, index: int, into: int = 0, **more: object) -> View:
    snapshot = scene.snap(index, into, **more)
    return look(snapshot, snapshot.now)


def roles(rows: Rows, wanted: str) -> list[str]:
    return [run.text for row in rows for run in row if run.role == wanted]


def test_in_a_flow_the_next_shape_is_as_large_as_the_one_now(scene: ModuleType) -> None:
    rows = stage(seen(scene, 1), 120, 26)
    now, following = roles(rows, "now"), roles(rows, "next")
    assert len(now) == 5
    assert len(following) == 5 + 1  # and one row of what is ahead


def test_in_a_stay_the_shape_now_is_larger(scene: ModuleType) -> None:
    view = replace(seen(scene, 9), next=Face("standing fold", breath="INHALE", sign="▲"))
    rows = stage(replace(view, ahead=()), 200, 30)
    assert (len(roles(rows, "now")), len(roles(rows, "next"))) == (11, 7)
    rows = stage(replace(view, ahead=()), 80, 15)
    assert (len(roles(rows, "now")), len(roles(rows, "next"))) == (4, 3)


def test_the_side_is_a_word_a_sign_and_a_place(scene: ModuleType) -> None:
    right, left = stage(seen(scene, 9), 80, 15), stage(seen(scene, 25), 80, 15)
    assert all(row[-1].role == "post-right" for row in right[:8])
    assert all(row[0].role == "post-left" for row in left[:8])
    assert len(roles(right, "side-right")) == 4
    small = stage(seen(scene, 9), 80, 8)
    assert "right foot R ▶" in text_of(small)


def test_a_shape_without_a_side_has_no_post(scene: ModuleType) -> None:
    rows = stage(seen(scene, 1), 80, 15)
    assert not any("post" in run.role or "mark" in run.role for row in rows for run in row)


def test_what_comes_says_on_which_breath_and_how_long(scene: ModuleType) -> None:
    assert "next on ▼ EXHALE  R ▶  stays 5 breaths" in text_of(stage(seen(scene, 5), 80, 15))


def test_shapes_ahead_are_listed_before_the_screen_is_lost(scene: ModuleType) -> None:
    assert "then ▲ crescent lunge R ▶" in text_of(stage(seen(scene, 3), 80, 15))


def test_holding_takes_the_place_of_what_comes(scene: ModuleType) -> None:
    rows = stage(seen(scene, 9, state=State.HOLDING, offer="childs-pose"), 40, 15)
    assert roles(rows, "alert") == ["hold, or child's pose"]
    assert roles(rows, "next") == []
