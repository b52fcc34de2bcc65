"""Every rule the compiler enforces proves itself by its own examples."""

import pytest

from conductor.compiler.rules import COMPILER
from conductor.rules import Rule
from tests.checks.examples import marked, plan_around
from tests.support import findings_of

_each = pytest.mark.parametrize("rule", COMPILER, ids=lambda rule: rule.name)


@_each
def test_the_bad_example_is_found_at_its_line(rule: Rule) -> None:
    text = plan_around(rule.bad, kind="piece")
    found = [one for one in findings_of(text) if one.rule == rule.name]
    assert {one.weight for one in found} == {rule.weight}
    assert sorted({one.span.line for one in found if one.span}) == marked(text)


@_each
def test_the_good_example_gives_no_finding_of_the_rule(rule: Rule) -> None:
    text = plan_around(rule.good, kind="piece")
    assert rule.name not in [one.rule for one in findings_of(text)]


@_each
def test_it_says_why(rule: Rule) -> None:
    assert all((rule.sentence, rule.why, rule.source, rule.bad, rule.good))
