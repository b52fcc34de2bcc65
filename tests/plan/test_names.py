import time
from collections.abc import Callable

from conductor.findings import Finding, Weight
from conductor.plan import limits
from conductor.plan.model import Block, Plan
from conductor.plan.reader import read
from conductor.spans import Span

Told = Callable[..., tuple[Finding, ...]]


def test_an_unknown_flow_is_told_with_the_nearest_and_that_one_is_not_called_unused(
    told: Told,
) -> None:
    (finding,) = told("- flow: lnik", "flows:\n  link:\n    - in: plank\n")
    assert (finding.rule, finding.span) == ("unknown-flow", Span("p.yaml", 8, 15, 19))
    assert "Write 'link'" in finding.hint


def test_a_call_finds_its_flow_in_any_case(whole: Callable[[str], Plan]) -> None:
    plan = whole(
        "plan: 1\nflows:\n  Long Way:\n    - in: plank\n"
        "parts:\n  - part: A\n    steps:\n      - rounds: 2\n        steps:\n"
        "          - flow: long way\n"
    )
    outer = plan.parts[0].steps[0]
    assert isinstance(outer, Block)
    inner = outer.steps[0]
    assert isinstance(inner, Block)
    assert inner.flow
    assert inner.flow.value == "Long Way"
    assert inner.flow.value in plan.flows


def test_a_circle_of_flows_is_named_at_the_call_that_closes_it(told: Told) -> None:
    head = "flows:\n  a:\n    - flow: b\n  b:\n    - flow: c\n  c:\n    - flow: a\n"
    (finding,) = told("- flow: a", head)
    assert finding.rule == "flow-in-itself"
    assert "a > b > c > a" in finding.words
    assert finding.span == Span("p.yaml", 8, 13, 14)


def test_two_ways_to_the_same_flow_are_no_circle(told: Told) -> None:
    head = (
        "flows:\n  a:\n    - flow: b\n    - flow: c\n  b:\n    - flow: c\n  c:\n    - in: plank\n"
    )
    assert told("- flow: a", head) == ()


def test_an_unused_flow_is_a_remark_even_if_another_unused_one_calls_it(told: Told) -> None:
    findings = told("- in: x", "flows:\n  a:\n    - flow: b\n  b:\n    - in: plank\n")
    assert [finding.rule for finding in findings] == ["unused-flow", "unused-flow"]
    assert all(finding.weight is Weight.REMARK for finding in findings)


def test_flows_in_other_ways_and_between_count_as_called(told: Told) -> None:
    head = "flows:\n  a:\n    - in: plank\n  b:\n    - in: plank\n"
    text = (
        "- in: x\n  ease:\n    steps:\n      - flow: a\n"
        "- each side: yes\n  steps:\n    - in: x\n  between:\n    - flow: b"
    )
    assert told(text, head) == ()


def test_flows_without_parts_are_a_file_of_their_own() -> None:
    plan, findings = read("plan: 1\nflows:\n  a:\n    - in: plank\n", "p.yaml")
    assert findings == ()
    assert plan
    assert list(plan.flows) == ["a"]


def test_a_plan_that_grows_beyond_all_bounds_is_refused_at_once(told: Told) -> None:
    rows = ["f0:\n    - in: x\n"]
    rows += [f"f{n}:\n    - flow: f{n - 1}\n      rounds: 200\n" for n in range(1, 8)]
    began = time.perf_counter()
    findings = told("- in: x\n- flow: f7", "flows:\n  " + "  ".join(rows))
    assert time.perf_counter() - began < 2
    assert [finding.rule for finding in findings] == ["limit"]
    assert "half breaths" in findings[0].words


def test_flows_call_each_other_only_so_deep(told: Told) -> None:
    def chain(length: int) -> tuple[Finding, ...]:
        rows = [f"f{n}:\n    - flow: f{n - 1}\n" for n in range(1, length)]
        return told(
            f"- flow: f{length - 1}", "flows:\n  " + "  ".join(["f0:\n    - in: x\n", *rows])
        )

    assert chain(limits.FLOW_DEPTH) == ()
    assert [finding.rule for finding in chain(3000)] == ["size"]
