"""Landing on time: told before it is done, done when asked again, and a class kept to the clock."""

import pytest

from conductor.engine.model import Do, Reply, State
from conductor.score.model import Score
from conductor.timing.model import Change, Refit
from conductor.timing.telling import span
from conductor.values import replace
from tests.engine.make import Class, at, breaths, move, score, stay

ON_TIME = "It ends on time as it is."


def land(led: Class, ms: int = 0) -> Reply:
    """Ask, and ask again where it says that this does it."""
    reply = led.do(Do.LAND, ms)
    return led.do(Do.LAND, ms) if reply.words.endswith("Again does it.") else reply


def test_landing_after_a_hold_ends_on_the_planned_minute() -> None:
    led = at("h right.2")
    led.do(Do.HOLD)
    led.wait(3000 + 8000 - 1)
    led.do(Do.GO_ON)
    led.wait(1000)
    assert led.look().ends_at == led.look().planned_end + 8000
    assert land(led).words == "Landing on time: the rest 8 s shorter."
    assert led.look().ends_at == led.look().planned_end
    led.to("rest.0")
    rest = led.look()
    assert rest.leaves is not None
    assert rest.leaves - rest.entered >= 20_000


@pytest.mark.parametrize("state", [State.ARRIVING, State.LEADING, State.HOLDING, State.STOPPED])
@pytest.mark.parametrize("later", [-9000, 0, 7000, 12_345])
def test_landing_from_any_state_meets_a_time_within_reach(state: State, later: int) -> None:
    led = at("h right.2")
    if state is State.ARRIVING:
        led.do(Do.BACK)
    elif state is not State.LEADING:
        led.do(Do.HOLD if state is State.HOLDING else Do.STOP)
    left = led.look().ends_at - led.now + later
    words = land(led, left).words
    assert words == ON_TIME or words.startswith("Landing on time: ")
    assert "it ends" not in words
    assert led.look().ends_at == led.now + left == led.look().planned_end


def test_landing_at_another_pace_reckons_with_it() -> None:
    led = at("flat")
    led.do(Do.SLOWER)
    assert land(led, led.look().ends_at - led.now - 9000).done
    assert abs(led.look().ends_at - led.look().planned_end) <= 1


def test_landing_too_late_says_by_how_much_and_never_takes_the_rest_below_its_least() -> None:
    led = at("knees")
    reply = land(led, 30_000)
    assert reply.done
    assert "late" in reply.words
    hold = led.look().score.holds["rest"]
    assert hold.amount == hold.least == 20_000


def test_how_late_it_ends_is_told_as_the_clock_has_it_at_another_pace() -> None:
    led = Class()
    for _ in range(4):
        led.do(Do.SLOWER)
    led.begin()
    led.do(Do.LAND, 30_000)
    told = led.do(Do.LAND, 30_000).words
    late = led.look().ends_at - led.look().planned_end
    assert late > 60_000
    assert f"it ends {span(late)} late even so" in told


def test_landing_within_the_final_rest_stretches_what_is_left_of_it() -> None:
    led = at("rest.0", 5000)
    land(led, 40_000)
    assert led.look().ends_at == led.now + 40_000
    assert led.here == "rest.0"


def test_a_time_gone_by_cannot_be_landed_on() -> None:
    led = at("flat")
    led.do(Do.STOP)
    led.wait(10_000_000)
    reply = led.do(Do.LAND)
    assert not reply.done
    assert "has passed" in reply.words


def test_a_fit_that_loses_the_present_moment_is_refused() -> None:
    def lost(given: Score, at: int, _left: int, _done: int, /, *, passages: bool = True) -> Refit:
        change = Change("rest", 30_000, 20_000)
        return Refit(replace(given, moments=given.moments[at + 1 :]), (change,), 0)

    led = Class(refitting=lost)
    led.begin()
    led.do(Do.LAND)
    before = led.look()
    assert not led.do(Do.LAND).done
    assert replace(led.look(), reply=before.reply) == before


def test_a_class_that_must_end_at_a_time_is_fitted_as_it_begins() -> None:
    led = Class(must_end=150_000)
    assert led.look().planned_end == 150_000
    led.do(Do.BEGIN)
    look = led.look()
    assert (look.planned_end, look.ends_at) == (150_000, 150_000)


