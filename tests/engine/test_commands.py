"""Every command from every state: what it does, or that it changes nothing and says why."""

from collections.abc import Callable

import pytest

from conductor.engine.commands import JUST_BEGUN_MS
from conductor.engine.model import Do, Snapshot, State
from conductor.engine.moves import RUN_IN_MS
from conductor.engine.table import TABLE, Refuses
from conductor.values import replace
from tests.engine.make import Class, breaths, entered, leading, move, score, small, stay, stopped


def ready() -> Class:
    return Class()


def arriving() -> Class:
    led = leading()
    led.do(Do.AGAIN)
    return led


def holding() -> Class:
    led = leading()
    led.do(Do.HOLD)
    led.wait(5000)
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


def moment(look: Snapshot) -> str:
    return look.score.moments[look.index].id


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
    word = {Do.LEVEL: "ease", Do.GO_TO: "plank right"}.get(do, "")
    reply = led.do(do, word=word, ms=60_000 if do is Do.LAND else 0)
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
        moved = moment(after) != moment(before)
        assert bool(told) == (after.state is not state or moved)


def test_what_a_state_offers_is_taken_from_the_table() -> None:
    for state, make in STATES.items():
        taken = {do for do, cell in TABLE[state].items() if not isinstance(cell, Refuses)}
        assert make().look().offers <= taken


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


def test_next_within_one_shape_says_that_the_shape_stays() -> None:
    hold = breaths("h", 3)
    steps = [move("down", "out", "fold"), *stay(hold, "in", "fold")]
    led = Class(score([("Fold", [*steps, move("up", "in", "arms")])], [hold]))
    led.do(Do.BEGIN)
    led.to("down")
    assert led.do(Do.NEXT).words.startswith("Next, still in standing fold.")
    assert led.do(Do.NEXT).words.startswith("Next: arms overhead.")


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


def test_parts() -> None:
    led = leading()
    assert led.do(Do.NEXT_PART).words == "Next part: Rest."
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


def test_any_moment_can_be_gone_to_with_a_run_in_and_one_that_is_none_is_refused() -> None:
    led = leading()
    assert led.do(Do.GO_TO, word="warrior right").words == "Go to: warrior two."
    assert (led.here, led.look().state) == ("warrior right", State.ARRIVING)
    assert not led.do(Do.GO_TO, word="nowhere").done
    assert led.here == "warrior right"


def test_a_mark_names_the_place_and_changes_nothing() -> None:
    led = leading()
    led.wait(0)
    before = led.look()
    assert led.do(Do.MARK).words == "Marked: warrior two (left)."
    assert but_reply(led.look()) == but_reply(before)
    (told,) = [one for one in led.wait(0) if one.kind == "mark"]
    assert (told.moment, told.now) == (led.here, led.now)


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


def test_rest_takes_the_shortest_way_down_and_keeps_the_final_rest_whole() -> None:
    led = leading()
    led.do(Do.REST)
    assert led.here == "child"  # every stance here is as near; the last movement before the rest
    led.to("rest.0")
    look = led.look()
    assert look.leaves is not None
    assert look.leaves - look.entered == 30_000
    assert not led.do(Do.REST).done
