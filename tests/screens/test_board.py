from types import ModuleType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.engine.model import Reply, State
from conductor.screens.board import (
    Picture,
    band,
    board,
    foot,
    header,
    progress_row,
    prompter,
    still,
    stopped,
)
from conductor.screens.rows import Rows, text_of
from conductor.values import replace
from conductor.view.letters import cells
from conductor.view.look import look
from conductor.view.model import View


def seen(scene: ModuleType, index: int, into: int = 0, **more: object) -> View:
    snapshot = scene.snap(index, into, **more)
    return look(snapshot, snapshot.now)


def roles(rows: Rows, wanted: str) -> list[str]:
    return [run.text for row in rows for run in row if run.role == wanted]


def columns(picture: Picture, width: int) -> set[int]:
    return {sum(cells(run.text) for run in row) for row in picture.rows if row} - {width}


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (200, 60), (60, 15), (40, 12)])
@pytest.mark.parametrize("index", [0, 1, 3, 5, 9, 15, 22, 33, 36])
def test_a_board_fills_the_terminal_and_no_more(
    scene: ModuleType, size: tuple[int, int], index: int
) -> None:
    for state in (State.LEADING, State.HOLDING):
        picture = board(seen(scene, index, state=state, saying="Breathe."), *size)
        assert len(picture.rows) == size[1]
        assert columns(picture, size[0]) == set()
        assert 0 < picture.bar_top < picture.bar_top + picture.bar_height < size[1]
        assert all(picture.rows[y] == () for y in range(picture.bar_top, picture.bar_height))


def test_the_band_tells_breath_count_and_time_to_the_end(scene: ModuleType) -> None:
    rows = band(seen(scene, 9), 80, 1)
    assert text_of(rows).split() == ["▲", "INHALE", "2/5", "8", "min"]
    large = band(seen(scene, 9), 80, 3)
    assert [run.role for run in large[0] if run.text.strip()] == ["rising", "now", "soft"]
    assert [len(text_of((row,))) > 60 for row in large] == [True] * 3


def test_own_breath_stays_large_beside_a_count(scene: ModuleType) -> None:
    rows = band(seen(scene, 33, 2000), 80, 3)
    assert "OWN" not in text_of(rows)
    assert "█" in roles(rows, "soft")[0]


def test_the_header_shortens_what_matters_least_first(scene: ModuleType) -> None:
    view = seen(scene, 9)
    assert text_of(header(view, 100)).startswith("  Tide Table  ·  Stand  ·  on the right")
    assert text_of(header(view, 66)).startswith("  Stand  ·  on the right")
    assert text_of(header(view, 52)).startswith("  Stand ")


def test_words_to_say_are_large_without_a_voice(scene: ModuleType) -> None:
    view = seen(scene, 9, saying="Sink the hips")
    assert "Sink the hips" in text_of(prompter(view, 80, 2, False))
    assert "█" in text_of(prompter(view, 80, 3, True))


def test_words_too_many_for_their_room_end_with_a_sign(scene: ModuleType) -> None:
    view = seen(scene, 9, saying="Reach through both hands " * 9)
    rows = prompter(view, 40, 2, False)
    assert len(rows) == 2
    assert text_of(rows).endswith("…")


def test_without_words_the_teachers_notes_are_shown(scene: ModuleType) -> None:
    assert "look for the back heels" in text_of(prompter(seen(scene, 5), 80, 2, False))
    assert text_of(prompter(seen(scene, 1), 80, 2, False)).strip() == ""


def test_the_foot_marks_done_and_refused_without_colour(scene: ModuleType) -> None:
    done = seen(scene, 9, reply=Reply(True, "one breath more"))
    refused = seen(scene, 9, reply=Reply(False, "there is no part before"))
    assert text_of(foot(done, 80)) == "  ✓ one breath more"
    assert text_of(foot(refused, 80)) == "  ✗ there is no part before"


def test_the_foot_tells_of_holding_rest_trouble_and_the_voice(scene: ModuleType) -> None:
    snapshot = scene.snap(9, state=State.HOLDING, offer="childs-pose", quiet=True)
    text = text_of(foot(look(snapshot, snapshot.now, "no sound device"), 100))
    assert text.strip() == "HOLDING · rest in child's pose · no sound device · voice off"


def test_silence_shows_stopped_and_the_clock_alone(scene: ModuleType) -> None:
    view = seen(scene, 9, state=State.STOPPED, leaves=None, silenced=True)
    rows = stopped(view, "18:42", 20, 24)
    assert {run.role for row in rows for run in row if run.text.strip()} == {"alert", "now"}
    again = replace(view, reply="It is silent.", refused=True)
    assert "It is silent. Space or Page Down goes on." in text_of(stopped(again, "18:42", 80, 24))
    waits = seen(scene, 9, state=State.STOPPED, leaves=None)
    loud = text_of(stopped(waits, "18:42", 80, 24))
    assert "warrior two, arms wide, right foot forward" in loud
    assert "Space goes on." in loud


def test_two_views_apart_only_by_the_bar_are_still_the_same(scene: ModuleType) -> None:
    assert still(seen(scene, 1, 1000)) == still(seen(scene, 1, 1100))
    assert still(seen(scene, 1)) != still(seen(scene, 2))


def test_progress_is_counted() -> None:
    assert text_of(progress_row(3, 4, 36)) == "  voice 3 of 4  █████████████░░░░░"
    assert progress_row(0, 0, 36) == ((),)


@settings(max_examples=60, deadline=None)
@given(
    name=st.text(alphabet="abcdéñ 山-'", min_size=1, max_size=60),
    width=st.integers(30, 220),
    height=st.integers(10, 70),
)
def test_any_name_in_any_terminal_stays_within_it(
    scene: ModuleType, name: str, width: int, height: int
) -> None:
    view = seen(scene, 5)
    named = replace(view, now=replace(view.now, name=name), emphasis="now")
    picture = board(named, width, height)
    assert len(picture.rows) == height
    assert columns(picture, width) == set()
