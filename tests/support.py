"""What tests of several rooms share: plans compiled from the text that stands in the test."""

from textwrap import dedent, indent

from conductor.compiler.compile import compile as compile_plan
from conductor.findings import Finding, Weight
from conductor.score.model import Score
from conductor.shapes.catalogue import load


def plan_of(steps: str, head: str = "", flows: str = "") -> str:
    """Write a whole plan around the steps of one part."""
    text = "plan: 1\ntitle: Test\nkind: piece\nbreath: 4 s in, 4 s out\n" + dedent(head)
    if flows:
        text += "flows:\n" + indent(dedent(flows), "  ")
    return text + "parts:\n  - part: One\n    steps:\n" + indent(dedent(steps), "      ")


def score_of(text: str) -> Score:
    """Compile a plan that has no fault."""
    score, findings = compile_plan(text, "plan.yaml", load())
    errors = [finding for finding in findings if finding.weight is Weight.ERROR]
    assert score is not None, errors
    return score


def findings_of(text: str) -> tuple[Finding, ...]:
    """Compile a plan for what there is to say about it."""
    return compile_plan(text, "plan.yaml", load())[1]


def rules_of(text: str) -> list[str]:
    """Name the rules of the findings, in order."""
    return [finding.rule for finding in findings_of(text)]
