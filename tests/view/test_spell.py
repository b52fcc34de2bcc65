import pytest

from conductor.view.spell import against, ago, breaths, clock, count, left, span


@pytest.mark.parametrize(
    ("ms", "words"), [(0, "00:00"), (61_500, "01:01"), (3_600_000, "1:00:00"), (-5, "00:00")]
)
def test_the_clock(ms: int, words: str) -> None:
    assert clock(ms) == words


@pytest.mark.parametrize(
    ("ms", "words"),
    [
        (30 * 60_000, "30 min"),
        (10 * 60_000 + 8_000, "10 min"),
        (150_000, "3 min"),
        (149_000, "2 min"),
        (120_001, "2 min"),
        (120_000, "2:00 min"),
        (60_001, "1:01 min"),
        (59_000, "59 s"),
        (1, "1 s"),
        (0, "0 s"),
    ],
)
def test_time_left_is_told_in_the_nearest_minute_and_at_last_in_seconds(
    ms: int, words: str
) -> None:
    assert left(ms) == words


@pytest.mark.parametrize(
    ("over", "words"),
    [
        (0, "on time"),
        (-19_000, "on time"),
        (25_000, "25 s over"),
        (120_000, "2 min over"),
        (-61_000, "1 min early"),
    ],
)
def test_against_the_plan(over: int, words: str) -> None:
    assert against(over) == words


def test_lengths_and_counts() -> None:
    assert [span(ms) for ms in (40_000, 100_000, 300_000, 1_815_000)] == [
        "40 s",
        "1 min 40 s",
        "5 min",
        "30 min 15 s",
    ]
    assert (count(1, "breath"), count(2, "breath")) == ("1 breath", "2 breaths")
    assert [breaths(5), breaths(1), breaths(0, True), breaths(1, True), breaths(2, True)] == [
        "5 breaths",
        "1 breath",
        "half a breath",
        "1 and a half breaths",
        "2 and a half breaths",
    ]


def test_how_long_ago_a_day_was() -> None:
    assert [ago(days) for days in (0, 1, 2, 13, 14, 59, 60, 400)] == [
        "today",
        "yesterday",
        "2 days ago",
        "13 days ago",
        "2 weeks ago",
        "8 weeks ago",
        "2 months ago",
        "13 months ago",
    ]
