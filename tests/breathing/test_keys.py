from conductor.breathing.keys import taps
from conductor.breathing.model import Tap
from conductor.sides import Breath

IN, OUT = Breath.IN, Breath.OUT


def held(
    at: int, until: int, breath: Breath | None, first: int = 500, every: int = 33
) -> list[Tap]:
    """What a terminal gives of a key held down."""
    return [Tap(at, breath), *(Tap(one, breath) for one in range(at + first, until, every))]


def test_presses_are_taps_as_they_come() -> None:
    pressed = [Tap(0, IN), Tap(4000, OUT), Tap(4500, OUT), Tap(9000, IN)]
    assert taps(pressed) == tuple(pressed)


def test_a_key_held_through_the_inhale_tells_both_turns() -> None:
    found = taps([*held(0, 4000, IN), *held(9000, 13_000, IN)])
    assert [(one.breath, one.at) for one in found[::2]] == [(IN, 0), (IN, 9000)]
    assert [one.breath for one in found[1::2]] == [OUT, OUT]
    assert all(
        abs(one.at - end) <= 40 for one, end in zip(found[1::2], (4000, 13_000), strict=True)
    )


def test_one_key_for_all_is_held_through_the_inhale() -> None:
    assert [one.breath for one in taps(held(0, 3000, None))] == [IN, OUT]


def test_a_key_that_may_still_be_down_has_no_end_yet() -> None:
    events = held(0, 3000, IN)
    assert len(taps(events, events[-1].at + 50)) == 1
    assert len(taps(events, events[-1].at + 500)) == 2
