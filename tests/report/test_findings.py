import json

from conductor.findings import Finding, Weight
from conductor.report.findings import (
    FORMAT,
    JSON_HEAD,
    Counts,
    count,
    file_line,
    file_text,
    json_row,
    json_tail,
    total_line,
)
from conductor.spans import Span

ERROR = Finding("a-rule", Weight.ERROR, "gone wrong", Span("p.yaml", 2, 3, 7), "mend it")
REMARK = Finding(
    "b-rule",
    Weight.REMARK,
    "„odd“",
    None,
    also=((Span("p.yaml", 1, 1), "the left side"),),
    times=9,
)


def test_findings_are_counted_by_weight() -> None:
    assert count([ERROR, REMARK, REMARK]) == Counts(1, 0, 2)
    assert Counts(1, 0, 2) + Counts(0, 3, 1) == Counts(1, 3, 3)
    assert str(Counts(1, 0, 2)) == "1 error, 2 remarks"
    assert str(Counts(0, 12_000, 0)) == "12,000 warnings"
    assert str(Counts()) == "nothing to say"


def test_the_text_of_a_plan_shows_each_finding_with_its_line() -> None:
    assert file_text([ERROR, REMARK], {"p.yaml": "one\n  two three"}) == (
        "p.yaml:2:3: error: gone wrong [a-rule]\n"
        "    2 |   two three\n"
        "      |   ^^^^\n"
        "  = mend it\n"
        "\n"
        "remark: „odd“ (9 times) [b-rule]\n"
        "  p.yaml:1:1: the left side\n"
        "    1 | one\n"
        "      | ^\n"
        "\n"
    )
    assert file_text([], {}) == ""


def test_plans_are_summed_up() -> None:
    assert file_line("p.yaml", Counts(0, 1, 0)) == "p.yaml: 1 warning"
    assert total_line(3, Counts(), 0) == "3 plans: nothing to say"
    assert total_line(1200, Counts(2, 0, 1), 2, 1) == (
        "1,200 plans: 2 errors, 1 remark in 2 of them; 1 file is no plan and was passed over"
    )


def test_json_has_every_key_whatever_the_finding_has() -> None:
    assert json.loads(json_row(ERROR, "p.yaml")) == {
        "file": "p.yaml",
        "line": 2,
        "column": 3,
        "end_column": 7,
        "rule": "a-rule",
        "weight": "error",
        "words": "gone wrong",
        "hint": "mend it",
        "also": [],
        "times": 1,
    }
    row = json.loads(json_row(REMARK, "p.yaml"))
    assert (row["file"], row["line"], row["column"], row["end_column"]) == ("p.yaml", *[None] * 3)
    assert row["also"] == [
        {"file": "p.yaml", "line": 1, "column": 1, "end_column": None, "words": "the left side"}
    ]
    assert (row["times"], row["hint"], row["words"]) == (9, "", "„odd“")


def test_the_json_closes_with_the_sum() -> None:
    text = JSON_HEAD + json_row(ERROR, "p.yaml") + json_tail(1, Counts(1), failed=True)
    assert json.loads(text) == {
        "format": FORMAT,
        "findings": [json.loads(json_row(ERROR, "p.yaml"))],
        "summary": {
            "files": 1,
            "errors": 1,
            "warnings": 0,
            "remarks": 0,
            "failed": True,
            "passed_over": [],
        },
    }
