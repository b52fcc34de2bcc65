"""Changes to a class under way: landing, pace, voice and level."""

import pytest

from conductor.engine.changes import NEXT_WAY
from conductor.engine.led import PACES
from conductor.engine.model import Do, State
from conductor.score.model import Score
from conductor.timing.cues import cues
from conductor.timing.model import Refit
from conductor.values import replace
from tests.engine.make import Class, at, breaths, entered, leading, move, score, stay
from tests.support import plan_of, score_of


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


WAYS = """
- come to: mountain
- in: tree
  side: right
  ease: hand on the wall
  variants: {gentle: toes on the floor, full: eyes closed}
- stay: 2 breaths
- out: mountain
"""


def test_the_next_of_the_ways_goes_round_those_the_plan_has() -> None:
    led = Class(score_of(plan_of(WAYS)), cueing=cues)
    told = [led.do(Do.LEVEL, word=NEXT_WAY).words for _ in range(4)]
    assert told == [
        "Led gentler.",
        "Led the way called gentle.",
        "Led the way called full.",
        "Led as written.",
    ]
    assert led.do(Do.LEVEL, word="hard").words == (
        "No way is called 'hard' here. The plan has: ease, gentle, full."
    )


def test_a_plan_without_other_ways_says_so() -> None:
    led = Class(score_of(plan_of("- come to: mountain\n- in: same")), cueing=cues)
    reply = led.do(Do.LEVEL, word=NEXT_WAY)
    assert (reply.done, reply.words) == (False, "The plan has no other ways.")


def test_a_way_chosen_in_class_leaves_time_and_place_as_they_are() -> None:
    led = Class(score_of(plan_of(WAYS)), cueing=cues)
    led.begin()
    led.wait(14_000)
    before = led.look()
    led.do(Do.LEVEL, word="full")
    after = led.look()
    assert (after.index, after.entered, after.leaves, after.ends_at) == (
        before.index,
        before.entered,
        before.leaves,
        before.ends_at,
    )
    assert after.level == "full"


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
        led.do(Do.LAND, ms=led.look().ends_at - led.now - 24_000).words
        == "Fitted to the planned end."
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
        assert led.do(Do.LAND, ms=led.look().ends_at - led.now - 9000).done
        assert led.here == here
        led.to("e")


def test_landing_after_a_long_stop_may_leave_out_where_it_stood() -> None:
    led = Class(droppable())
    led.do(Do.BEGIN)
    led.to("c")
    led.do(Do.STOP)
    led.wait(60_000)
    assert led.do(Do.LAND, ms=led.look().ends_at - led.now - 8000).done
    assert led.look().ends_at == led.look().planned_end
    assert led.here == "near.5"
    led.do(Do.GO_ON)
    led.to("near.5")
    led.to("e")
