"""Small plans for the tests of the reader."""

from collections.abc import Callable

import pytest

from conductor.findings import Finding
from conductor.plan.model import Plan, Step
from conductor.plan.reader import read

Steps = Callable[..., tuple[Step, ...]]
Told = Callable[..., tuple[Finding, ...]]


def wrapped(steps: str, head: str = "") -> str:
    indented = "".join(f"      {line}\n" for line in steps.splitlines())
    return f"plan: 1\n{head}parts:\n  - part: All\n    steps:\n{indented}"


@pytest.fixture
def whole() -> Callable[[str], Plan]:
    """Read a whole plan that must be without findings."""

    def reading(text: str) -> Plan:
        plan, findings = read(text, "p.yaml")
        assert findings == ()
        assert plan is not None
        return plan

    return reading


@pytest.fixture
def steps(whole: Callable[[str], Plan]) -> Steps:
    """Read steps of one part that must be without findings; `head` goes above the parts."""
    return lambda text, head="": whole(wrapped(text, head)).parts[0].steps


@pytest.fixture
def told() -> Told:
    """What is found about the steps of one part; their first line is line 5 without a head."""
    return lambda text, head="": read(wrapped(text, head), "p.yaml")[1]
