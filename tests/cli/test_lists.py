import pytest
from click.testing import CliRunner

from conductor.checks.check import CHECKS
from conductor.checks.limits import LIMITS
from conductor.cli import cli
from conductor.cli.rulebook import RULES, limits_of, may_be_off


def said(*words: str) -> str:
    done = CliRunner().invoke(cli, words)
    assert done.exit_code == 0, done.output
    return done.output


def test_every_rule_is_listed_once_and_has_a_page() -> None:
    names = [rule.name for rule in RULES]
    assert len(names) == len(set(names))
    listed = said("rules")
    for rule in RULES:
        assert f" {rule.name} " in listed
        page = said("rule", rule.name)
        assert page.startswith(f"{rule.name}  ({rule.weight}, {rule.family})\n")
        assert "\nWhy: " in page
        assert "\nSource: " in page
        example = f"{rule.bad}\n{rule.good}".splitlines()
        prose = [line for line in page.splitlines() if line.strip() not in map(str.strip, example)]
        assert max(map(len, prose)) <= 96


def test_every_threshold_belongs_to_a_rule_and_stands_on_its_page() -> None:
    named = {limit.name for check in CHECKS for limit in limits_of(check.rule.name)}
    assert named == {limit.name for limit in LIMITS}
    page = said("rule", "half-breath-length")
    assert "    shortest half breath: 2 s (" in page
    assert "    longest half breath: 8 s (" in page
    assert [limit.name for limit in limits_of("breath-ratio")] == [
        "longest exhale",
        "longest inhale",
    ]
    assert limits_of("unknown-shape") == ()


def test_only_what_a_plan_can_mean_may_be_switched_off() -> None:
    assert "check: {off: {floor-trips: the reason}}" in said("rule", "floor-trips")
    assert not may_be_off("unknown-shape")
    assert "off:" not in said("rule", "unknown-shape")


@pytest.mark.parametrize(
    ("slip", "meant"), [("brath-twice", "breath-twice"), ("one-side", "one-side-only")]
)
def test_an_unknown_rule_is_answered_with_the_nearest(slip: str, meant: str) -> None:
    done = CliRunner().invoke(cli, ["rule", slip])
    assert done.exit_code == 1
    assert f"no rule is called {slip}; did you mean {meant}?" in done.output


def test_a_rule_unlike_any_is_answered_with_where_to_look() -> None:
    done = CliRunner().invoke(cli, ["rule", "xq"])
    assert "`conductor rules` lists them" in done.output
