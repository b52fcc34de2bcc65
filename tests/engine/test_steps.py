"""What time alone does: breath held and counted, rest offered, the end."""

import pytest

from conductor.engine.model import Do, State
from tests.engine.make import entered, leading


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
