from conductor.report.score import clock, table
from conductor.settings import Settings
from conductor.timing.cues import cues
from tests.support import plan_of, score_of


def rows(text: str, *, every: bool = False) -> str:
    score = score_of(text)
    return table(score, cues(score, {}, Settings())[0], every=every)


def test_times_are_minutes_seconds_and_tenths_where_there_are_some() -> None:
    assert [clock(ms) for ms in (0, 59_999, 60_000, 61_500)] == ["0:00", "0:59.9", "1:00", "1:01.5"]


def test_a_row_tells_breath_side_what_decided_it_and_the_facing() -> None:
    text = plan_of("- come to: mountain\n- in: warrior two\n  side: left\n")
    (row,) = [line for line in rows(text).splitlines() if "warrior two  " in line]
    assert "in  " in row
    assert "left foot (written)" in row
    assert "long side (right wall), head of the mat: front" in row


def test_a_convention_is_printed_where_its_shape_first_appears_and_only_there() -> None:
    text = plan_of(
        "- come to: mountain\n- in: tree\n  side: right\n- out: mountain\n"
        "- in: tree\n  side: left\n"
    )
    assert rows(text).count("right = raised leg") == 1


def test_the_breaths_of_a_stay_share_a_line_unless_asked() -> None:
    text = plan_of("- come to: mountain\n- stay: 3 breaths\n")
    assert "stay 3 breaths" in rows(text)
    assert rows(text, every=True).count("stay 3 breaths") == 6


def test_both_readings_are_kept_where_words_were_exchanged() -> None:
    steps = """
    - come to: downward dog
    - each side: yes
      steps:
        - in: three-legged dog
          say: Lift your right leg.
        - out: downward dog
    """
    told = rows(plan_of(steps))
    assert "as written: Lift your right leg." in told
    assert "lift your left leg" in told.lower()
