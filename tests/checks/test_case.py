from pathlib import Path

import pytest

from conductor.body.moves import Do
from conductor.checks.breath import BREATH
from conductor.checks.case import Check, finding, gathered
from conductor.checks.check import CHECKS, allowed, check
from conductor.checks.limits import LIMITS, limits
from conductor.checks.limits.model import number
from conductor.checks.settings import HEARD, SWITCHED_OFF
from conductor.checks.sides import SIDES
from conductor.checks.ways import WAYS
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.sides import Side
from conductor.spans import Span
from tests.checks.examples import case_of, found, of, plan_around

MINE = (*SIDES, *WAYS, *BREATH)
ROOT = Path(__file__).parents[2]
SALUTATIONS = sorted((ROOT / "plans").glob("salutation-*.yaml"))
PLANS = [*sorted((ROOT / "plans").glob("*.yaml")), ROOT / "tests/golden/harbour-crossing.yaml"]

RULE = Rule("slack", Weight.WARNING, "test", "Ropes are taut.", "Slack ropes trip people.")
HERE, THERE = Span("plan.yaml", 3, 1), Span("plan.yaml", 7, 1)


# -- published and shipped -------------------------------------------------------------------------


@pytest.mark.parametrize("path", SALUTATIONS, ids=lambda path: path.stem)
def test_the_published_salutations_give_no_finding_at_all(path: Path) -> None:
    assert of(path.read_text(encoding="utf-8"), MINE) == ()


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_sound_plans_give_no_error_and_no_warning(path: Path) -> None:
    heavy = [
        one for one in of(path.read_text(encoding="utf-8"), MINE) if one.weight != Weight.REMARK
    ]
    assert heavy == []


# -- one finding for one fault ---------------------------------------------------------------------


def test_findings_at_one_place_are_counted_as_one_as_heavy_as_the_heaviest() -> None:
    light = finding(RULE, "a little", HERE, weight=Weight.REMARK)
    heavy = finding(RULE, "a lot", HERE)
    elsewhere = finding(RULE, "there", THERE)
    one, two = gathered([light, heavy, light, elsewhere])
    assert (one.words, one.weight, one.times) == ("a lot", Weight.WARNING, 3)
    assert (two.words, two.times) == ("there", 1)


def test_a_matter_of_taste_is_one_finding_with_the_total() -> None:
    many = [finding(RULE, f"at {line}", Span("plan.yaml", line, 1)) for line in range(1, 10)]
    case = case_of(plan_around("- come to: mountain\n"))
    (one,) = Check(RULE, lambda _: many, once=True)(case)
    assert one.span == many[0].span
    assert one.times == 9
    assert [span.line for span, _ in one.also] == [2, 3, 4]


# -- ways ------------------------------------------------------------------------------------------


def test_shapes_passed_are_taken_on_the_side_that_is_easiest() -> None:
    case = case_of(
        plan_around(
            "- come to: downward dog\n- in: crescent lunge\n  side: left\n  through: low lunge\n"
            "- out: same\n- stay: 1 breath\n",
            kind="piece",
        )
    )
    step, rise = case.ways[1]
    assert step.did(Do.STEP_FORWARD) == (Side.LEFT,)
    assert (step.effort, rise.effort) == (1, 1)
    assert case.ways[0] == case.ways[2] == case.ways[3] == ()


def test_all_that_is_said_for_a_moment_is_one_text() -> None:
    case = case_of(
        plan_around("- come to: mountain\n  say: Stand.\n- in: tree\n  side: left\n- out: same\n")
    )
    assert case.told[0] == "Stand."
    assert case.told[1] == "Left sole to the right leg, tree. Inhale."
    assert len(case.told) == len(case.score.moments)


# -- what a plan says to the check -----------------------------------------------------------------

SETTINGS = (SWITCHED_OFF, HEARD)


@pytest.mark.parametrize("rule", SETTINGS, ids=lambda rule: rule.name)
def test_the_examples_of_settings_hold(rule: Rule) -> None:
    assert len(found(plan_around(rule.bad), rule.name)) == 1
    assert found(plan_around(rule.good), rule.name) == ()


def test_a_rule_switched_off_is_silent_and_reported_with_its_reason() -> None:
    text = "- come to: mountain\n- in: tree\n  side: right\n- stay: 3 breaths\n- out: mountain\n"
    assert len(found(plan_around(text), "one-side-only")) == 1
    off = plan_around(text, head="check: {off: {one-side-only: a lesson on one leg}}\n")
    assert found(off, "one-side-only") == ()
    (told,) = found(off, "rule-off")
    assert told.weight is Weight.REMARK
    assert told.words == "rule one-side-only is switched off: a lesson on one leg"


def test_each_rule_switched_off_is_reported() -> None:
    off = "check: {off: {one-side-only: a lesson on one leg, unequal-sides: the same}}\n"
    assert len(found(plan_around("- come to: mountain\n", head=off), "rule-off")) == 2


def test_a_place_is_given_where_it_is_known() -> None:
    case = case_of(plan_around("- come to: mountain\n", head="check: {off: {one-side-onyl: no}}\n"))
    place = Span("plan.yaml", 5, 9)
    name = "check.off.one-side-onyl"
    off, unknown = check(case.score, case.cues, case.shapes, places={name: place})[-2:]
    assert (off.rule, unknown.rule) == ("rule-off", "unknown-setting")
    assert off.span == unknown.span == place
    assert unknown.hint == "write one-side-only"


def test_rules_of_other_rooms_can_be_named() -> None:
    case = case_of(plan_around("- come to: mountain\n", head="check: {off: {side-open: ok}}\n"))
    near = check(case.score, case.cues, case.shapes)
    known = check(case.score, case.cues, case.shapes, elsewhere=["side-open"])
    assert [one.rule for one in near if one.rule == "unknown-setting"] == ["unknown-setting"]
    assert [one.rule for one in known if one.rule == "unknown-setting"] == []


def test_findings_of_other_rooms_are_left_out_save_errors() -> None:
    remark, error = (
        Finding("side-open", weight, "", None) for weight in (Weight.REMARK, Weight.ERROR)
    )
    other = Finding("unused-flow", Weight.REMARK, "", None)
    assert allowed([remark, error, other], {"check.off.side-open": "why"}) == (error, other)


def test_a_threshold_is_read_as_people_write_it() -> None:
    assert [number(text) for text in ("9", "9.5", "10 %", "8 s", "", "some")] == [
        *(9, 9.5, 10, 8),
        *(None, None),
    ]
    assert limits({"check.longest half breath": "9 s"})["longest half breath"] == 9
    assert limits({"check.longest half breath": "long"})["longest half breath"] == 8


def test_a_threshold_that_is_no_number_or_unknown_is_told() -> None:
    text = plan_around("- come to: mountain\n", head="check: {longest half breath: long}\n")
    (one,) = found(text, "unknown-setting")
    assert "no number" in one.words
    text = plan_around("- come to: mountain\n", head="check: {longest halfbreath: 9}\n")
    (one,) = found(text, "unknown-setting")
    assert one.hint == "write longest half breath"


def test_names_of_rules_and_thresholds_are_unique_and_say_where_they_come_from() -> None:
    rules = [one.rule.name for one in CHECKS]
    assert len(set(rules)) == len(rules)
    names = [limit.name for limit in LIMITS]
    assert len(set(names)) == len(names)
    assert all(limit.unit and limit.source for limit in LIMITS)
