from types import ModuleType

import pytest

from conductor.engine.model import Reply, State
from conductor.sides import Breath
from conductor.values import replace
from conductor.view.look import look


def test_a_movement_of_a_flow_shows_both_shapes_alike(scene: ModuleType) -> None:
    snapshot = scene.snap(1, 1000)
    view = look(snapshot, snapshot.now)
    assert (view.title, view.part, view.now.name) == ("Tide Table", "Arrive", "arms overhead")
    assert view.next
    assert (view.next.name, view.next.breath) == ("standing fold", "EXHALE")
    assert (view.breath, view.fraction, view.emphasis) == ("INHALE", 250, "both")
    assert view.rising


def test_the_picture_moves_with_now_between_two_snapshots(scene: ModuleType) -> None:
    snapshot = scene.snap(1, 1000)
    assert look(snapshot, snapshot.now + 1000).fraction == 500
    assert look(snapshot, snapshot.now + 60_000).fraction == 1000
    assert look(snapshot, snapshot.now - 60_000).fraction == 0


def test_a_stay_counts_its_breaths_and_its_last_breath_shows_what_comes(scene: ModuleType) -> None:
    views = [look(one, one.now) for one in (scene.snap(9), scene.snap(14), scene.snap(15))]
    assert [(one.count, one.tally) for one in views] == [
        ("breath 2 of 5", "2/5"),
        ("breath 4 of 5", "4/5"),
        ("breath 5 of 5", "5/5"),
    ]
    assert [one.emphasis for one in views] == ["now", "now", "both"]


def test_a_timed_stay_counts_the_time_left_over_all_its_moments(scene: ModuleType) -> None:
    snapshot = scene.snap(36, 250_000)
    view = look(snapshot, snapshot.now)
    assert (view.breath, view.count, view.tally) == ("OWN BREATH", "50 s left", "50 s")
    assert view.next is None
    first = scene.snap(36, 10_000)
    assert look(first, first.now).tally == "5 min"


def test_pace_stretches_the_time_left(scene: ModuleType) -> None:
    slow = replace(scene.snap(36, 0), pace=1200, leaves=None, state=State.STOPPED)
    assert look(slow, slow.now).count == "6 min left"


def test_breath_goes_on_while_holding(scene: ModuleType) -> None:
    held = [scene.snap(9, 0, State.HOLDING, held=number) for number in (0, 1, 2)]
    views = [look(one, one.now) for one in held]
    assert [one.breath for one in views] == ["INHALE", "EXHALE", "INHALE"]
    assert [one.count for one in views] == ["held breath 1", "held breath 1", "held breath 2"]
    assert views[0].state_words == "HOLDING"
    assert views[0].emphasis == "now"


def test_the_engines_own_breath_and_its_going_on_are_shown(scene: ModuleType) -> None:
    going = scene.snap(9, 0, State.HOLDING, held=2, breath=Breath.OUT, resumes_at=90_000)
    view = look(going, going.now)
    assert (view.breath, view.state_words) == ("EXHALE", "going on with the next breath")


def test_a_run_in_counts_down(scene: ModuleType) -> None:
    snapshot = scene.snap(5, -2400, State.ARRIVING)
    view = look(snapshot, snapshot.now)
    assert (view.count, view.tally, view.fraction) == ("in 3 s", "3", 0)


def test_before_the_beginning_nothing_is_counted(scene: ModuleType) -> None:
    snapshot = scene.snap(0, 0, State.READY)
    view = look(snapshot, snapshot.now + 5000)
    assert (view.count, view.elapsed, view.fraction) == ("", "00:00", 0)


def test_a_stopped_class_stands_still(scene: ModuleType) -> None:
    snapshot = scene.snap(9, 1000, State.STOPPED, leaves=None)
    early, late = look(snapshot, snapshot.now), look(snapshot, snapshot.now + 90_000)
    assert early == late
    assert early.state_words == "STOPPED"


@pytest.mark.parametrize(
    ("over", "words"), [(0, "on time"), (130_000, "2 min over"), (-70_000, "1 min early")]
)
def test_where_the_class_stands(scene: ModuleType, over: int, words: str) -> None:
    snapshot = scene.snap(1)
    moved = replace(snapshot, ends_at=snapshot.planned_end + over)
    assert look(moved, moved.now).standing == words


def test_round_and_leading_side_say_where_in_the_part(scene: ModuleType) -> None:
    snapshot = scene.snap(19)
    moments = list(snapshot.score.moments)
    moments[19] = replace(moments[19], round=(2, 3))
    turned = replace(snapshot, score=replace(snapshot.score, moments=tuple(moments)))
    assert look(turned, turned.now).place == "round 2 of 3, on the left"


def test_replies_offers_and_trouble_reach_the_view(scene: ModuleType) -> None:
    snapshot = scene.snap(9, 0, State.HOLDING, offer="childs-pose", reply=Reply(False, "not now"))
    view = look(snapshot, snapshot.now, "the sound device is gone")
    assert (view.reply, view.refused, view.offer) == ("not now", True, "child's pose")
    assert view.trouble == "the sound device is gone"


def test_text_of_a_plan_is_cleaned(scene: ModuleType) -> None:
    snapshot = scene.snap(5, saying="Step\x1b[2J up")
    assert look(snapshot, snapshot.now).saying == "Step[2J up"


def test_notes_and_other_ways_are_the_teachers_margin(scene: ModuleType) -> None:
    snapshot = scene.snap(5)
    assert look(snapshot, snapshot.now).notes == (
        "look for the back heels",
        "ease: back knee down",
    )
