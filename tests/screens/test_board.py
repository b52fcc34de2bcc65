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
    stage_rows,
    still,
    stopped,
)
from conductor.screens.rows import MARGIN, Rows, text_of
from conductor.screens.stage import _post_width, stage
from conductor.sides import Side
from conductor.values import replace
from conductor.view.letters import INKS, cells, draw
from conductor.view.look import look
from conductor.view.model import Face, SideFace, View


def seen(scene: ModuleType, index: int, into: int = 0, **more: object) -> View:
    snapshot = scene.snap(index, into, **more)
    return look(snapshot, snapshot.now)


def roles(rows: Rows, wanted: str) -> list[str]:
    return [run.text for row in rows for run in row if run.role == wanted]


def columns(picture: Picture, width: int) -> set[int]:
    return {sum(cells(run.text) for run in row) for row in picture.rows if row} - {width}


@pytest.mark.parametrize(
    "size", [(80, 24), (120, 40), (200, 60), (160, 45), (60, 80), (60, 15), (40, 15)]
)
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


def shown_whole(rows: Rows, name: str, size: tuple[int, int]) -> bool:
    """Whether the name now stands there wholly, in large letters or in plain ones."""
    drawn = [run.text.rstrip() for row in rows for run in row if run.role == "now"]
    if "".join("".join(drawn).split()) == "".join(name.split()):
        return True
    rooms = {size[0] - 2 * MARGIN, size[0] - 2 * MARGIN - _post_width(size[0]) - 1}
    return any(
        [row.rstrip() for row in draw(name, room, height, ink).rows] == drawn
        for room in rooms
        for height in range(size[1], 2, -1)
        for ink in INKS
    )


NAMES = st.sampled_from(
    [
        "plank",
        "cow",
        "crescent lunge",
        "extended hand-to-big-toe",
        "wide-legged half lift",
        "山の形",
    ]
) | st.text(alphabet="abcdéñ 山-'", min_size=1, max_size=60).filter(str.strip)
SIDES = st.sampled_from(
    [
        None,
        SideFace(Side.RIGHT, "right foot", "right foot forward", "R ▶"),
        SideFace(Side.LEFT, "left raised leg", "left leg raised", "◀ L"),
    ]
)
FACES = st.builds(
    Face,
    NAMES,
    sanskrit=st.sampled_from(["", "Adho Mukha Śvānāsana"]),
    detail=st.sampled_from(["", "arms wide, hands on two blocks"]),
    side=SIDES,
    turn=st.sampled_from(["", "turn to the other end"]),
    breath=st.just("EXHALE"),
    sign=st.just("▼"),
    stay=st.sampled_from(["", "5 breaths"]),
)


@settings(max_examples=80, deadline=None)
@given(
    now=FACES,
    following=st.none() | FACES,
    flow=st.booleans(),
    size=st.tuples(st.integers(40, 220), st.integers(15, 80))
    | st.sampled_from([(80, 24), (40, 15), (60, 80), (160, 45), (200, 60)]),
    need=st.floats(0.5, 12),
    ahead=st.lists(FACES, max_size=3).map(tuple),
)
def test_any_shapes_in_any_window_stay_within_it_and_the_name_is_there_whole(
    scene: ModuleType,
    now: Face,
    following: Face | None,
    flow: bool,
    size: tuple[int, int],
    need: float,
    ahead: tuple[Face, ...],
) -> None:
    view = replace(
        seen(scene, 5), now=now, next=following, ahead=ahead, emphasis="both" if flow else "now"
    )
    picture = board(view, *size, need=need)
    assert len(picture.rows) == size[1]
    assert columns(picture, size[0]) == set()
    here = stage(view, size[0], stage_rows(size[1], False, need=need), need)
    assert shown_whole(here, " ".join(now.name.split()), size)
    if now.side:
        shown = text_of(here) + "".join(run.role for row in here for run in row)
        assert f"post-{now.side.side}" in shown


@settings(max_examples=30, deadline=None)
@given(width=st.integers(1, 60), height=st.integers(1, 30))
def test_a_window_too_small_says_so_and_what_matters(
    scene: ModuleType, width: int, height: int
) -> None:
    picture = board(seen(scene, 9), width, height)
    assert len(picture.rows) == height
    assert columns(picture, width) == set()


def test_below_the_least_size_the_class_is_told_in_sentences(scene: ModuleType) -> None:
    told = text_of(board(seen(scene, 9), 38, 14).rows).split()
    assert " ".join(told) == (
        "INHALE: warrior two, arms wide, right foot forward. Next plank. breath 2 of 5 "
        "The class goes on. Make this window 40 x 15 or larger."
    )


def test_the_shape_now_has_the_rows_it_needs_before_the_next_one(scene: ModuleType) -> None:
    view = replace(seen(scene, 5), now=Face("constructive rest"), next=Face("reclined twist"))
    usual = stage(view, 80, 15, 2.5)
    larger = stage(view, 80, 15, 3.5)
    assert len(roles(usual, "now")) < len(roles(larger, "now"))


def test_a_tall_window_lays_the_side_across(scene: ModuleType) -> None:
    rows = stage(seen(scene, 9), 60, 66)
    first = rows[0]
    assert [run.role for run in first] == ["post-right"]
    assert "post-right" not in {run.role for row in rows[5:30] for run in row}


@given(
    width=st.integers(40, 200),
    height=st.integers(15, 60),
    reply=st.text("abc d", max_size=120),
    trouble=st.text("abc d", max_size=80),
    silenced=st.booleans(),
)
def test_a_stopped_class_fits_every_window_and_says_how_it_goes_on(
    scene: ModuleType, width: int, height: int, reply: str, trouble: str, silenced: bool
) -> None:
    view = seen(scene, 9, state=State.STOPPED, leaves=None, silenced=silenced)
    view = replace(view, reply=reply, trouble=trouble)
    rows = stopped(view, "18:42", width, height)
    assert len(rows) == height
    assert max(sum(cells(run.text) for run in row) for row in rows) <= width
    if not silenced:
        assert "Space goes on." in text_of(rows)
