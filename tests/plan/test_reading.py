import pytest

from conductor.plan import limits
from conductor.plan.reader import read
from conductor.spans import Span

HEAD = "plan: 1\nparts:\n  - part: All\n    steps:\n"


@pytest.mark.parametrize(
    ("words", "left"),
    [
        ("Bre\x1bathe", "Breathe"),
        ("Bre\x07athe", "Breathe"),
        ("Bre\x9bathe", "Breathe"),
        ("Bre\x7fathe", "Breathe"),
        ("Bre\u202eathe", "Breathe"),
        ("Bre\u2066athe", "Breathe"),
        ("Bre\x00athe", "Breathe"),
        ("Bre\ud800athe", "Breathe"),
        ("Bre\u2028athe", "Breathe"),
    ],
)
def test_control_characters_are_left_out_and_told(words: str, left: str) -> None:
    plan, findings = read(f"title: {words} # x\n{HEAD}      - in: plank\n", "p.yaml")
    (finding,) = [finding for finding in findings if finding.rule == "control-characters"]
    assert finding.span == Span("p.yaml", 1, 11, 12)
    assert plan
    assert plan.title.value == left


@pytest.mark.parametrize("escape", ["\\e", "\\x07", "\\u202E", "\\x9B", "\\0"])
def test_escaped_ones_are_left_out_too(escape: str) -> None:
    plan, findings = read(f'title: "a{escape}b"\n{HEAD}      - in: plank\n', "p.yaml")
    assert [finding.rule for finding in findings] == ["control-characters"]
    assert plan
    assert plan.title.value == "ab"


def test_marks_of_width_and_direction_that_harm_nobody_go_silently() -> None:
    plan, findings = read(f"title: a\u200bb\u200fc\n{HEAD}      - in: plank\n", "p.yaml")
    assert findings == ()
    assert plan
    assert plan.title.value == "abc"


def test_letters_of_every_script_stay_and_columns_count_characters() -> None:
    plan, findings = read(f"title: Adho Mukha Śvānāsana 下犬\n{HEAD}      - stay: five\n", "p.yaml")
    assert plan is None
    assert findings[0].span == Span("p.yaml", 6, 15, 19)
    plan, _ = read(f"title: Śvānāsana 下犬\n{HEAD}      - in: plank\n", "p.yaml")
    assert plan
    assert plan.title.value == "Śvānāsana 下犬"
    assert plan.title.span == Span("p.yaml", 1, 8, 20)


@pytest.mark.parametrize("end", ["\r\n", "\r", "\n"])
def test_line_ends_and_a_byte_order_mark_do_not_move_places(end: str) -> None:
    text = ("\ufeff" + HEAD + "      - stay: five\n").replace("\n", end)
    _, (finding,) = read(text, "p.yaml")
    assert finding.span == Span("p.yaml", 5, 15, 19)


def test_too_many_findings_are_counted_not_listed() -> None:
    _, findings = read(HEAD + "      - stay: five\n" * 1000, "p.yaml")
    assert len(findings) == limits.FINDINGS + 1
    assert findings[-1].times == 1000 - limits.FINDINGS


def test_a_long_text_is_told_and_cut() -> None:
    _, findings = read(f"title: {'la ' * 5000}\n{HEAD}      - in: plank\n", "p.yaml")
    assert [finding.rule for finding in findings] == ["size"]
