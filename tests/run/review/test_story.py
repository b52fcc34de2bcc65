from conductor.engine.model import Do
from conductor.run.review.model import Doing, Ending
from conductor.run.review.story import story
from tests.run.review.virtual import STAY, TIDE, Room

RIGHT = STAY["right"]
KNOWN_BEFORE = ("now", "kind", "moment", "state")


def doings(room: Room) -> list[tuple[Doing, int]]:
    return [
        (one.doing, one.length)
        for one in story(room.told, TIDE).stretches
        if one.doing is not Doing.LED
    ]


def test_a_class_led_to_its_end_is_its_moments_one_after_the_other() -> None:
    tale = story(Room().out().told, TIDE)
    assert tale.ending is Ending.FINISHED
    assert [(one.moment, one.length) for one in tale.stretches] == [
        (one.id, one.length) for one in TIDE.moments
    ]
    assert tale.stretches[0].start == 0


def test_a_hold_lasts_to_the_breath_in_which_the_class_goes_on() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 1000)
    room.do(Do.HOLD)
    room.wait(10_000)  # that half to its end, an exhale, and most of an inhale
    room.do(Do.GO_ON)
    room.out()
    assert doings(room) == [(Doing.HELD, 8_000)]


def test_a_class_stopped_before_the_hold_began_held_nothing() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 1000)
    room.do(Do.HOLD)
    room.wait(1_000)
    room.do(Do.STOP)
    room.wait(1_000)
    room.do(Do.GO_ON)
    room.out()
    assert [doing for doing, _ in doings(room)] == [Doing.STOPPED, Doing.COMING]


def test_a_hold_in_a_stretch_of_time_begins_at_once() -> None:
    room = Room()
    room.to("2/5.0", 30_000)
    room.do(Do.HOLD)
    room.wait(10_000)
    room.do(Do.GO_ON)
    room.out()
    assert doings(room) == [(Doing.HELD, 10_000)]


def test_a_stop_and_the_way_in_again_are_no_time_led() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 1000)
    room.do(Do.STOP)
    room.wait(7_000)
    room.do(Do.GO_ON)
    room.out()
    stopped, coming = doings(room)
    assert stopped == (Doing.STOPPED, 7_000)
    assert coming[0] is Doing.COMING


def test_what_the_machine_slept_is_away_and_then_stopped() -> None:
    room = Room()
    room.to(f"{RIGHT}.2", 1000)
    room.now += 600_000
    room.do(Do.SLEPT, ms=600_000)
    room.wait(2_000)
    room.do(Do.GO_ON)
    room.out()
    away, stopped, coming = doings(room)
    assert away == (Doing.AWAY, 600_000)
    assert stopped == (Doing.STOPPED, 2_000)
    assert coming[0] is Doing.COMING


def test_a_class_that_broke_off_lasts_to_its_last_line() -> None:
    room = Room()
    room.to(f"{RIGHT}.4", 0)
    tale = story(room.told, TIDE)
    assert tale.ending is Ending.BROKE_OFF
    assert tale.stretches[-1].moment == f"{RIGHT}.3"


def test_after_sides_were_exchanged_the_room_had_been_on_the_other_side() -> None:
    room = Room()
    room.to(f"{RIGHT}.3", 1000)
    room.do(Do.SWAP)
    room.out()
    tale = story(room.told, TIDE)
    sides = [one.side for one in tale.stretches if one.shape == "warrior-two"]
    assert sides == ["left"] * (len(sides) // 2) + ["right"] * (len(sides) // 2)


def test_a_command_taken_back_was_not_obeyed() -> None:
    room = Room()
    room.to(f"{RIGHT}.3", 1000)
    for do in (Do.SWAP, Do.BACK, Do.SLOWER, Do.BACK, Do.QUIET, Do.BACK):
        room.do(do)
        room.wait(100)
    tale = story(room.out().told, TIDE)
    assert [one.do for one in tale.asked] == ["begin", *["taken back"] * 3]
    assert {one.pace for one in tale.stretches if one.length > 100} == {1000}
    sides = [one.side for one in tale.stretches if one.shape == "warrior-two"]
    assert sides == ["right"] * sides.count("right") + ["left"] * sides.count("left")


def test_lines_of_no_known_kind_and_fields_of_other_kinds_are_passed_over() -> None:
    room = Room().out()
    odd: list[dict[str, object]] = [
        {"kind": "weather", "now": 5},
        {"now": "late"},
        {},
        {"kind": "moment", "moment": 7, "now": None},
        {"kind": "state", "state": "dancing", "now": 4},
        {"kind": "slept", "ms": "long", "now": 4},
    ]
    plain = story(room.told, TIDE)
    both = story([*room.told[:3], *odd[:3], *room.told[3:]], TIDE)
    assert both == plain
    assert story([*odd, *room.told], TIDE).ending is Ending.FINISHED


def test_an_older_journal_knows_moments_by_their_names_alone() -> None:
    room = Room().out()
    bare: list[dict[str, object]] = [
        {key: value for key, value in line.items() if key in KNOWN_BEFORE} for line in room.told
    ]
    new, old = story(room.told, TIDE), story(bare, TIDE)
    assert old.stretches == new.stretches


def test_to_ask_what_landing_takes_is_no_landing_and_keeping_to_the_clock_is_one() -> None:
    moment = {"kind": "moment", "now": 0, "moment": TIDE.moments[0].id}
    asking = {"kind": "command", "do": "land on time", "words": "Land on time: x. Again does it."}
    doing = {**asking, "words": "Landing on time: x."}
    kept = {"kind": "kept", "words": "Kept to the clock: x."}
    told = [moment, *({**line, "now": 1000} for line in (asking, doing, kept))]
    assert [one.do for one in story(told, TIDE).asked] == ["land on time", "kept to the clock"]
