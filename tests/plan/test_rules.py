import pytest

from conductor.plan.reader import read
from conductor.plan.rules import LANGUAGE
from conductor.rules import Rule


@pytest.mark.parametrize("rule", LANGUAGE, ids=lambda rule: rule.name)
def test_the_bad_example_breaks_this_rule_and_no_other(rule: Rule) -> None:
    _, findings = read(rule.bad, "bad.yaml")
    assert {finding.rule for finding in findings} == {rule.name}
    assert all(finding.weight is rule.weight for finding in findings)
    assert all(finding.hint for finding in findings)


@pytest.mark.parametrize("rule", LANGUAGE, ids=lambda rule: rule.name)
def test_the_good_example_is_without_findings(rule: Rule) -> None:
    plan, findings = read(rule.good, "good.yaml")
    assert plan is not None
    assert findings == ()


def test_names_are_used_once_and_every_rule_gives_its_reason() -> None:
    assert len({rule.name for rule in LANGUAGE}) == len(LANGUAGE)
    assert all(rule.sentence and rule.why for rule in LANGUAGE)
