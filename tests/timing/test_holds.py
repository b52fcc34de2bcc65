from collections.abc import Iterable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.score.model import Moment, Part, Saying, Variant, Words
from conductor.sides import Breath
from conductor.timing.holds import (
    CLOSE_MS,
    LINE_AT_MS,
    dropped,
    grow,
    resized,
    retimed,
    without_empty_parts,
)
from conductor.values import replace
from tests.timing.building import hold, moment, score_of, stay

ANCHORS = st.lists(
    st.tuples(st.sampled_from(["", "first", "last"]), st.sampled_from(["Soften.", "Reach up."])),
    max_size=5,
).map(tuple)


def spoken(moments: Iterable[Moment]) -> list[tuple[int, str]]:
    return [(index, line.saying.text) for index, item in enumerate(moments) for line in item.lines]


def test_a_stay_goes_on_with_the_other_half_and_counts_whole_breaths() -> None:
    grown = stay(hold("h", 2, inhale=3000), Breath.OUT)
    assert [item.breath for item in grown] == ["out", "in", "out", "in"]
    assert [item.length for item in grown] == [5000, 3000, 5000, 3000]
    assert [item.start for item in grown] == [0, 5000, 8000, 13000]
    assert [item.of_stay for item in grown] == [(1, 2), (1, 2), (2, 2), (2, 2)]
    assert [item.id for item in grown] == ["h.0", "h.1", "h.2", "h.3"]


def test_half_a_breath_more_is_one_more_moment() -> None:
    grown = stay(hold("h", 1, half=True))
    assert [item.of_stay for item in grown] == [(1, 2), (1, 2), (2, 2)]
    assert len(stay(hold("h", 0, half=True))) == 1


def test_what_happens_once_stays_with_the_first() -> None:
    first = replace(
        moment("a.0", text="look up"),
        bells=2,
        early=True,
        note="slow",
        variants=(Variant("ease", "knee down", words=Words(full="knee down")),),
    )
    grown = grow(first, hold("h", 1))
    assert (grown[0].bells, grown[0].early, grown[0].words.full) == (2, True, "look up")
    assert (grown[1].bells, grown[1].early, grown[1].words.full) == (0, False, "")
    assert grown[1].words.breath == "Exhale"
    assert (grown[1].note, grown[1].variants[0].text) == ("slow", "knee down")
    assert grown[1].variants[0].words == Words()


def test_lines_stand_one_a_breath_and_the_last_on_the_last_breath() -> None:
    lines = (("first", "Sink."), ("", "Reach."), ("", "Soften."), ("last", "Last breath."))
    want = [(0, "Sink."), (2, "Reach."), (4, "Soften."), (8, "Last breath.")]
    assert spoken(stay(hold("h", 5, lines=lines))) == want
    assert spoken(stay(hold("h", 2, lines=lines))) == [(0, "Sink."), (2, "Last breath.")]
    assert stay(hold("h", 5, lines=lines))[0].lines[0].at == LINE_AT_MS


def test_one_breath_keeps_first_and_last_only_where_both_fit() -> None:
    lines = (("first", "Sink."), ("last", "Last breath."))
    assert spoken(stay(hold("h", 1, lines=lines))) == [(0, "Sink."), (1, "Last breath.")]
    quick = hold("h", 1, lines=lines, unit=2400, inhale=1200)
    assert spoken(stay(quick)) == [(0, "Sink.")]


def test_timed_stillness_is_one_moment_whose_last_words_end_before_it_does() -> None:
    lines = (("first", "Lie down."), ("", "Let go."), ("last", "Come back slowly."))
    (rest,) = stay(hold("r", 60_000, timed=True, lines=lines))
    assert (rest.breath, rest.length, rest.id, rest.of_stay) == ("free", 60_000, "r.0", (0, 0))
    first, second, last = rest.lines
    assert (first.at, second.at - first.at) == (LINE_AT_MS, 8000)
    assert last.at < -CLOSE_MS
    assert last.saying == Saying("Come back slowly.")


def test_long_words_in_stillness_move_the_next_by_whole_breaths() -> None:
    long = "Let the weight of the whole body go down into the floor. " * 3
    (rest,) = stay(hold("r", 60_000, timed=True, lines=(("", long), ("", "Let go."))))
    gap = rest.lines[1].at - rest.lines[0].at
    assert gap > 8000
    assert gap % 8000 == 0


def test_stillness_too_short_for_both_keeps_the_first_words() -> None:
    lines = (("first", "Lie down."), ("last", "Come back slowly."))
    (rest,) = stay(hold("r", 3000, timed=True, lines=lines))
    assert [line.saying.text for line in rest.lines] == ["Lie down."]


