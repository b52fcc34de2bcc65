import pytest

from conductor.checks.case import Check
from conductor.checks.ways import WAYS
from tests.checks.examples import found, lines, marked, plan_around

_each = pytest.mark.parametrize("one", WAYS, ids=lambda one: one.rule.name)


@_each
def test_the_bad_example_is_found_at_its_line_and_nowhere_else(one: Check) -> None:
    text = plan_around(one.rule.bad)
    assert marked(text)
    assert lines(found(text, one.rule.name)) == marked(text)


@_each
def test_the_good_example_is_left_alone(one: Check) -> None:
    assert found(plan_around(one.rule.good), one.rule.name) == ()
