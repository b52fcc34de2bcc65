"""Whatever the pace does, each cue is said once, and never a moment is lost."""

from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.engine.model import Do
from conductor.settings import Settings
from tests.engine.make import Class, cue_all, entered, small

PACES = st.lists(
    st.tuples(st.integers(0, 12_000), st.sampled_from([Do.SLOWER, Do.FASTER, Do.QUIET])),
    max_size=30,
)


@settings(max_examples=60, deadline=None)
@given(PACES)
def test_each_cue_and_moment_comes_once_at_any_pace(changes: list[tuple[int, Do]]) -> None:
    led = Class()
    led.do(Do.BEGIN)
    for wait, do in changes:
        led.wait(wait)
        led.do(do)
    led.wait(1_000_000)
    told = [(one.moment, dict(one.data)["slot"]) for one in led.told if one.kind == "cue"]
    given_moments = small().moments
    cues, _ = cue_all(small(), {}, Settings())
    assert sorted(told) == sorted((given_moments[cue.moment].id, cue.slot) for cue in cues)
    assert entered(led.told) == [moment.id for moment in given_moments]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 9000), st.integers(0, 9000)), max_size=12))
def test_holds_cost_time_and_nothing_else(holds: list[tuple[int, int]]) -> None:
    led = Class()
    led.begin()
    for lead, held in holds:
        led.wait(lead)
        led.do(Do.HOLD)
        led.wait(held)
        led.do(Do.GO_ON)
    led.wait(1_000_000)
    assert entered(led.told) == [moment.id for moment in small().moments]
    said = {(one.moment, dict(one.data)["slot"]) for one in led.told if one.kind == "cue"}
    cues, _ = cue_all(small(), {}, Settings())
    assert {(small().moments[cue.moment].id, cue.slot) for cue in cues} <= said