def test_a_class_that_should_have_ended_already_does_not_begin() -> None:
    led = Class(must_end=1000)
    assert not led.do(Do.BEGIN).done
    assert led.look().state is State.READY


def droppable() -> Score:
    """A short stay that may go, a part that may go, and a part after it."""
    stand = move("stand", "free", "mountain", 8000)
    near = stay(breaths("near", 3, least=1), "in", "mountain")
    one = [move("a", "in", "arms"), move("b", "out", "mountain")]
    extra = [
        replace(moment, drop="x")
        for moment in (move("c", "in", "arms"), move("d", "out", "mountain"))
    ]
    two = [move("e", "in", "arms"), move("f", "out", "mountain")]
    return score(
        [("One", [stand, *one, *near]), ("Extra", extra), ("Two", two)],
        [breaths("near", 3, least=1)],
    )


def test_a_part_that_landing_leaves_out_is_passed_over_and_none_is_told_twice() -> None:
    led = Class(droppable())
    led.do(Do.BEGIN)
    led.to("near.0")
    assert (
        land(led, led.look().ends_at - led.now - 24_000).words
        == "Landing on time: mountain 2 breaths shorter, and the part Extra goes."
    )
    assert led.here == "near.0"
    led.to("e")
    assert [one.words for one in led.told if one.kind == "part"] == ["One", "Two"]
    assert led.do(Do.NEXT_PART).words == "This is the last part."
    assert Do.NEXT_PART not in led.look().offers
    assert led.do(Do.PREVIOUS_PART).words == "Previous part: One."
    assert led.do(Do.NEXT_PART).words == "Next part: Two."


@pytest.mark.parametrize("name", ["c", "d", "near.4"])
def test_landing_at_the_turn_of_a_moment_or_in_the_run_in_keeps_it(name: str) -> None:
    for do in (None, Do.BACK):
        led = Class(droppable())
        led.do(Do.BEGIN)
        led.to(name)
        if do:
            led.do(do)
            assert led.look().state is State.ARRIVING
        here = led.here
        assert land(led, led.look().ends_at - led.now - 9000).done
        assert led.here == here
        led.to("e")


def test_landing_after_a_long_stop_may_leave_out_where_it_stood() -> None:
    led = Class(droppable())
    led.do(Do.BEGIN)
    led.to("c")
    led.do(Do.STOP)
    led.wait(60_000)
    assert land(led, led.look().ends_at - led.now - 8000).done
    assert led.look().ends_at == led.look().planned_end
    assert led.here == "near.5"
    led.do(Do.GO_ON)
    led.to("near.5")
    led.to("e")


def late() -> Class:
    """A class held for two breaths in its first stay: 16 s behind its plan."""
    led = at("h right.0")
    led.do(Do.HOLD)
    led.wait(3000 + 16_000 - 1)
    led.do(Do.GO_ON)
    led.wait(1000)
    return led


def test_the_first_asking_tells_what_goes_and_changes_nothing() -> None:
    led = late()
    before = led.look()
    told = led.do(Do.LAND)
    assert told.done
    assert told.words == "Land on time: warrior two a breath shorter. Again does it."
    after = led.look()
    assert after.score is before.score
    assert after.ends_at == before.ends_at
    assert led.do(Do.LAND).words == told.words.replace("Land on", "Landing on").replace(
        " Again does it.", ""
    )
    assert led.look().ends_at == led.look().planned_end


def test_the_asking_passes_after_ten_seconds_and_with_any_other_command() -> None:
    led = late()
    led.do(Do.LAND)
    led.wait(10_001)
    assert led.do(Do.LAND).words.endswith("Again does it.")
    led.do(Do.QUIET)
    assert led.do(Do.LAND).words.endswith("Again does it.")
    led.wait(10_000)
    assert led.do(Do.LAND).words.startswith("Landing on time")


def test_back_takes_a_landing_back_and_the_asking_first() -> None:
    led = late()
    score, ends = led.look().score, led.look().ends_at
    led.do(Do.LAND)
    assert led.do(Do.BACK).words == "Undone: asking to land on time."
    land(led)
    assert led.look().score is not score
    assert led.do(Do.BACK).words == "Undone: land on time."
    assert (led.look().score, led.look().ends_at) == (score, ends)
    assert led.do(Do.LAND).words.endswith("Again does it.")  # not done at once


