from types import ModuleType

from conductor.engine.model import State
from conductor.timing.holds import dropped, resized
from conductor.values import replace
from conductor.view.after import went


def test_a_whole_class_was_led_alike_and_on_time(scene: ModuleType) -> None:
    snapshot = scene.snap(36, 300_000, State.FINISHED)
    told = went(snapshot, [one.id for one in snapshot.score.moments], snapshot.score)
    assert told.lines == (
        "Led 8 min 24 s; planned 8 min 24 s: on time.",
        "Every moment was led.",
        "Both sides were led alike.",
    )


def test_what_was_left_out_and_the_shorter_side_are_told(scene: ModuleType) -> None:
    snapshot = scene.snap(20, 0, State.FINISHED)
    told = went(snapshot, [one.id for one in snapshot.score.moments[:20]], snapshot.score)
    assert told.time == "Led 1 min 24 s; planned 8 min 24 s: 7 min early."
    assert told.skipped == ("Left out 17 of 37 moments (Stand 13, Rest 4).",)
    assert told.sides == ("warrior two: right foot 44 s, left foot 0 s.",)


def test_ids_the_score_no_longer_knows_are_passed_over(scene: ModuleType) -> None:
    snapshot = scene.snap(36, 300_000, State.FINISHED)
    ids = [one.id for one in snapshot.score.moments]
    assert went(snapshot, [*ids, "gone"], snapshot.score) == went(snapshot, ids, snapshot.score)


def test_what_was_left_out_to_land_on_time_is_told_as_such(scene: ModuleType) -> None:
    snapshot = scene.snap(36, 300_000, State.FINISHED)
    score = snapshot.score
    moments = [
        replace(one, drop="seat" if one.shape in ("cat", "childs-pose") else "")
        for one in score.moments
    ]
    written = replace(score, moments=tuple(moments))
    stays = [hold.id for hold in score.holds.values() if not hold.timed]
    landed = dropped(resized(written, dict.fromkeys(stays, 3), 0), ["seat"])
    snapshot = replace(snapshot, score=landed)
    ids = [one.id for one in landed.moments]
    assert went(snapshot, ids, written).skipped == (
        "2 moments were left out to land on time.",
        "Every other moment was led.",
    )
    assert went(snapshot, ids[:-1], written).skipped == (
        "2 moments were left out to land on time.",
        f"Left out 1 of {len(ids)} moments (Rest 1).",
    )
