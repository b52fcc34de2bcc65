from hypothesis import given
from hypothesis import strategies as st

from conductor.engine.model import Command, Do
from conductor.run.review import account
from conductor.run.review.model import Doing, Ending
from tests.run.review.virtual import STAY, TIDE, Room

RIGHT, LEFT = STAY["right"], STAY["left"]
ANY = st.sampled_from([do for do in Do if do is not Do.BEGIN])


@given(st.lists(st.tuples(st.integers(0, 60_000), ANY), max_size=12))
def test_whatever_is_asked_the_time_adds_up(asked: list[tuple[int, Do]]) -> None:
    room = Room()
    for wait, do in asked:
        room.wait(wait)
        ms = min(3_000, room.now) if do is Do.SLEPT else 0
        room.engine.command(Command(do, ms, "ease" if do is Do.LEVEL else ""), room.now)
        room.wait(0)
    if room.engine.snapshot(room.now).state in ("stopped", "holding"):
        room.engine.command(Command(Do.GO_ON), room.now)
    room.out()
    told = room.review
    assert sum(told.account.values()) == told.led - told.planned
    assert sum(one.led + one.stopped for one in told.parts) == told.led
    doing = (Doing.LED, Doing.HELD)
    assert sum(one.led for one in told.shapes) == sum(
        one.length for one in told.line if one.doing in doing
    )
    assert all(a.end == b.start for a, b in zip(told.line, told.line[1:], strict=False))
    assert told.account[account.LEFT_OUT] <= 0
    assert told.account[account.HELD] >= 0


def test_a_class_as_planned_has_nothing_to_account_for() -> None:
    told = Room().out().review
    assert set(told.account.values()) == {0}
    assert (told.led, told.planned, told.left_out) == (TIDE.length, TIDE.length, 0)
    assert all(part.planned == part.led for part in told.parts)
    assert all(shape.planned == shape.led for shape in told.shapes)
    assert all(one.planned == one.led and one.sure for one in told.stays)
    assert told.ending is Ending.FINISHED


def test_every_way_of_losing_time_has_its_own_name() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 500)
    room.do(Do.HOLD)
    room.wait(10_500)
    room.do(Do.GO_ON)
    room.to(f"{RIGHT}.4", 500)
    room.do(Do.MORE)
    room.to(f"{RIGHT}.6", 0)
    room.do(Do.SLOWER)
    room.to("1/6:left/2", 0)
    room.do(Do.FASTER)
    room.do(Do.STOP)
    room.wait(5_000)
    room.do(Do.GO_ON)
    room.to(f"{LEFT}.0", 4_100)
    room.do(Do.NEXT)
    told = room.out().review
    found = {kind: ms for kind, ms in told.account.items() if ms}
    assert found[account.HELD] == 8_000
    assert found[account.LONGER] == 16_000 - 8_000  # the other side's breath was never reached
    assert found[account.STOPPED] == 5_000
    assert found[account.BREATH] > 0
    assert found[account.SHORTER] == -(8 * 4_000 + 3_900)
    assert account.LEFT_OUT not in found


def test_held_breaths_are_of_the_shape_and_the_side_they_were_held_in() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 500)
    room.do(Do.HOLD)
    room.wait(10_500)
    room.do(Do.GO_ON)
    told = room.out().review
    warrior = next(one for one in told.shapes if one.id == "warrior-two")
    assert warrior.right - warrior.planned_right == 8_000
    assert warrior.left == warrior.planned_left
    (held,) = told.holds
    assert (held.ms, held.shape, held.side, held.part) == (8_000, "warrior two", "right", "Stand")


def test_a_part_left_out_is_counted_by_its_moments() -> None:
    room = Room()
    room.to("1/6:right/8.1", 500)
    room.do(Do.NEXT_PART)
    told = room.out().review
    stand, rest = told.parts
    assert stand.left_out == sum("left" in one.id for one in TIDE.moments)
    assert (rest.left_out, told.left_out) == (0, stand.left_out)
    assert told.account[account.LEFT_OUT] <= -stand.left_out * 4_000


def test_what_lay_after_the_end_of_a_class_is_not_left_out() -> None:
    room = Room()
    room.to("2/2", 500)
    room.do(Do.END)
    told = room.review
    assert told.ending is Ending.ENDED
    assert told.left_out == 0
    assert told.not_reached == 6
    assert told.account[account.NOT_REACHED] == -(3_500 + 16_000 + 20_000 + 120_000)


def test_stays_are_counted_in_whole_breaths_with_what_was_held() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 500)
    room.do(Do.HOLD)
    room.wait(18_500)  # the half that runs, and most of two breaths
    room.do(Do.GO_ON)
    room.to(f"{LEFT}.5", 0)
    room.do(Do.MORE)
    told = room.out().review
    by_hold = {one.hold: one for one in told.stays}
    assert (by_hold[RIGHT].planned, by_hold[RIGHT].led) == (5, 7)
    assert (by_hold[LEFT].planned, by_hold[LEFT].led) == (5, 6)


def test_a_half_breath_begun_anew_after_a_stop_makes_no_stay_longer() -> None:
    room = Room()
    for at in (1, 3, 5):
        room.to(f"{RIGHT}.{at}", 3_900)
        room.do(Do.STOP)
        room.wait(1_000)
        room.do(Do.GO_ON)
    told = room.out().review
    assert next(one.led for one in told.stays if one.hold == RIGHT) == 5


def test_after_landing_on_time_no_length_is_the_teachers_wish() -> None:
    room = Room()
    room.to(f"{RIGHT}.9", 3_000)
    room.do(Do.HOLD)
    room.wait(20_000)
    room.do(Do.GO_ON)
    room.to("1/6:left/1", 0)
    room.do(Do.LAND)
    told = room.out().review
    sure = {one.hold: one.sure for one in told.stays}
    assert sure[RIGHT]
    assert not sure[LEFT]


def test_a_stay_left_by_taking_back_the_way_to_it_is_nobodys_wish() -> None:
    room = Room()
    room.to(f"{STAY['right']}.2", 100)
    room.do(Do.NEXT_PART)
    room.wait(9_000)
    room.do(Do.BACK)
    room.wait(12_000)
    room.do(Do.END)
    (stay,) = [one for one in room.review.stays if one.hold == "2/3"]
    assert (stay.led, stay.planned, stay.sure) == (0, 2, False)


def test_cues_are_counted_and_those_cut_off_only_as_far_as_they_were_heard() -> None:
    whole = Room().out().review.spoken
    room = Room()
    room.to("1/2", 100)
    room.do(Do.STOP)
    room.wait(500)
    room.do(Do.END)
    cut = room.review.spoken
    assert whole.cues > cut.cues > 0
    assert 0 < cut.ms < whole.ms
    assert whole.heard


def test_words_said_while_the_voice_was_quiet_are_no_speech() -> None:
    room = Room()
    room.do(Do.QUIET)
    assert room.out().review.spoken.ms == 0
    assert room.reviewed(voiced=False).review.spoken.ms > 0


def test_a_fit_to_the_clock_is_told_against_the_time_it_should_end() -> None:
    room = Room(must_end=TIDE.length + 3_000)
    told = room.out().reviewed(must_end=TIDE.length + 3_000).review
    assert told.must_end == told.led
    assert not any(one.sure for one in told.stays)
