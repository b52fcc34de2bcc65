from conductor.engine.model import Do
from conductor.run.review.propose import proposal
from conductor.run.review.wishes import Reviewed
from conductor.run.review.words import after
from conductor.values import replace
from conductor.view.after import After
from tests.run.review.test_wishes import more
from tests.run.review.virtual import STAY, TIDE, Room

RIGHT, LEFT = STAY["right"], STAY["left"]


def page(now: Reviewed | Room, *earlier: Room) -> After:
    now = now.reviewed() if isinstance(now, Room) else now
    return after(now, [room.reviewed() for room in earlier])


def first(now: Reviewed | Room, *earlier: Room) -> dict[str, str]:
    return dict(page(now, *earlier).first)


def test_a_class_as_planned() -> None:
    told = page(Room().out())
    assert dict(told.first) == {
        "Where the time went": (
            "Led 5 min 32 s; planned 5 min 32 s: on time.\nEvery moment was led."
        ),
        "The sides": "Both sides were led alike: right 56 s, left 56 s.",
        "Next time": "Nothing to change: the class went as planned.",
    }
    blocks = dict(told.blocks)
    assert blocks["Parts: planned, led, waited"] == (
        "Stand                     2 min 48 s  2 min 48 s",
        "Rest                      2 min 44 s  2 min 44 s",
    )
    assert (
        "warrior two               1 min 28 s  1 min 28 s  right foot 44 s, left foot 44 s"
        in (blocks["Shapes: planned, led, by side"])
    )
    assert blocks["Words"][0].startswith("The voice spoke ")


def test_what_made_a_class_longer_is_told_by_its_size() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 500)
    room.do(Do.HOLD)
    room.wait(34_500)
    room.do(Do.GO_ON)
    room.to("1/6:left/2", 0)
    room.do(Do.STOP)
    room.wait(60_000)
    room.do(Do.GO_ON)
    told = first(room.out())
    assert told["Where the time went"].startswith(
        "Led 7 min 20 s; planned 5 min 32 s: 1 min 48 s over.\nMore time: stopped 1 min, held 32 s"
    )
    assert told["The sides"] == "warrior two: right foot 1 min 16 s, left foot 44 s."
    assert told["Next time"].startswith("Watch the left foot in warrior two: it had 32 s less.")


def test_a_rest_that_was_lost_comes_before_everything_else() -> None:
    room = Room()
    room.to("1/5", 0)
    room.do(Do.STOP)
    room.wait(100_000)
    room.do(Do.GO_ON)
    room.to("2/5.0", 20_000)
    room.do(Do.END)
    told = first(room)
    assert told["Next time"].startswith("The rest lost 1 min 40 s of 2 min. When time runs short")
    assert "It was ended by hand." in told["Where the time went"]


def test_a_class_that_ended_before_its_rest_is_shown_the_way_down() -> None:
    room = Room()
    room.to(f"{LEFT}.2", 100)
    room.do(Do.END)
    assert first(room)["Next time"].startswith("It ended before its rest of 2 min: r takes")


def test_a_rest_ended_with_time_to_spare_is_told_as_that() -> None:
    room = Room()
    room.to("2/5.0", 20_000)
    room.do(Do.END)
    assert first(room)["Next time"] == (
        "The rest lost 1 min 40 s of 2 min; there was time for it: let it run."
    )


def test_a_habit_of_three_classes_is_proposed_and_of_one_mentioned() -> None:
    assert first(more(), more(), more())["Next time"] == (
        "Write 6 breaths instead of 5 for warrior two: you added one in each of the last "
        "three classes. `conductor adopt tide.yaml` writes it into the plan."
    )
    assert first(more())["Next time"] == (
        "Warrior two was led 6 breaths instead of 5: after three classes of one mind "
        "`conductor adopt tide.yaml` writes it."
    )


def test_a_rehearsal_is_marked_and_counts_for_no_habit() -> None:
    now = more().reviewed(rehearsal=True, speed=20.0)
    told = page(now, more(), more())
    assert told.title.endswith("(rehearsal at 20 times the speed)")
    assert "each of the last" not in dict(told.first)["Next time"]


