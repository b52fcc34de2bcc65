import re

import pytest

from conductor.checks.care_words import GROUPS, applies, codes
from conductor.findings import Weight
from conductor.shapes.catalogue import load
from conductor.shapes.cautions import table
from tests.checks.examples import found, lines, plan_around


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("mixed level", ""),
        ("all who can kneel and stand up with ease", ""),
        ("prenatal", "P"),
        ("pregnancy, second trimester", "P"),
        ("not for pregnancy", ""),
        ("everybody, but not suitable in pregnancy", ""),
        ("people with glaucoma", "GL"),
        ("high blood pressure and sore wrists", "BP WR"),
        ("wrist-free and knee-friendly", "KN WR"),
        ("seniors", "BA"),
        ("lower back pain", "LB"),
        ("sciatica", "DI"),
        ("strong backs, open hips and happy shoulders", ""),
        ("open hearts", ""),
        ("a weak heart", "HT"),
        ("those without knee pain", ""),
        ("stiff necks and tender shoulders", "NK SH"),
    ],
)
def test_the_people_named_are_known_by_their_cautions(text: str, expected: str) -> None:
    assert " ".join(sorted(codes(text))) == expected


def test_every_group_has_a_caution_of_the_catalogue_and_concerns_some_shape() -> None:
    shapes = load().shapes.values()
    for group in GROUPS:
        assert table()[group.code].source
        assert any(applies(group.code, shape) for shape in shapes)


@pytest.mark.parametrize(
    "shape", ["downward-dog", "standing-fold", "plow", "headstand", "handstand", "shoulderstand"]
)
def test_glaucoma_concerns_what_is_upside_down(shape: str) -> None:
    """Jasien et al., PLoS ONE 2015;10:e0144505, for downward dog, standing fold and plow."""
    assert applies("GL", load().shapes[shape])


@pytest.mark.parametrize(
    "shape", ["crocodile", "cobra", "bow", "wheel", "headstand", "marichis-twist"]
)
def test_pregnancy_concerns_belly_backbends_twists_and_inversions(shape: str) -> None:
    assert applies("P", load().shapes[shape])


@pytest.mark.parametrize("shape", ["mountain", "easy-seat", "bound-angle", "legs-up-the-wall"])
def test_pregnancy_leaves_the_easy_shapes_alone(shape: str) -> None:
    assert not applies("P", load().shapes[shape])


PRENATAL = (
    "- come to: easy seat\n- free: 20 s\n  to: crocodile\n{way}- in: cobra\n{way}"
    "- out: crocodile\n{way}- in: cobra\n{way}"
)


def test_one_finding_for_a_caution_names_all_shapes_and_their_places() -> None:
    text = plan_around(PRENATAL.format(way=""), head="for: prenatal\n")
    (one,) = found(text, "caution-for-group")
    assert "crocodile and cobra carry it" in one.words
    assert lines((one,)) == [10]
    assert [place.line for place, _ in one.also] == [12]


def test_nothing_calls_a_shape_safe_and_advice_is_deferred_to() -> None:
    for level in ("prenatal", "glaucoma", "beginners", "sore knees"):
        steps = "- come to: downward dog\n- free: 20 s\n  to: headstand"
        for one in found(plan_around(steps, head=f"for: {level}\n"), "caution-for-group"):
            assert "medical advice" in one.hint
            assert not re.search(r"\bsafe", f"{one.words} {one.hint}")


def test_where_every_shape_has_another_way_a_caution_is_a_remark() -> None:
    text = plan_around(PRENATAL.format(way="  or: sit tall instead\n"), head="for: prenatal\n")
    assert [one.weight for one in found(text, "caution-for-group")] == [Weight.REMARK]


def test_two_cautions_are_two_findings_at_two_places_or_counted_as_one() -> None:
    steps = "- come to: downward dog\n- in: plank\n- out: child's pose"
    text = plan_around(steps, head="for: sore knees and weak wrists\n")
    words = [one.words for one in found(text, "caution-for-group")]
    assert any("knee trouble" in one for one in words)
    assert any("wrist trouble" in one for one in words)


def test_beginners_are_told_of_headstand_and_lotus() -> None:
    steps = "- come to: downward dog\n- free: 20 s\n  to: headstand"
    (one,) = found(plan_around(steps, head="for: beginners\n"), "caution-for-group")
    assert "Cramer" in one.hint
    assert found(plan_around(steps, head="for: not for beginners\n"), "caution-for-group") == ()


CROW = "- come to: downward dog\n- in: plank\n- out: garland\n- in: same\n- out: crow\n"
DOWN = "- free: 20 s\n  to: wheel\n  ease: bridge\n"


def test_some_strong_shapes_without_another_way_are_a_remark_none_with_one_a_warning() -> None:
    assert [one.weight for one in found(plan_around(CROW), "no-gentler-way")] == [Weight.WARNING]
    some = found(plan_around(CROW + DOWN), "no-gentler-way")
    assert [(one.weight, one.words) for one in some] == [(Weight.REMARK, "crow has no gentler way")]
    assert "ease: garland" in some[0].hint


@pytest.mark.parametrize(
    ("props", "step", "weights"),
    [
        ("", "- in: supported bridge", ["warning"]),
        ("props: two bricks\n", "- in: supported bridge", []),
        ("props: [bolster]\n", "- in: supported bridge", []),
        ("", "- free: 20 s\n  to: legs up the wall", ["warning"]),
        ("props: a wall\n", "- free: 20 s\n  to: legs up the wall", []),
        ("", "- in: bridge\n  with: strap around the thighs", ["warning"]),
        ("props: belts\n", "- in: bridge\n  with: strap around the thighs", []),
        ("", "- in: bridge\n  ease: block under the hips", ["remark"]),
        ("", "- in: bridge\n  say: Lift up, take your block.", ["remark"]),
        ("", "- in: bridge\n  say: Do not block the breath.", []),
        ("", "- in: bridge\n  ease: at the wall", []),
    ],
)
def test_props_are_listed_where_they_are_used(props: str, step: str, weights: list[str]) -> None:
    text = plan_around(f"- come to: constructive rest\n{step}\n", head=props)
    assert [one.weight for one in found(text, "prop-not-listed")] == weights


def test_a_prop_used_often_is_told_once() -> None:
    steps = "- come to: constructive rest\n- rounds: 3\n  steps:\n    - in: bridge\n"
    text = plan_around(steps + "      with: block\n    - out: constructive rest\n      with: block")
    assert len(found(text, "prop-not-listed")) == 1
