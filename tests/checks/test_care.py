import pytest

from conductor.checks.care import CARE
from conductor.checks.case import Check
from conductor.findings import Weight
from tests.checks.examples import found, lines, marked, of, plan_around

_each = pytest.mark.parametrize("one", CARE, ids=lambda one: one.rule.name)


@_each
def test_the_bad_example_is_found_at_its_line_and_nowhere_else(one: Check) -> None:
    text = plan_around(one.rule.bad)
    bad = found(text, one.rule.name)
    assert marked(text)
    assert lines(bad) == marked(text)
    assert all(each.weight is one.rule.weight and each.words and each.hint for each in bad)


@_each
def test_the_good_example_is_left_alone(one: Check) -> None:
    text = plan_around(one.rule.good)
    assert found(text, one.rule.name) == ()
    assert [each for each in of(text, CARE) if each.weight is Weight.WARNING] == []
