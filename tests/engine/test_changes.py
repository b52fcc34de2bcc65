"""Changes to a class under way: breaths, sides, landing."""

from dataclasses import replace

import pytest

from conductor.engine.model import Do, State
from conductor.score.model import Score
from conductor.timing.model import Refit
from tests.engine.make import Class, breaths, entered, move, score, small, stay


def at(name: str, ms: int = 1000, given: Score | None = None) -> Class:
    led = Class(given)
    led.begin()
    led.to(name)
    led.wait(ms)
    return led


def halves(led: Class, hold: str) -> int:
    return sum(moment.hold == hold for moment in led.look().score.moments)


# -- one breath more or fewer ----------------------------------------------------------------


def test_one_breath_more_on_the_first_side_is_one_more_on_the_other() -> None:
    led = at("h right.2")
    assert led.do(Do.MORE).words == "One breath more. The other side gets the same."
    assert (halves(led, "h right"), halves(led, "h left")) == (8, 8)
    assert led.look().ends_at == led.look().planned_end + 16_000
    moment = led.look().score.moments[led.look().index]
    assert (moment.id, moment.of_stay) == ("h right.2", (2, 4))


def test_one_breath_more_on_the_second_side_says_that_the_first_has_been_led() -> None:
    led = at("h left.2")
    assert led.do(Do.MORE).words == "One breath more. The other side has been led already."
    assert (halves(led, "h right"), halves(led, "h left")) == (6, 8)


def test_fewer_takes_whole_breaths_still_to_come_and_no_more() -> None:
    led = at("h right.2")
    assert led.do(Do.FEWER).done
    assert (halves(led, "h right"), halves(led, "h left")) == (4, 4)
    assert not led.do(Do.FEWER).done
    assert Do.FEWER not in led.look().offers
    assert entered(led.wait(7000)) == ["h right.3", "plank right"]


def test_in_the_movement_that_leads_into_a_stay_it_is_that_stay() -> None:
    led = at("warrior right")
    led.do(Do.MORE)
    assert halves(led, "h right") == 8
    led.do(Do.FEWER)
    led.do(Do.FEWER)
    led.do(Do.FEWER)
    assert halves(led, "h right") == 2
    assert not led.do(Do.FEWER).done


def test_without_a_stay_there_is_nothing_to_change() -> None:
    led = at("flat")
    assert not led.do(Do.MORE).done
    assert Do.MORE not in led.look().offers


def test_sides_made_unequal_become_equal_when_the_first_comes_again() -> None:
    led = at("h left.0")
    led.do(Do.FEWER)
    led.do(Do.FEWER)
    led.do(Do.PREVIOUS_PART)
    led.to("h right.0")
    led.do(Do.FEWER)
    assert (halves(led, "h right"), halves(led, "h left")) == (4, 4)


def test_the_last_line_stays_with_the_last_breath() -> None:
    led = at("h right.2")
    led.do(Do.MORE)
    lines = [moment.id for moment in led.look().score.moments if moment.lines]
    assert lines[0] == "h right.6"


def test_a_breath_more_in_timed_rest_is_a_breath_of_time() -> None:
    led = at("rest.0", 5000)
    led.do(Do.MORE)
    look = led.look()
    assert look.leaves == led.now + 33_000
    for _ in range(4):
        assert led.do(Do.FEWER).done
    assert led.look().leaves == led.now + 1000
    assert not led.do(Do.FEWER).done


def test_a_cue_begun_is_said_again_only_when_its_moment_moved_away() -> None:
    led = at("h right.5", 3700)
    assert led.heard(0) == ["plank right"]
    led.do(Do.MORE)
    assert "plank right" not in led.heard(0)
    led.to("h right.7")
    led.wait(3700)
    assert led.heard(0) == ["plank right"]


def test_what_must_be_said_earlier_is_said_at_once() -> None:
    # one breath fewer brings the balance so near that its words ahead should have begun
    hold = breaths("h", 2)
    given = score(
        [("All", [*stay(hold, "in", "dog"), move("leg", "in", "leg", early=True)])], [hold]
    )
    led = at("h.1", 1000, given)
    led.do(Do.FEWER)
    heard = led.engine.upcoming(led.now, 4000)
    assert [(one.id.slot, one.start - led.now) for one in heard] == [("ahead", 0), ("main", 2600)]


