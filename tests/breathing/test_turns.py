from conductor.breathing.model import Tap
from conductor.breathing.turns import read, settled
from conductor.sides import Breath

IN, OUT = Breath.IN, Breath.OUT


def row(gaps: list[int], labels: bool = True) -> list[Tap]:
    taps, at, breath = [], 0, IN
    for gap in [*gaps, 0]:
        taps.append(Tap(at, breath if labels else None))
        at, breath = at + gap, breath.other
    return taps


def test_taps_without_a_slip_are_halves_one_after_the_other() -> None:
    found = read(row([4000, 5000] * 6))
    assert [(one.breath, one.ms) for one in found.halves] == [(IN, 4000), (OUT, 5000)] * 6
    assert [ms for _, ms in found.wholes] == [9000] * 6
    assert (found.missed, found.doubled, found.wrong, found.pauses) == (0, 0, 0, ())


def test_a_missed_tap_is_found_and_its_breath_shared_out() -> None:
    taps = row([4000, 6000] * 8)
    del taps[5]
    for labels in (True, False):
        found = read([Tap(one.at, one.breath if labels else None) for one in taps])
        assert found.missed == 1
        assert [(one.breath, one.ms) for one in found.halves] == [(IN, 4000), (OUT, 6000)] * 8


def test_of_two_presses_the_first_was_meant() -> None:
    taps = row([4000, 6000] * 6)
    taps.insert(4, Tap(taps[3].at + 400, taps[3].breath))
    found = read(taps)
    assert found.doubled == 1
    assert [one.ms for one in found.halves] == [4000, 6000] * 6


def test_a_key_that_bounces_is_one_press() -> None:
    assert settled([Tap(0, IN), Tap(30, IN), Tap(50, OUT), Tap(4000, OUT)]) == (
        Tap(0, IN),
        Tap(50, OUT),
        Tap(4000, OUT),
    )


def test_a_stretch_that_is_no_breath_is_a_pause_and_both_sides_of_it_count() -> None:
    found = read(row([4000, 6000, 4000, 6000, 45_000, 6000, 4000, 6000, 4000, 6000]))
    assert found.pauses == (45_000,)
    assert len(found.halves) == 9


def test_two_taps_tell_nothing() -> None:
    assert read(row([4000])).halves == ()
