"""Every command from every state: what it does, or that it changes nothing and says why."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from conductor.engine.commands import JUST_BEGUN_MS
from conductor.engine.led import PACES
from conductor.engine.model import Do, Snapshot, State
from conductor.engine.moves import LONG_STOP_MS, RUN_IN_MS
from conductor.engine.table import TABLE, Refuses
from tests.engine.make import Class, entered, small


def ready() -> Class:
    return Class()


def arriving() -> Class:
    led = leading()
    led.do(Do.AGAIN)
    return led


def leading() -> Class:
    led = Class()
    led.begin()
    led.to("h left.2")
    led.wait(1000)
    return led


def holding() -> Class:
    led = leading()
    led.do(Do.HOLD)
    led.wait(5000)
    return led


def stopped() -> Class:
    led = leading()
    led.do(Do.STOP)
    led.wait(1000)
    return led


def finished() -> Class:
    led = leading()
    led.do(Do.END)
    return led


STATES: dict[State, Callable[[], Class]] = {
    State.READY: ready,
    State.ARRIVING: arriving,
    State.LEADING: leading,
    State.HOLDING: holding,
    State.STOPPED: stopped,
    State.FINISHED: finished,
}


def but_reply(look: Snapshot) -> Snapshot:
    return replace(look, reply=None)


@pytest.mark.parametrize("do", list(Do))
@pytest.mark.parametrize("state", list(State))
def test_each_command_in_each_state_does_what_the_table_says(state: State, do: Do) -> None:
    led = STATES[state]()
    led.wait(0)
    before, sounds = led.look(), led.engine.upcoming(led.now, 4000)
    assert before.state is state
    cell = TABLE[state][do]
    reply = led.do(do, word="ease" if do is Do.LEVEL else "", ms=60_000 if do is Do.LAND else 0)
    after = led.look()
    assert reply.words
    assert after.reply == reply
    assert reply.done == (do in before.offers)
    kinds = [one.kind for one in led.wait(0)]
    if isinstance(cell, Refuses) or not reply.done:
        assert not reply.done
        assert but_reply(after) == but_reply(before)
        assert led.engine.upcoming(led.now, 4000) == sounds
        assert kinds == ["refused"]
    else:
        assert after.state in cell.to
        assert kinds[0] == ("slept" if do is Do.SLEPT else "command")
        told = [k for k in kinds if k in {"state", "finished"}]
        assert bool(told) == (after.state is not state)


def test_what_a_state_offers_is_taken_from_the_table() -> None:
    for state, make in STATES.items():
        taken = {do for do, cell in TABLE[state].items() if not isinstance(cell, Refuses)}
        assert make().look().offers <= taken


# -- begin, next, back -----------------------------------------------------------------------


def test_begin_comes_in_for_three_seconds_and_then_leads_the_first_moment() -> None:
    led = Class()
    led.do(Do.BEGIN)
    look = led.look()
    assert (look.state, look.entered, look.index) == (State.ARRIVING, RUN_IN_MS, 0)
    assert led.wait(2999)[-1].kind == "cue"
    assert entered(led.wait(1)) == ["stand"]
    assert led.look().state is State.LEADING
    assert led.look().planned_end == RUN_IN_MS + small().length


def test_next_in_a_stay_leaves_the_stay() -> None:
    led = leading()
    led.do(Do.NEXT)
    assert (led.here, led.look().state) == ("plank left", State.ARRIVING)
    led.wait(400)
    assert (led.here, led.look().state) == ("plank left", State.LEADING)


def test_next_again_while_coming_in_goes_one_further() -> None:
    led = leading()
    led.do(Do.NEXT)
    led.do(Do.NEXT)
    assert led.here == "dog left"


def test_the_last_moment_has_no_next() -> None:
    led = leading()
    led.to("end")
    assert not led.do(Do.NEXT).done
    assert Do.NEXT not in led.look().offers


def test_back_goes_to_the_start_of_the_stay_and_right_after_that_to_the_one_before() -> None:
    led = leading()
    led.do(Do.BACK)
    assert led.here == "h left.0"
    led.wait(400 + JUST_BEGUN_MS - 1)
    led.do(Do.BACK)
    assert led.here == "warrior left"
    led.wait(400 + JUST_BEGUN_MS)
    led.do(Do.BACK)
    assert led.here == "warrior left"


def test_a_run_in_is_as_long_as_the_lead_of_the_cue_and_at_most_three_seconds() -> None:
    led = leading()
    led.do(Do.BACK)
    led.do(Do.BACK)
    led.do(Do.BACK)
    assert led.here == "leg left"
    assert led.look().entered == led.now + RUN_IN_MS
    first = led.engine.upcoming(led.now, 4000)[0]
    assert (first.id.slot, first.start) == ("ahead", led.now)


# -- parts, again, rest ----------------------------------------------------------------------


def test_parts() -> None:
    led = leading()
    assert led.do(Do.NEXT_PART).words == "To Rest."
    assert led.here == "knees"
    assert not led.do(Do.NEXT_PART).done
    led.do(Do.PREVIOUS_PART)
    assert led.here == "fold"
    led.do(Do.PREVIOUS_PART)
    assert led.here == "stand"
    assert not led.do(Do.PREVIOUS_PART).done


def test_again_goes_to_the_start_of_this_side_and_outside_passes_of_the_part() -> None:
    led = leading()
    led.do(Do.AGAIN)
    assert led.here == "leg left"
    led.to("knees")
    led.do(Do.AGAIN)
    assert led.here == "knees"


def test_again_goes_to_the_start_of_the_round() -> None:
    given = small()
    moments = [
        replace(one, round=(1 + (index > 2), 2)) if index in {2, 3, 4} else one
        for index, one in enumerate(given.moments)
    ]
    led = Class(replace(given, moments=tuple(moments)))
    led.begin()
    led.to("dog")
    led.do(Do.AGAIN)
    assert led.here == "flat"


def test_rest_goes_to_the_closing_and_keeps_the_final_rest_whole() -> None:
    led = leading()
    led.do(Do.REST)
    assert led.here == "knees"
    led.to("rest.0")
    look = led.look()
    assert look.leaves is not None
    assert look.leaves - look.entered == 30_000
    assert not led.do(Do.REST).done


# -- hold ------------------------------------------------------------------------------------


def test_while_holding_breath_goes_on_and_is_counted() -> None:
    led = leading()
    led.do(Do.HOLD)
    told = led.wait(3000 + 4000 + 4000)
    assert [(one.now, dict(one.data)["breath"]) for one in told if one.kind == "held"] == [
        (led.now - 8000, "out"),
        (led.now - 4000, "in"),
        (led.now, "out"),
    ]
    look = led.look()
    assert (look.held, look.entered, look.leaves) == (3, led.now, led.now + 4000)
    assert led.here == "h left.2"


@pytest.mark.parametrize(
    ("held_for", "waits"),
    [(1000, 2000), (3000 + 1000, 3000 + 4000), (3000 + 4000 + 1000, 3000)],
)
def test_going_on_waits_for_the_right_half_of_the_breath(held_for: int, waits: int) -> None:
    # h left.2 is an inhale, h left.3 an exhale. Held in its own inhale, the exhale follows at
    # once; in a held exhale, that and one more inhale must pass; in a held inhale, only that.
    led = leading()
    led.do(Do.HOLD)
    led.wait(held_for)
    led.do(Do.GO_ON)
    assert led.look().resumes_at == led.now + waits
    assert entered(led.wait(waits - 1)) == []
    assert entered(led.wait(1)) == ["h left.3"]
    assert led.look().state is State.LEADING


def test_a_go_on_can_be_taken_back() -> None:
    led = holding()
    led.do(Do.GO_ON)
    assert not led.do(Do.GO_ON).done
    assert led.do(Do.HOLD).done
    assert not led.do(Do.HOLD).done
    assert entered(led.wait(60_000)) == []


def test_held_time_comes_on_top_of_the_class() -> None:
    led = leading()
    assert led.look().ends_at == led.look().planned_end
    led.do(Do.HOLD)
    led.wait(3000 + 8000 - 1)
    assert led.look().ends_at == led.look().planned_end + 8000
    led.do(Do.GO_ON)
    assert led.look().ends_at == led.look().planned_end + 8000


def test_a_stretch_of_time_waits_where_it_is() -> None:
    led = leading()
    led.to("rest.0")
    led.wait(10_000)
    led.do(Do.HOLD)
    led.wait(60_000)
    led.do(Do.GO_ON)
    assert led.look().state is State.LEADING
    assert entered(led.wait(19_999)) == []
    assert entered(led.wait(1)) == ["end"]


def test_holding_in_a_shape_that_loads_offers_rest_after_two_breaths() -> None:
    led = leading()
    led.to("plank left")
    led.do(Do.HOLD)
    led.wait(15_999)
    assert led.look().offer == ""
    told = led.wait(1)
    assert [one.words for one in told if one.kind == "offer"] == [
        "Rest in child's pose if you like."
    ]
    assert led.look().offer == "child's pose"
    assert led.heard(0) == ["Rest in child's pose if you like."]
    led.do(Do.GO_ON)
    led.wait(8000)
    assert led.look().offer == ""


def test_holding_in_another_shape_offers_nothing() -> None:
    led = leading()
    led.do(Do.HOLD)
    assert "offer" not in [one.kind for one in led.wait(60_000)]


def test_what_comes_next_is_not_said_while_holding() -> None:
    led = leading()
    led.to("h left.5")
    led.wait(3700)
    assert led.heard(0) == ["plank left"]
    led.do(Do.HOLD)
    assert led.heard(10_000) == ["Hold here."]
    led.do(Do.GO_ON)
    assert "plank left" in led.heard(10_000)


# -- stop ------------------------------------------------------------------------------------


def test_stopped_everything_waits_and_nothing_sounds() -> None:
    led = leading()
    led.do(Do.STOP)
    led.wait(0)
    assert led.wait(3_600_000) == []
    look = led.look()
    assert (look.state, look.leaves, look.silenced) == (State.STOPPED, None, False)
    assert led.engine.next_deadline() is None
    assert led.heard() == []


def test_silence_is_a_stop_that_says_so() -> None:
    led = leading()
    led.do(Do.SILENCE)
    assert (led.look().state, led.look().silenced) == (State.STOPPED, True)
    assert not led.do(Do.SILENCE).done
    led.do(Do.GO_ON)
    assert not led.look().silenced


def test_a_stop_can_become_silence() -> None:
    led = stopped()
    assert led.do(Do.SILENCE).done
    assert led.look().silenced


def test_after_a_short_stop_the_half_breath_starts_over() -> None:
    led = leading()
    led.do(Do.STOP)
    led.wait(LONG_STOP_MS - 1)
    led.do(Do.GO_ON)
    assert (led.here, led.look().state) == ("h left.2", State.ARRIVING)
    told = led.wait(400 + 4000)
    assert entered(told) == ["h left.2", "h left.3"]


def test_after_a_long_stop_it_is_taken_up_at_the_last_landing_with_a_breath_to_come_in() -> None:
    led = leading()
    led.do(Do.STOP)
    led.wait(LONG_STOP_MS)
    reply = led.do(Do.GO_ON)
    assert reply.words == "We take it up again in downward dog."
    assert led.here == "wait out"
    assert led.look().entered == led.now + 8000
    assert led.heard(0) == [reply.words]
    assert entered(led.wait(8000)) == ["wait out"]


def test_with_no_shape_to_land_in_it_is_taken_up_from_the_beginning() -> None:
    given = small()
    hard = {key: replace(info, landing=False) for key, info in given.shapes.items()}
    led = Class(replace(given, shapes=hard))
    led.begin()
    led.to("dog")
    led.do(Do.STOP)
    led.wait(LONG_STOP_MS)
    assert led.do(Do.GO_ON).words == "We take it up again from the beginning."
    assert led.here == "stand"


def test_a_stretch_of_time_is_taken_up_where_it_was_left() -> None:
    led = leading()
    led.to("rest.0")
    led.wait(12_000)
    led.do(Do.STOP)
    led.wait(5000)
    led.do(Do.GO_ON)
    led.wait(400)
    look = led.look()
    assert (look.state, look.leaves) == (State.LEADING, led.now + 18_000)


def test_words_cut_off_in_a_stretch_of_time_are_said_again() -> None:
    led = leading()
    led.to("rest.0")
    led.wait(700)
    led.do(Do.STOP)
    led.do(Do.GO_ON)
    assert led.heard() == ["Rest."]
    led.wait(400)
    assert led.look().leaves == led.now + 30_000 - 300


# -- sleep -----------------------------------------------------------------------------------


def test_a_sleep_is_a_stop_and_no_burst_of_old_cues() -> None:
    led = leading()
    led.now += 30_000
    reply = led.do(Do.SLEPT, ms=30_000)
    assert "30 s" in reply.words
    told = led.wait(0)
    assert [one.kind for one in told if one.kind != "dropped"] == ["slept", "state"]
    assert [one.words for one in told if one.kind == "dropped"][:2] == ["Last.", "plank left"]
    assert (led.here, led.look().state, led.heard()) == ("h left.2", State.STOPPED, [])


def test_after_any_sleep_it_is_taken_up_at_a_landing() -> None:
    led = leading()
    led.now += 3000
    led.do(Do.SLEPT, ms=3000)
    led.do(Do.GO_ON)
    assert led.here == "wait out"


def test_a_sleep_while_stopped_makes_it_a_long_stop() -> None:
    led = stopped()
    led.do(Do.SLEPT, ms=500)
    led.do(Do.GO_ON)
    assert led.here == "wait out"


# -- pace, voice, level, end -----------------------------------------------------------------


def test_slower_and_faster_go_by_steps_within_bounds() -> None:
    led = leading()
    led.do(Do.SLOWER)
    assert led.look().pace == 1050
    for _ in range(20):
        led.do(Do.FASTER)
    assert led.look().pace == PACES[0]
    assert not led.do(Do.FASTER).done
    assert Do.FASTER not in led.look().offers
    for _ in range(20):
        led.do(Do.SLOWER)
    assert led.look().pace == PACES[-1]
    assert not led.do(Do.SLOWER).done


def test_a_slower_pace_stretches_what_is_left_and_nothing_jumps() -> None:
    led = leading()
    left = led.look().ends_at - led.now
    led.do(Do.SLOWER)
    led.do(Do.SLOWER)
    assert led.look().ends_at == led.now + left * 1100 // 1000
    assert entered(led.wait(3299)) == []
    assert entered(led.wait(1)) == ["h left.3"]


def test_while_holding_a_slower_pace_counts_longer_breaths_from_the_next_half_on() -> None:
    led = leading()
    led.do(Do.HOLD)
    led.do(Do.SLOWER)
    led.wait(3000)
    assert led.look().leaves == led.now + 4200


def test_quiet_takes_away_the_voice_and_leaves_the_bells() -> None:
    led = leading()
    led.to("rest.0")
    led.wait(27_000)
    assert led.heard() == ["end", "bell"]
    assert led.do(Do.QUIET).words == "Voice off."
    assert led.heard() == ["bell"]
    assert led.do(Do.QUIET).words == "Voice on."
    assert led.heard() == ["end", "bell"]


def test_a_level_changes_the_words() -> None:
    led = leading()
    led.to("knees")
    led.do(Do.LEVEL, word="ease")
    assert "child ease" in led.heard()
    assert not led.do(Do.LEVEL, word="ease").done
    assert not led.do(Do.LEVEL, word="hard").done


def test_a_class_ended_is_over_and_still() -> None:
    led = leading()
    led.do(Do.END)
    assert led.heard() == []
    assert led.look().ends_at == led.now
    assert [one.kind for one in led.wait(10_000)] == ["command", "finished"]


def test_a_class_that_runs_out_lets_its_bell_ring() -> None:
    led = leading()
    led.to("end")
    led.wait(4000)
    assert led.look().state is State.FINISHED
    assert led.heard() == ["bell"]
