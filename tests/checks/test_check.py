"""Every rule of the check proves itself by its own examples."""

import pytest

from conductor.checks.breath import BREATH
from conductor.checks.care import CARE
from conductor.checks.case import Check
from conductor.checks.check import CHECKS
from conductor.checks.load import LOAD
from conductor.checks.sides import SIDES
from conductor.checks.sight import SIGHT
from conductor.checks.time import TIME
from conductor.checks.ways import WAYS
from conductor.checks.words import WORDS
from conductor.findings import Weight
from tests.checks.examples import found, lines, marked, of, plan_around

FAMILIES = {
    "sides": SIDES,
    "ways": WAYS,
    "breath": BREATH,
    "load": LOAD,
    "words": WORDS,
    "sight": SIGHT,
    "time": TIME,
    "care": CARE,
}
RULES = [(family, one) for family, checks in FAMILIES.items() for one in checks]
_each = pytest.mark.parametrize(("family", "one"), RULES, ids=[one.rule.name for _, one in RULES])


@_each
def test_the_bad_example_is_found_at_its_line_and_nowhere_else(family: str, one: Check) -> None:
    text = plan_around(one.rule.bad)
    assert marked(text), family
    assert lines(found(text, one.rule.name)) == marked(text)
    assert all(each.words for each in found(text, one.rule.name))


@_each
def test_the_good_example_is_left_alone_by_its_family(family: str, one: Check) -> None:
    text = plan_around(one.rule.good)
    assert found(text, one.rule.name) == ()
    assert [each for each in of(text, FAMILIES[family]) if each.weight is Weight.WARNING] == []


@_each
def test_every_rule_says_why_and_where_it_comes_from(family: str, one: Check) -> None:
    rule = one.rule
    assert rule.family == family
    assert all((rule.sentence, rule.why, rule.source, rule.bad, rule.good))


def test_every_family_is_part_of_the_check() -> None:
    assert {one.rule.name for _, one in RULES} <= {one.rule.name for one in CHECKS}