def test_a_class_ended_before_its_sides_is_not_called_one_without_them_nor_as_planned() -> None:
    room = Room()
    room.wait(3_500)
    room.do(Do.END)
    now = room.reviewed(rehearsal=True)
    assert page(now).title.endswith("(rehearsal)")
    assert first(now)["The sides"] == "No shape with sides was led."
    restless = replace(now, score=replace(now.score, holds={}))
    assert first(restless)["Next time"] == "Nothing to propose: not all of the plan was led."


def test_commands_are_called_as_the_keys_call_them() -> None:
    room = Room()
    room.wait(3_500)
    room.do(Do.QUIET)
    room.do(Do.STOP)
    room.do(Do.END)
    assert dict(page(room).blocks)["Commands"][0] == "voice off or on 1, stop 1"


def test_a_shape_planned_on_one_side_and_never_led_is_not_uneven() -> None:
    now = Room().out().reviewed()
    alone = replace(now.review.shapes[0], id="x", name="x", planned_right=20_000, right=0, left=0)
    review = replace(now.review, shapes=(*now.review.shapes, replace(alone, planned_left=0)))
    assert first(replace(now, review=review))["The sides"].startswith("Both sides were led alike")


def test_a_class_that_ran_over_is_told_how_to_end_on_time() -> None:
    room = Room()
    room.to("1/5", 0)
    room.do(Do.STOP)
    room.wait(90_000)
    room.do(Do.GO_ON)
    assert first(room.out())["Next time"].startswith("It ran 1 min 38 s over: `--end HH:MM`")


def test_a_class_fitted_to_a_time_of_day_is_told_against_it() -> None:
    room = Room().out()
    now = room.reviewed(must_end=room.now - 80_000)
    told = first(now)
    assert (
        "Fitted to end at a time of day, it ended 1 min 20 s late." in (told["Where the time went"])
    )
    assert told["Next time"].startswith("It ended 1 min 20 s late: l, pressed")


def test_a_class_that_broke_off_proposes_no_change_of_its_sides() -> None:
    room = Room()
    room.to(f"{LEFT}.2")
    told = first(room)
    assert "It broke off there" in told["Where the time went"]
    assert "Watch" not in told["Next time"]


def test_what_was_left_out_is_told_by_part_and_what_was_landed_apart() -> None:
    room = Room()
    room.to("1/6:right/8.1", 500)
    room.do(Do.NEXT_PART)
    now = room.out().reviewed()
    of = f"of {len(TIDE.moments)} moments (Stand 18)."
    assert f"Left out 18 {of}" in first(now)["Where the time went"]
    landed = Reviewed(replace(now.review, landed=18), TIDE)
    told = first(landed)["Where the time went"]
    assert "18 moments were left out to land on time.\nEvery other moment was led." in told


def test_late_and_unsaid_cues_are_told_and_lead_to_the_check() -> None:
    now = Room().out().reviewed()
    spoken = replace(now.review.spoken, late=3, latest=840, dropped=1)
    told = page(Reviewed(replace(now.review, spoken=spoken), TIDE))
    assert "3 cues came late, at most by 0.8 s." in dict(told.blocks)["Words"]
    assert "1 cue came too late to be said." in dict(told.blocks)["Words"]
    assert "`conductor check --voice`" in proposal(
        Reviewed(replace(now.review, spoken=spoken), TIDE), ()
    )


def test_nothing_of_a_plan_is_a_control_sequence() -> None:
    now = Room().out().reviewed()
    parts = tuple(replace(one, name="Sta\x1b[2Jnd") for one in now.review.parts)
    told = page(Reviewed(replace(now.review, title="Ti\x07de", parts=parts), TIDE))
    assert "\x1b" not in "".join(told.lines)
    assert told.title == "Tide, 2026-01-05 18:00"


def test_a_side_that_was_not_led_at_all_is_not_called_alike() -> None:
    now = Room().out().reviewed()
    begun = replace(now.review.shapes[0], right=2_000, left=0)
    told = first(replace(now, review=replace(now.review, shapes=(begun,))))["The sides"]
    assert told == "In all: right 2 s, left 0 s."
