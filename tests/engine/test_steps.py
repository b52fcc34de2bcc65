"""What time alone does: breath held and counted, rest offered, the end."""

import pytest

from conductor.compiler.compile import compile as compile_plan
from conductor.engine.course import course
from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, Position, State
from conductor.engine.moves import RUN_IN_MS
from conductor.engine.phrases import phrases
from conductor.places import shipped
from conductor.score.model import Saying
from conductor.settings import Settings
from conductor.shapes.catalogue import load
from tests.engine.make import Class, entered, leading, small


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
    led = leading()
    led.do(Do.HOLD)
    led.wait(5000)
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


@pytest.mark.parametrize("aloud", [False, True])
def test_the_breaths_of_a_hold_are_counted_aloud_where_that_is_wished(aloud: bool) -> None:
    led = Class(pick=Settings(count_aloud=aloud))
    led.begin()
    led.to("h left.2")
    led.do(Do.HOLD)
    led.wait(33_000)
    said = [one.words for one in led.told if one.kind == "cue"][-4:]
    counted = ["Two.", "Three.", "Four.", "Five."]
    assert (said == counted) is aloud
    assert {Saying(word) for word in counted} <= phrases(small(), counting=True)
    assert not {Saying(word) for word in counted} & phrases(small())


def test_a_count_gives_way_to_the_offer_of_a_rest() -> None:
    led = Class(pick=Settings(count_aloud=True))
    led.begin()
    led.to("plank right")
    led.do(Do.HOLD)
    led.wait(26_000)
    said = [one.words for one in led.told if one.kind == "cue"][-3:]
    assert said == ["Two.", "Rest in child's pose if you like.", "Four."]


@pytest.mark.slow
@pytest.mark.parametrize("name", ["harbour-hour", "lighthouse-morning", "short-tide"])
def test_a_long_stop_anywhere_in_a_shipped_class_returns_safely_with_a_breath(name: str) -> None:
    text = (shipped("plans") / f"{name}.yaml").read_text("utf-8")
    given = compile_plan(text, name, load())[0]
    assert given is not None
    known = course(given, ())
    for index in range(0, len(given.moments), 3):
        engine = Engine.resume(given, {}, Settings(), Position(index, 0, 0, 0), cueing=no_cues)
        engine.command(Command(Do.GO_ON), 0)
        look = engine.snapshot(0)
        there = given.moments[look.index]
        assert look.index <= index
        assert given.shapes[there.shape].landing
        assert look.entered == max(sum(known.breaths[look.index]), RUN_IN_MS)


def no_cues(*_: object) -> tuple[tuple[()], frozenset[Saying]]:
    """Where nothing need be said."""
    return (), frozenset()
