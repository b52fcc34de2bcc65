"""The leader as a whole: the law of time, resuming, and what a long class costs."""

import pytest

from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, Happening, Position, State
from conductor.settings import Settings
from conductor.values import replace
from tests.engine.make import Class, cue_all, entered, move, score, small


def test_a_class_led_through_enters_each_moment_once_at_its_time() -> None:
    led = Class()
    led.begin()
    led.wait(10_000_000)
    given = small()
    moments = [(one.moment, one.now) for one in led.told if one.kind == "moment"]
    assert moments == [(moment.id, moment.start + 3000) for moment in given.moments]
    assert [one.words for one in led.told if one.kind == "part"] == ["Arrive", "Flow", "Rest"]
    assert led.told[-1].kind == "finished"
    assert led.told[-1].now == given.length + 3000


def test_time_never_goes_back() -> None:
    led = Class()
    led.begin()
    led.wait(20_000)
    assert led.engine.advance(5000) == ()
    assert led.engine.snapshot(5000).now == led.now
    assert led.engine.command(Command(Do.HOLD), 5000).done
    assert led.engine.advance(0)[0].now == led.now


def test_the_deadline_is_the_next_now_at_which_something_happens() -> None:
    led = Class()
    led.do(Do.BEGIN)
    while (due := led.engine.next_deadline()) is not None:
        if due > led.now:
            assert led.engine.advance(due - 1) == ()
        led.now = max(due, led.now)
        assert led.engine.advance(led.now)
    assert led.look().state is State.FINISHED


def test_a_class_is_taken_up_from_where_its_journal_ends() -> None:
    broke = Position(index=21, now=500, begun=-90_000, planned_end=70_000, pace=1100, quiet=True)
    engine = Engine.resume(small(), {}, Settings(), broke, cueing=cue_all)
    look = engine.snapshot(500)
    assert (look.state, look.index, look.pace, look.quiet) == (State.STOPPED, 21, 1100, True)
    assert look.begun == -90_000
    assert engine.command(Command(Do.GO_ON), 600).words == "We take it up again in downward dog."
    look = engine.snapshot(600)
    assert look.score.moments[look.index].id == "wait out"
    assert look.entered == 600 + 8800


def test_a_class_broken_off_in_a_landing_stretch_of_time_goes_on_within_it() -> None:
    broke = Position(index=0, now=0, begun=-9000, planned_end=0, pos=5000)
    engine = Engine.resume(small(), {}, Settings(), broke, cueing=cue_all)
    engine.command(Command(Do.GO_ON), 0)
    look = engine.snapshot(0)
    assert look.leaves == look.entered + 3000


def test_a_position_outside_the_score_is_refused() -> None:
    broke = Position(index=99, now=0, begun=0, planned_end=0)
    with pytest.raises(ValueError, match="no moment 99"):
        Engine.resume(small(), {}, Settings(), broke, cueing=cue_all)


def test_commands_are_told_with_all_it_takes_to_give_them_again() -> None:
    led = Class()
    led.begin()
    led.do(Do.LAND, ms=150_000)
    led.do(Do.LEVEL, word="ease")
    led.do(Do.BEGIN)
    told = [one for one in led.wait(0) if one.kind in {"command", "refused"}]
    assert [(one.kind, dict(one.data)) for one in told] == [
        ("command", {"do": "land on time", "ms": 150_000}),
        ("command", {"do": "level", "word": "ease"}),
        ("refused", {"do": "begin"}),
    ]


def test_a_replay_of_the_commands_told_comes_to_the_same_place() -> None:
    script = [(0, Do.BEGIN), (30_000, Do.MORE), (3000, Do.SLOWER), (9000, Do.HOLD),
              (11_000, Do.GO_ON), (20_000, Do.NEXT), (9000, Do.LAND)]  # fmt: skip
    led = Class()
    for wait, do in script:
        led.wait(wait)
        led.do(do)
    led.wait(1000)
    again = Class()
    for one in [one for one in led.told if one.kind == "command"]:
        data = dict(one.data)
        given = Command(Do(str(data["do"])), int(data.get("ms", 0)), str(data.get("word", "")))
        again.engine.command(given, one.now)
    again.now = led.now
    assert again.look() == led.look()


def test_a_score_without_moments_cannot_be_led() -> None:
    with pytest.raises(ValueError, match="no moments"):
        Class(replace(small(), moments=(), parts=()))


def test_the_cost_of_a_look_does_not_grow_with_the_class() -> None:
    """Counted in steps of the leader, since times differ from machine to machine."""
    halves = [move(f"m{n}", "in" if n % 2 == 0 else "out", "dog") for n in range(1350)]
    led = Class(score([("All", halves)], []))
    led.begin()
    led.wait(4000 * 1000)
    led.wait(0)
    assert len(led.engine.upcoming(led.now, 4000)) <= 3
    told: list[Happening] = led.wait(4000)
    assert len(told) == 2
    assert entered(told) == ["m1001"]
