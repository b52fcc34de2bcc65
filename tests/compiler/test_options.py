import pytest

from conductor.score.model import Score
from tests.support import findings_of, plan_of, rules_of, score_of

STEPS = """
- come to: mountain
- in: arms overhead
- out: standing fold
- stay: 5 breaths
- in: arms overhead
- out: mountain
- stay: 2 breaths
- free: 20 s
  to: final rest
- stay: 4 breaths
"""


def said(score: Score) -> list[tuple[str, int, str]]:
    return [
        (moment.shape, moment.of_stay[0], line.saying.text)
        for moment in score.moments
        for line in moment.lines
    ]


def test_the_last_breath_of_a_stay_is_announced_where_the_plan_asks() -> None:
    assert said(score_of(plan_of(STEPS))) == []
    told = said(score_of(plan_of(STEPS, head="voice: {last breath: yes}\n")))
    assert told == [("standing-fold", 5, "Last breath.")]


def test_stays_are_counted_down_and_rest_stays_silent() -> None:
    told = said(score_of(plan_of(STEPS, head="voice: {count down: yes}\n")))
    assert told == [
        ("standing-fold", 3, "Three more."),
        ("standing-fold", 4, "Two more."),
        ("standing-fold", 5, "Last breath."),
    ]


def test_words_of_the_plan_at_the_end_of_a_stay_come_first() -> None:
    steps = STEPS.replace("- stay: 5 breaths\n", "- stay: 5 breaths\n  say: [{last: And rise.}]\n")
    told = said(score_of(plan_of(steps, head="voice: {count down: yes}\n")))
    assert told == [("standing-fold", 5, "And rise.")]


def test_a_bell_rings_at_each_change_of_part() -> None:
    text = plan_of(STEPS, head="voice: {part bell: yes}\n")
    text += "  - part: Two\n    steps:\n      - stay: 1 breath\n"
    score = score_of(text)
    rung = [index for index, moment in enumerate(score.moments) if moment.bells]
    assert rung == [score.parts[1].first]


@pytest.mark.parametrize(
    ("head", "rule", "hint"),
    [
        ("voice: {last breth: yes}\n", "no-such-setting", "last breath"),
        ("view: {screan: left}\n", "no-such-setting", "screen"),
        ("voice: {rate: fast}\n", "unreadable-setting", "150"),
        ("voice: {rate: 20}\n", "unreadable-setting", "150"),
        ("voice: {rate: ²}\n", "unreadable-setting", "150"),
        ("voice: {fastest: 90 %}\n", "unreadable-setting", "15 %"),
        ("view: {distance: far}\n", "unreadable-setting", "2 m"),
        ("voice: {part bell: maybe}\n", "unreadable-setting", ""),
    ],
)
def test_a_setting_that_is_not_or_cannot_be_read_is_told_at_its_place(
    head: str, rule: str, hint: str
) -> None:
    text = plan_of("- come to: mountain\n", head=head)
    assert rules_of(text) == [rule]
    (finding,) = findings_of(text)
    assert hint in finding.hint
    assert finding.span is not None
    assert text.splitlines()[finding.span.line - 1] + "\n" == head
