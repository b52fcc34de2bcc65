import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.plan import amounts


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("4 breaths", (8, 0)),
        ("1 breath", (2, 0)),
        ("a breath", (2, 0)),
        ("half a breath", (1, 0)),
        ("a breath and a half", (3, 0)),
        ("2 and a half breaths", (5, 0)),
        ("two and a half breaths", (5, 0)),
        ("2.5 breaths", (5, 0)),
        ("2,5 breaths", (5, 0)),
        ("Five Breaths", (10, 0)),
        ("40 s", (0, 40_000)),
        ("40s", (0, 40_000)),
        ("90 seconds", (0, 90_000)),
        ("5 min", (0, 300_000)),
        ("1.5 min", (0, 90_000)),
        ("half a minute", (0, 30_000)),
        ("one minute", (0, 60_000)),
        ("1 min 30 s", (0, 90_000)),
        ("1 minute and 30 seconds", (0, 90_000)),
        ("1:30", (0, 90_000)),
        ("1:30:00", (0, 5_400_000)),
        ("1 h 15 min", (0, 4_500_000)),
    ],
)
def test_amounts_in_a_teachers_words(text: str, read: tuple[int, int]) -> None:
    assert amounts.amount(text) == read


@pytest.mark.parametrize(
    "text", ["5", "", "breath", "0 breaths", "0 s", "2.3 breaths", "-3 breaths", "1:75", "5 cats"]
)
def test_what_is_no_amount(text: str) -> None:
    assert amounts.amount(text) is None


@given(halves=st.integers(1, 2000))
def test_half_breaths_are_exact(halves: int) -> None:
    assert amounts.amount(f"{halves / 2:g} breaths") == (halves, 0)


@given(seconds=st.integers(1, 99 * 3600 + 3599))
def test_clock_and_units_agree(seconds: int) -> None:
    hours, rest = divmod(seconds, 3600)
    clock = f"{hours}:{rest // 60:02}:{rest % 60:02}"
    assert amounts.amount(clock) == amounts.amount(f"{seconds} s") == (0, seconds * 1000)


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("3 to 8 breaths", ((6, 0), (16, 0))),
        ("half a breath to 3 breaths", ((1, 0), (6, 0))),
        ("3-8 breaths", ((6, 0), (16, 0))),
        ("3 – 8 breaths", ((6, 0), (16, 0))),
        ("5 to 15 min", ((0, 300_000), (0, 900_000))),
        ("30 s to 2 min", ((0, 30_000), (0, 120_000))),
        ("1:00 to 2:30", ((0, 60_000), (0, 150_000))),
        ("3 breaths", None),
        ("half to double", None),
        ("1 to 2 to 3 breaths", None),
    ],
)
def test_bounds(text: str, read: object) -> None:
    assert amounts.bounds(text) == read


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("4 s in, 4 s out", (4000, 4000)),
        ("4 in, 6 out", (4000, 6000)),
        ("4.5 s in, 4 s out", (4500, 4000)),
        ("4 seconds in and 6 seconds out", (4000, 6000)),
        ("6 a minute", (5000, 5000)),
        ("six breaths a minute", (5000, 5000)),
        ("7 a minute", (4285, 4286)),
        ("7 per minute", (4285, 4286)),
        ("in 4, out 6", None),
        ("4 s", None),
    ],
)
def test_tempo(text: str, read: tuple[int, int] | None) -> None:
    assert amounts.tempo(text) == read


@given(st.integers(1, 60))
def test_a_breath_of_a_rate_loses_less_than_a_millisecond(rate: int) -> None:
    read = amounts.tempo(f"{rate} a minute")
    assert read is not None
    assert abs(sum(read) - 60_000 / rate) <= 0.5
    assert read[1] - read[0] in {0, 1}


@given(st.text(max_size=40))
def test_any_text_is_answered(text: str) -> None:
    amounts.amount(text)
    amounts.bounds(text)
    amounts.tempo(text)
    amounts.count(text)


def test_counts_and_flags() -> None:
    assert [amounts.count(text) for text in ("3", "three", "3 rounds", "x", "1.5")] == [
        3, 3, 3, None, None,
    ]  # fmt: skip
    assert [amounts.yes(text) for text in ("yes", "True", "no", "false", "maybe")] == [
        True, True, False, False, None,
    ]  # fmt: skip