def test_the_time_of_day_is_named_where_it_is_known() -> None:
    led = Class(naming=lambda now: f"19:0{now // 1_000_000}")
    led.begin()
    led.to("h right.0")
    led.do(Do.HOLD)
    led.wait(30_000)
    led.do(Do.GO_ON)
    assert led.do(Do.LAND).words.startswith("Land on 19:00: ")


def test_a_class_kept_to_the_clock_mends_itself_at_the_next_moment_and_says_so_once() -> None:
    led = late()
    assert led.do(Do.KEEP).words == "Kept to the clock: stays give and take by themselves."
    assert led.look().keeps
    assert led.look().ends_at > led.look().planned_end
    led.told.clear()
    led.wait(8000)
    assert led.look().ends_at == led.look().planned_end
    (kept,) = [one for one in led.told if one.kind == "kept"]
    assert kept.words.startswith("Kept to the clock: ")
    reply = led.look().reply
    assert reply is not None
    assert reply.words == kept.words
    led.wait(60_000)
    assert [one for one in led.told if one.kind == "kept"] == [kept]
    assert led.do(Do.KEEP).words == "No longer kept to the clock."
    assert not led.look().keeps


def test_a_class_less_than_a_breath_off_is_let_be() -> None:
    led = at("h right.2")
    led.do(Do.KEEP)
    led.do(Do.HOLD)
    led.wait(3000)
    led.do(Do.GO_ON)
    led.wait(20_000)
    assert 0 <= led.look().ends_at - led.look().planned_end <= 8000
    assert not [one for one in led.told if one.kind == "kept"]


def test_what_stays_cannot_mend_is_told_once_and_no_passage_goes_by_itself() -> None:
    led = Class(droppable())
    led.do(Do.BEGIN)
    led.to("near.0")
    led.do(Do.KEEP)
    led.do(Do.HOLD)
    led.wait(28_000)
    led.do(Do.GO_ON)
    led.to("d")
    (kept,) = [one for one in led.told if one.kind == "kept"]
    assert kept.words == (
        "Kept to the clock: mountain 2 breaths shorter; it ends 16 s late even so. "
        "Land on time tells what may go."
    )
    assert {one.drop for one in led.look().score.moments} == {"", "x"}


def test_time_to_spare_goes_to_stays_first_and_then_to_the_rest() -> None:
    led = at("flat")
    words = led.do(Do.LAND, led.look().ends_at - led.now + 32_000).words
    assert words == "Land on time: warrior two 2 breaths longer. Again does it."
    words = led.do(Do.LAND, led.look().ends_at - led.now + 70_000).words
    assert words.startswith("Landing on time: warrior two 3 breaths longer, and the rest 22 s")


def test_before_a_class_with_an_end_it_says_what_beginning_now_would_change() -> None:
    led = Class(must_end=190_000)
    said = led.look().begin_now
    assert said.startswith("Begin now: ")
    led.now += 60_000
    later = led.look().begin_now
    assert later != said
    led.do(Do.BEGIN)
    assert led.look().begin_now == ""
    assert led.look().ends_at == 190_000
    assert Class().look().begin_now == ""
    assert Class(must_end=1000).look().begin_now == "The time it should end at has passed."


def test_a_breath_that_was_asked_for_is_not_taken_back_to_land() -> None:
    led = at("h right.0")
    led.do(Do.MORE)
    assert led.look().score.holds["h left"].amount == 4
    words = led.do(Do.LAND).words
    assert words == "Land on time: the rest 10 s shorter; it ends 6 s late even so. Again does it."
    land(led)
    assert led.look().score.holds["h left"].amount == 4


def test_where_no_stay_can_give_that_is_told_once() -> None:
    given = droppable()
    led = Class(replace(given, holds={"near": breaths("near", 3)}))
    led.do(Do.BEGIN)
    led.to("near.0")
    led.do(Do.KEEP)
    led.do(Do.HOLD)
    led.wait(20_000)
    led.do(Do.GO_ON)
    led.to("d")
    told = [one.words for one in led.told if one.kind == "kept"]
    words = (
        "No stay ahead can keep to the clock: it ends 24 s late. Land on time tells what may go."
    )
    assert told == [words]
    assert led.look().score == replace(given, holds={"near": breaths("near", 3)})
