"""Findings of whole plans as text and as JSON, counted: what `conductor check` says.

The JSON is one object, one finding a line: JSON_HEAD, the rows with commas between, `json_tail`.
`format` is 1; it rises when a key goes or means something else, not when one is added. `findings`
is a list in the order of files and lines; each has `file`, `line`, `column` and `end_column` (from
1; the column after the last; null where there is no one place), `rule`, `weight` (error, warning
or remark), `words`, `hint` ("" for none), `also` (the cause elsewhere: a list of file, line,
column, end_column and words) and `times` (how often the line has the fault). `summary` has
`files`, `errors`, `warnings`, `remarks`, `failed` (whether the exit code is 1) and `passed_over`
(files in folders that are no plans).
"""

from collections.abc import Iterable, Mapping, Sequence

from conductor.findings import Finding, Weight
from conductor.plan.show import Paint, plain, show
from conductor.spans import Span
from conductor.values import Struct

FORMAT = 1


class Counts(Struct, frozen=True):
    """How many findings of each weight."""

    errors: int = 0
    warnings: int = 0
    remarks: int = 0

    def __add__(self, other: "Counts") -> "Counts":
        return Counts(
            self.errors + other.errors,
            self.warnings + other.warnings,
            self.remarks + other.remarks,
        )

    def __str__(self) -> str:
        pairs = (("error", self.errors), ("warning", self.warnings), ("remark", self.remarks))
        words = [f"{n:,} {word}{'' if n == 1 else 's'}" for word, n in pairs if n]
        return ", ".join(words) or "nothing to say"


def count(findings: Iterable[Finding]) -> Counts:
    """Count findings by weight; one that occurs nine times is one."""
    weights = [finding.weight for finding in findings]
    return Counts(*(weights.count(weight) for weight in Weight))


def file_text(findings: Sequence[Finding], sources: Mapping[str, str], paint: Paint = plain) -> str:
    """The findings of one plan with their lines, a blank line after each; "" for none."""
    return f"{show(findings, sources, paint)}\n" if findings else ""


def file_line(name: str, counts: Counts, paint: Paint = plain) -> str:
    """The last line about one plan: what was found."""
    return f"{paint(name, 'place')}: {counts}"


def total_line(files: int, counts: Counts, touched: int, passed_over: int = 0) -> str:
    """The last line about all plans."""
    line = f"{files:,} plans: {counts}"
    if touched:
        line += f" in {touched:,} of them"
    if passed_over:
        what = "file is no plan and was" if passed_over == 1 else "files are no plans and were"
        line += f"; {passed_over:,} {what} passed over"
    return line


def json_row(finding: Finding, file: str) -> str:
    """One finding as one line of JSON."""
    row: dict[str, object] = {
        **_place(finding.span, file),
        "rule": finding.rule,
        "weight": finding.weight.value,
        "words": finding.words,
        "hint": finding.hint,
        "also": [{**_place(span, file), "words": words} for span, words in finding.also],
        "times": finding.times,
    }
    return _json(row)


def _json(value: dict[str, object]) -> str:
    import json  # noqa: PLC0415 -- only for --json

    return json.dumps(value, ensure_ascii=False)


def _place(span: Span | None, file: str) -> dict[str, object]:
    if span is None:
        return {"file": file, "line": None, "column": None, "end_column": None}
    end = span.end if span.end > span.column else None
    return {"file": span.file, "line": span.line, "column": span.column, "end_column": end}


JSON_HEAD = f'{{"format": {FORMAT},\n"findings": ['


def json_tail(files: int, counts: Counts, *, failed: bool, passed_over: Sequence[str] = ()) -> str:
    """What closes the JSON after the findings: the summary."""
    summary: dict[str, object] = {
        "files": files,
        "errors": counts.errors,
        "warnings": counts.warnings,
        "remarks": counts.remarks,
        "failed": failed,
        "passed_over": list(passed_over),
    }
    return f'],\n"summary": {_json(summary)}}}\n'
