import math
from array import array
from collections.abc import Callable, Sequence
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from conductor.sound.lanes import HIGH, LOW
from conductor.sound.mix import (
    FADE,
    RATE,
    UNITY,
    Event,
    Mixer,
)

Swap = tuple[int, tuple[Event, ...]]
"""From which frame on which list is wanted."""


def tone(frames: int, peak: int = 8000, hz: float = 220.0) -> "array[int]":
    turn = 2 * math.pi * hz / RATE
    return array("h", [round(peak * math.sin(k * turn)) for k in range(frames)])


def flat(frames: int, level: int = 8000) -> "array[int]":
    return array("h", [level] * frames)


def played(swaps: Sequence[Swap], frames: int, block: Callable[[], int]) -> "array[int]":
    """Render with blocks of any size, cut where the list wanted changes."""
    mixer, out = Mixer(), array("h")
    borders = [frame for frame, _ in swaps[1:]] + [frames]
    for (_, events), border in zip(swaps, borders, strict=True):
        mixer.want(events)
        while mixer.frame < border:
            out += mixer.render(min(block(), border - mixer.frame))
    return out


def heard(events: Sequence[Event], frames: int) -> "array[int]":
    return played([(0, tuple(events))], frames, lambda: 4096)


def rms(samples: Sequence[int]) -> float:
    return math.sqrt(sum(s * s for s in samples) / len(samples))


def db(value: float) -> float:
    return 20 * math.log10(value)


def largest_step(samples: Sequence[int]) -> int:
    return max(abs(b - a) for a, b in pairwise(samples))


