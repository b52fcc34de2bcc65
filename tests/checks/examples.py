"""What the tests of rules share: an example as a whole plan, and what a check finds in it."""

from textwrap import indent

from conductor.checks.case import Case, Check
from conductor.checks.check import check
from conductor.checks.limits import limits
from conductor.compiler.compile import compiled
from conductor.findings import Finding, Weight
from conductor.plan.reader import read
from conductor.settings import Settings
from conductor.shapes.catalogue import load
from conductor.timing.cues import cues

HERE = "# here"


def plan_around(example: str, kind: str = "class", head: str = "") -> str:
    """Write a whole plan around the steps of an example, which may bring a head of its own."""
    if "parts:\n" in example:
        return f"plan: 1\ntitle: Test\nkind: {kind}\nbreath: 4 s in, 4 s out\n{head}{example}\n"
    top, steps = "", example
    if not example.lstrip().startswith("- "):
        top, _, below = example.partition("steps:\n")
        steps = "\n".join(line.removeprefix("  ") for line in below.splitlines())
    about = f"plan: 1\ntitle: Test\nkind: {kind}\n"
    if "breath:" not in head:
        about += "breath: 4 s in, 4 s out\n"
    return f"{about}{head}{top}parts:\n  - part: One\n    steps:\n{indent(steps, ' ' * 6)}\n"


def case_of(text: str) -> Case:
    """Compile a plan that has no error, and put before a rule what it looks at."""
    plan, findings = read(text, "plan.yaml")
    assert plan is not None, findings
    done = compiled(plan, load())
    errors = [one for one in (*findings, *done.findings) if one.weight is Weight.ERROR]
    assert done.score is not None, errors
    spoken, _ = cues(done.score, {}, Settings())
    return Case(done.score, spoken, done.shapes, limits(done.score.meta.options))


def checked(text: str) -> tuple[Finding, ...]:
    """All that the check finds in a plan."""
    case = case_of(text)
    return check(case.score, case.cues, case.shapes)


def found(text: str, rule: str) -> tuple[Finding, ...]:
    """What one rule finds in a plan."""
    return tuple(one for one in checked(text) if one.rule == rule)


def of(text: str, family: tuple[Check, ...]) -> tuple[Finding, ...]:
    """What the rules of a family find in a plan."""
    names = {one.rule.name for one in family}
    return tuple(one for one in checked(text) if one.rule in names)


def marked(text: str) -> list[int]:
    """The lines marked as those where something is to be found."""
    return [number for number, line in enumerate(text.splitlines(), 1) if HERE in line]


def lines(findings: tuple[Finding, ...]) -> list[int]:
    """The lines of findings."""
    return [one.span.line for one in findings if one.span]