@pytest.mark.parametrize("timed", [True, False])
def test_nothing_left_is_refused(timed: bool) -> None:
    with pytest.raises(ValueError, match="drop it instead"):
        grow(moment("a.0"), hold("h", 0, timed=timed))


@given(st.integers(1, 9), st.booleans(), st.sampled_from([Breath.IN, Breath.OUT]), ANCHORS)
def test_growing_is_exact_and_words_stay_inside(
    amount: int, half: bool, breath: Breath, lines: tuple[tuple[str, str], ...]
) -> None:
    of = hold("h", amount, half=half, inhale=3500, lines=lines)
    grown = stay(of, breath)
    extra = (3500 if breath is Breath.IN else 4500) if half else 0
    assert sum(item.length for item in grown) == amount * 8000 + extra
    assert all(0 <= line.at < item.length for item in grown for line in item.lines)
    assert all(a.breath is b.breath.other for a, b in pairwise(grown))
    if any(anchor == "last" for anchor, _ in lines) and amount > len(lines):
        assert grown[2 * (amount - 1)].lines


@given(st.integers(1, 90_000), ANCHORS)
def test_words_of_stillness_stay_inside_it(amount: int, lines: tuple[tuple[str, str], ...]) -> None:
    (rest,) = stay(hold("h", amount, timed=True, lines=lines))
    starts = [line.at if line.at >= 0 else amount + line.at for line in rest.lines]
    assert starts == sorted(starts)
    assert all(at >= 0 for at in starts)
    assert bool(starts) == bool(lines)


def test_retimed_leaves_alone_what_is_right() -> None:
    good = retimed([moment("a"), moment("b")])
    again = retimed(good)
    assert all(one is other for one, other in zip(good, again, strict=True))
    assert [item.start for item in retimed(good, 500)] == [500, 4500]


def test_resizing_keeps_ids_parts_and_the_rest() -> None:
    score = score_of(
        moment("a"), hold("h", 2), moment("b"), parts=(Part("One", 0, 5), Part("Two", 5, 6))
    )
    longer = resized(score, {"h": 4})
    assert [item.id for item in longer.moments] == ["a", *(f"h.{i}" for i in range(8)), "b"]
    assert longer.parts == (Part("One", 0, 9), Part("Two", 9, 10))
    assert (longer.holds["h"].amount, longer.length) == (4, score.length + 16_000)
    assert resized(longer, {"h": 2}) == score
    assert resized(score, {"h": 2}) is score


def test_what_has_been_led_stays_as_it_was() -> None:
    score = score_of(moment("a"), hold("h", 3), moment("b"))
    led = resized(score, {"h": 4}, at=4)
    assert led.moments[:4] == score.moments[:4]
    assert [item.of_stay for item in led.moments[4:9]] == [(2, 4), (3, 4), (3, 4), (4, 4), (4, 4)]
    over = resized(score, {"h": 4}, at=7)
    assert over.moments[:7] == score.moments[:7]
    assert [item.id for item in over.moments[7:]] == ["h.6", "h.7", "b"]


def test_dropping_takes_moments_and_holds_and_parts_keep_their_numbers() -> None:
    extra = hold("x", 1)
    score = score_of(
        moment("a"),
        stay(extra, drop="k"),
        hold("h", 1, mates=("x",)),
        parts=(Part("One", 0, 1), Part("Extra", 1, 3), Part("Two", 3, 5)),
    )
    score = replace(score, holds={**score.holds, "x": extra})
    less = dropped(score, {"k"})
    assert [item.id for item in less.moments] == ["a", "h.0", "h.1"]
    assert [item.part for item in less.moments] == [0, 2, 2]
    assert less.parts == (Part("One", 0, 1), Part("Extra", 1, 1), Part("Two", 1, 3))
    filled = without_empty_parts(less)
    assert [item.part for item in filled.moments] == [0, 1, 1]
    assert filled.parts == (Part("One", 0, 1), Part("Two", 1, 3))
    assert without_empty_parts(filled) is filled
    assert list(less.holds) == ["h"]
    assert less.holds["h"].mates == ()
    assert dropped(score, {"other"}) is score


@given(st.lists(st.tuples(st.integers(1, 4), st.integers(1, 6)), min_size=1, max_size=5))
def test_resizing_back_gives_the_score_back(sizes: list[tuple[int, int]]) -> None:
    pieces = [hold(f"h{i}", before) for i, (before, _) in enumerate(sizes)]
    score = score_of(moment("a"), *pieces, moment("b"))
    changed = resized(score, {f"h{i}": after for i, (_, after) in enumerate(sizes)})
    assert changed.length == 8000 + 8000 * sum(after for _, after in sizes)
    assert resized(changed, {f"h{i}": before for i, (before, _) in enumerate(sizes)}) == score