LENGTH = 30_000
PIECES = {n: tone(n, peak=12_000 + n, hz=200 + n / 50) for n in (1, 300, 5_000, 14_000)}
events_ = st.builds(
    Event,
    id=st.integers(0, 5),
    start=st.integers(-500, LENGTH),
    pcm=st.sampled_from([PIECES[n] for n in sorted(PIECES)]),
    voice=st.booleans(),
    gain=st.sampled_from([UNITY, UNITY // 2, 100]),
)
lists = st.lists(events_, max_size=5, unique_by=lambda event: event.id).map(tuple)
swaps_ = st.lists(
    st.tuples(st.integers(1, LENGTH - 1), lists), max_size=3, unique_by=lambda swap: swap[0]
).flatmap(lambda later: lists.map(lambda first: [(0, first), *sorted(later, key=lambda s: s[0])]))


@settings(max_examples=60, deadline=None)
@given(swaps=swaps_, sizes=st.lists(st.integers(1, 9000), min_size=1, max_size=8))
def test_any_size_of_block_gives_the_same_samples(swaps: list[Swap], sizes: list[int]) -> None:
    turn = iter(sizes * LENGTH)
    assert played(swaps, LENGTH, lambda: next(turn)) == played(swaps, LENGTH, lambda: LENGTH)


@settings(max_examples=60, deadline=None)
@given(events=lists)
def test_bells_alone_are_the_sum_of_what_is_wanted(events: tuple[Event, ...]) -> None:
    bells = [Event(e.id, e.start, e.pcm, voice=False) for e in events]
    total = [0] * LENGTH
    for bell in bells:
        start = max(0, bell.start)
        for k, s in enumerate(bell.pcm[: max(0, LENGTH - start)]):
            total[start + k] = min(HIGH, max(LOW, total[start + k] + s))
    assert heard(bells, LENGTH).tolist() == total


def test_a_sound_starts_at_its_very_frame_within_a_block() -> None:
    out = heard([Event("a", 4097 + 13, flat(2000))], 9000)
    assert out.tolist() == [0] * 4110 + [8000] * 2000 + [0] * (9000 - 6110)


@pytest.mark.parametrize("shift", [-882, 1, 882])
def test_a_start_within_20_ms_is_left_alone(shift: int) -> None:
    before, after = Event("a", 5000, flat(100)), Event("a", 5000 + shift, flat(100))
    out = played([(0, (before,)), (2000, (after,))], 7000, lambda: 512)
    assert out.index(8000) == 5000


@pytest.mark.parametrize("shift", [-883, 883, 20_000])
def test_a_sound_that_has_not_begun_is_moved(shift: int) -> None:
    before, after = Event("a", 5000, flat(100)), Event("a", 5000 + shift, flat(100))
    out = played([(0, (before,)), (2000, (after,))], 26_000, lambda: 512)
    assert out.index(8000) == 5000 + shift
    assert sum(out) == 100 * 8000


def test_a_sound_that_has_begun_is_neither_moved_nor_replayed() -> None:
    piece = tone(3000)
    swaps = [(at, (Event("a", 1000 + at, piece),)) for at in range(0, 12_000, 1500)]
    out = played(swaps, 15_000, lambda: 700)
    assert out == array("h", bytes(2000)) + piece + array("h", bytes(2 * 11_000))


def test_what_is_gone_and_has_not_begun_is_dropped() -> None:
    out = played([(0, (Event("a", 5000, flat(100)),)), (4999, ())], 6000, lambda: 4096)
    assert not any(out)


def test_what_is_gone_and_has_begun_goes_out_within_12_ms_and_without_a_click() -> None:
    piece = tone(RATE, peak=16_000)
    out = played([(0, (Event("a", 0, piece),)), (10_000, ())], 20_000, lambda: 4096)
    assert out[:10_000] == piece[:10_000]
    assert any(out[10_000 + FADE // 2 : 10_000 + FADE])
    assert not any(out[10_000 + FADE :])
    assert largest_step(out) <= largest_step(piece)


def test_a_gain_that_changes_is_heard_in_the_midst_of_a_sound_and_without_a_click() -> None:
    piece = tone(RATE, peak=16_000)
    loud, soft = Event("a", 0, piece), Event("a", 0, piece, gain=UNITY // 4)
    out = played([(0, (loud,)), (10_000, (soft,)), (20_000, (loud,))], RATE, lambda: 4096)
    assert out[:10_000] == piece[:10_000]
    assert out[10_000 + FADE : 20_000].tolist() == [s // 4 for s in piece[10_000 + FADE : 20_000]]
    assert out[20_000 + FADE :] == piece[20_000 + FADE :]
    assert largest_step(out) <= largest_step(piece)


def test_a_gain_that_changes_while_it_changes_goes_on_from_where_it_is() -> None:
    level = flat(RATE)
    gains = [(at, (Event("a", 0, level, gain=UNITY // part),)) for at, part in ((0, 1), (100, 8))]
    back = (100 + FADE // 2, (Event("a", 0, level),))
    out = played([*gains, back], 4000, lambda: 64)
    assert min(out) > 8000 // 2
    assert largest_step(out) < 100
    assert out[-1] == 8000


def test_a_sound_that_comes_too_late_starts_at_once_with_its_first_sample() -> None:
    piece = tone(500)
    out = played([(0, ()), (4000, (Event("a", 1000, piece),))], 6000, lambda: 4000)
    assert out[4000:4500] == piece


def test_begun_names_what_has_started_for_as_long_as_it_is_wanted() -> None:
    mixer = Mixer()
    mixer.want([Event("a", 10, flat(20)), Event("b", 500, flat(20))])
    mixer.render(100)
    assert mixer.begun == {"a"}
    mixer.render(500)
    assert mixer.begun == {"a", "b"}
    mixer.want([Event("b", 500, flat(20))])
    mixer.render(1)
    assert mixer.begun == {"b"}


@given(gap=st.integers(0, 6000), size=st.integers(1, 6000))
@settings(max_examples=40, deadline=None)
def test_a_voice_never_sounds_over_a_voice(gap: int, size: int) -> None:
    first, second = flat(6000, 1000), flat(size, 16_000)
    out = heard([Event("a", 1000, first), Event("b", 1000 + gap, second)], 14_000)
    over = out[1000 + gap : 1000 + gap + size]
    assert max(over) <= 16_000 + (1000 if gap < FADE else 0)
    assert not any(out[1000 + max(gap + size, gap + FADE) :])


def test_a_voice_wanted_at_once_fades_the_one_that_speaks() -> None:
    first, second = tone(RATE, hz=300), flat(3000, 100)
    swaps: list[Swap] = [
        (0, (Event("a", 0, first),)),
        (8000, (Event("a", 0, first), Event("b", 8000, second))),
    ]
    out = played(swaps, 12_000, lambda: 1024)
    assert out[8000 + FADE : 11_000] == second[FADE:]
    assert not any(out[11_000:])


def test_a_bell_under_a_voice_is_20_db_down_and_comes_back_after_it() -> None:
    voice, bell = tone(RATE, peak=8000, hz=200), tone(3 * RATE, peak=8000, hz=3000)
    start = RATE // 2
    both = heard([Event("v", start, voice), Event("b", 0, bell, voice=False)], 3 * RATE)
    alone = heard([Event("v", start, voice)], 3 * RATE)
    rest = [a - b for a, b in zip(both, alone, strict=True)]
    spoken = slice(start + FADE, start + RATE)
    assert db(rms(alone[spoken]) / rms(rest[spoken])) >= 20
    assert rest[:start] == bell[:start].tolist()
    assert rest[-RATE:] == bell[-RATE:].tolist()
    assert largest_step(rest) <= largest_step(bell) + 1


def test_what_does_not_fit_is_held_at_the_limit() -> None:
    pile = [Event(k, 0, flat(50, 20_000), voice=False) for k in range(3)]
    assert heard(pile, 50).tolist() == [HIGH] * 50
    pile = [Event(k, 0, flat(50, -20_000), voice=False) for k in range(3)]
    assert heard(pile, 50).tolist() == [LOW] * 50


def test_the_first_voice_of_two_at_the_same_frame_gets_no_word_in() -> None:
    out = heard([Event("a", 100, flat(5000, 999)), Event("b", 100, flat(50, 7))], 1000)
    assert set(out) == {0, 7}