# -- the other side --------------------------------------------------------------------------


def test_swapping_exchanges_a_pass_and_its_mate() -> None:
    led = at("leg right")
    reply = led.do(Do.SWAP)
    assert reply.words == "We are on the left."
    look = led.look()
    assert (led.here, look.swapped, look.state) == ("leg left", True, State.LEADING)
    names = [moment.id for moment in look.score.moments]
    assert names.index("dog left") < names.index("wait in") < names.index("leg right")
    assert [m.start for m in look.score.moments] == [m.start for m in small().moments]
    assert "warrior left" in led.heard(4000)
    led.do(Do.SWAP)
    assert led.look().score == small()


def test_swapping_on_the_second_side_puts_the_record_right() -> None:
    led = at("h left.2")
    led.do(Do.SWAP)
    assert led.here == "h right.2"
    assert led.look().score.moments[5].id == "leg left"


def test_what_was_being_said_of_the_wrong_side_ceases() -> None:
    led = at("leg right", 3700)
    assert led.heard(0) == ["warrior right"]
    led.do(Do.SWAP)
    assert "warrior right" not in led.heard(4000)
    assert led.heard(0) == ["warrior left"]


def test_outside_passages_with_two_sides_there_is_nothing_to_swap() -> None:
    led = at("flat")
    assert "no other side" in led.do(Do.SWAP).words
    assert Do.SWAP not in led.look().offers


def test_without_its_mate_a_pass_cannot_be_swapped() -> None:
    given = small()
    moments = tuple(replace(m, mate="") for m in given.moments)
    led = at("leg right", given=replace(given, moments=moments))
    assert "not in the class" in led.do(Do.SWAP).words


def test_passes_of_unequal_length_are_exchanged_as_wholes() -> None:
    given = small()
    moments = [m for m in given.moments if m.id != "plank left"]
    parts = tuple(
        replace(p, first=p.first - (p.first > 26), last=p.last - (p.last > 26)) for p in given.parts
    )
    led = at("dog right", given=replace(given, moments=tuple(moments), parts=parts))
    before = [m.id for m in led.look().score.moments]
    assert led.do(Do.SWAP).done
    after = [m.id for m in led.look().score.moments]
    assert sorted(after) == sorted(before)
    assert after.index("dog left") < after.index("wait in") < after.index("leg right")
    assert led.here == "dog left"


# -- landing ---------------------------------------------------------------------------------


def test_landing_after_a_hold_ends_on_the_planned_minute() -> None:
    led = at("h right.2")
    led.do(Do.HOLD)
    led.wait(3000 + 8000 - 1)
    led.do(Do.GO_ON)
    led.wait(1000)
    assert led.look().ends_at == led.look().planned_end + 8000
    assert led.do(Do.LAND).words == "Fitted to the planned end."
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
    assert led.do(Do.LAND, ms=left).words == "Fitted to the planned end."
    assert led.look().ends_at == led.now + left == led.look().planned_end


def test_landing_at_another_pace_reckons_with_it() -> None:
    led = at("flat")
    led.do(Do.SLOWER)
    assert led.do(Do.LAND, ms=led.look().ends_at - led.now - 9000).done
    assert abs(led.look().ends_at - led.look().planned_end) <= 1


def test_landing_too_late_says_by_how_much_and_never_takes_the_rest_below_its_least() -> None:
    led = at("knees")
    reply = led.do(Do.LAND, ms=30_000)
    assert reply.done
    assert "late" in reply.words
    hold = led.look().score.holds["rest"]
    assert hold.amount == hold.least == 20_000


def test_landing_within_the_final_rest_stretches_what_is_left_of_it() -> None:
    led = at("rest.0", 5000)
    led.do(Do.LAND, ms=40_000)
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
    def lost(given: Score, at: int, _left: int, _done: int) -> Refit:
        return Refit(replace(given, moments=given.moments[at + 1 :]), (), 0)

    led = Class(refitting=lost)
    led.begin()
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
