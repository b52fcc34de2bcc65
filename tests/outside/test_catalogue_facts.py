"""The catalogue and the check against published rules; each names its source beside it."""

from pathlib import Path

import pytest

from conductor.cli.opening import opened
from conductor.findings import Weight
from conductor.shapes.catalogue import load
from conductor.shapes.cautions import legend
from conductor.sides import Side
from tests.support import plan_of, score_of

HERE = Path(__file__).parent
PLANS = HERE.parents[1] / "plans"
SHAPES = load().shapes


def check(tmp_path: Path, steps: str) -> list[tuple[str, int]]:
    """What `conductor check` says of some steps: rules with all their lines, counted from 1."""
    text = plan_of(steps)
    first = text[: text.index("    steps:\n")].count("\n") + 1
    path = tmp_path / "plan.yaml"
    path.write_text(text, "utf-8")
    places = {
        (one.rule, span.line - first)
        for one in opened(path).findings
        for span in (one.span, *(place for place, _ in one.also))
        if span
    }
    return sorted(places)


# B. K. S. Iyengar, Light on Yoga, p.64 (seen): revolved triangle "is a counter pose to" extended
# triangle.
def test_revolved_triangle_counters_triangle() -> None:
    assert "revolved-triangle" in SHAPES["triangle"].undoes


# Light on Yoga, p.314 (seen; p.304 says the same): repeat on the other side for the same length of
# time, "reading right for left and left for right".
def test_the_other_side_reads_right_for_left_and_lasts_as_long() -> None:
    steps = """
    - come to: mountain
    - each side: yes
      steps:
        - in: five-pointed star
        - out: triangle
          say: Right hand to the right shin, left arm up.
        - stay: 3 breaths
        - in: five-pointed star
        - out: mountain
    """
    score = score_of(plan_of(steps))
    passes = {
        side: [moment for moment in score.moments if moment.pass_side is side] for side in Side
    }
    right, left = passes[Side.RIGHT], passes[Side.LEFT]
    assert [one.length for one in right] == [one.length for one in left]
    assert [one.shape for one in right] == [one.shape for one in left]
    swap = {"right": "left", "left": "right", "Right": "Left", "Left": "Right"}
    read = [" ".join(swap.get(word, word) for word in one.words.full.split()) for one in right]
    assert read == [one.words.full for one in left]
    assert [one.side and one.side.other for one in right] == [one.side for one in left]
    assert [one.stance.mirrored() for one in right] == [one.stance for one in left]


@pytest.mark.parametrize(("second", "rule"), [(3, []), (2, ["unequal-sides"])])
def test_a_second_side_that_is_shorter_is_told(
    tmp_path: Path, second: int, rule: list[str]
) -> None:
    found = check(
        tmp_path,
        f"- come to: mountain\n- in: tree\n  side: right\n- stay: 3 breaths\n- out: mountain\n"
        f"- in: tree\n  side: left\n- stay: {second} breaths\n- out: mountain\n",
    )
    assert sorted({name for name, _ in found if name == "unequal-sides"}) == rule


# L. Kaminoff and A. Matthews, Yoga Anatomy, 2nd ed. 2012, p.38 (seen), of cat and cow: "the shape
# change of spinal flexion is an exhalation and the shape change of spinal extension is an
# inhalation".
def test_flexion_exhales_and_extension_inhales_in_cat_and_cow(tmp_path: Path) -> None:
    cat, cow = SHAPES["cat"], SHAPES["cow"]
    assert (cat.spine, cat.breath) == ("flexion", "out")
    assert (cow.spine, cow.breath) == ("extension", "in")
    assert "p.38" in cat.sources["breath"]
    assert "p.38" in cow.sources["breath"]
    as_printed = "- come to: all fours\n- rounds: 5\n  steps:\n    - in: cow\n    - out: cat\n"
    assert check(tmp_path, as_printed) == []
    the_other_way = as_printed.replace("cow", "x").replace("cat", "cow").replace("x", "cat")
    assert check(tmp_path, the_other_way) == [("breath-against", 4), ("breath-against", 5)]


# The same rule over the catalogue (Feuerstein and Payne, seen as published text: inhale into
# backbends, exhale into forward bends, side bends and twists). Where traditions differ the
# catalogue says so in words; these few are entered by sinking or by opening (from memory):
ENTERED_OTHERWISE = {
    "puppy",  # the chest sinks toward the floor
    "frog",  # the hands press the feet down
    "reclined-hero",  # one lies back
    "full-split",  # the hips sink
    "supported-bridge",  # the hips settle on the block
    "warrior-one-with-cactus-arms",  # the arms come down from overhead
    "twisted-lunge-with-hand-down",  # the arm opens upward
    "wide-legged-twist",  # the arm opens upward
}


def test_folds_exhale_and_backbends_inhale_or_the_catalogue_says_who_differs() -> None:
    usual = {"flexion": "out", "extension": "in", "rotation": "out"}
    odd = {
        shape.id
        for shape in SHAPES.values()
        if shape.breath not in {usual.get(shape.spine, shape.breath), "either"}
        and not shape.breath_note
    }
    assert odd == ENTERED_OTHERWISE


# Jasien et al., PLoS ONE 2015;10:e0144505 (seen): pressure in the eye after two minutes head down,
# mmHg before and after, people with glaucoma.
PRESSURE = {
    "downward-dog": (17, 28),
    "standing-fold": (17, 27),
    "plow": (18, 24),
    "legs-up-the-wall": (17, 21),
}


@pytest.mark.parametrize("name", PRESSURE)
def test_where_pressure_in_the_eye_was_seen_to_rise_glaucoma_is_named(name: str) -> None:
    before, after = PRESSURE[name]
    assert after > before
    assert "GL" in SHAPES[name].cautions
    assert "glaucoma" in legend()["GL"]


# The published salutations (sources in their plans' tests) are right as they are: the counted ones
# are one movement to a half breath throughout, and nothing in them is against the rules of breath.
SAID: dict[str, set[tuple[str, str]]] = {
    "salutation-a": set(),
    "salutation-b": set(),
    "salutation-twelve": set(),
}


@pytest.mark.parametrize("name", SAID)
def test_of_the_published_salutations_nothing_wrong_is_said(name: str) -> None:
    found = opened(PLANS / f"{name}.yaml").findings
    assert {(str(one.weight), one.rule) for one in found} == SAID[name]


# Of the 45 minute protocol of the Ministry of AYUSH only customs are remarked on, and rightly:
PROTOCOL = {
    # its six minutes of loosening are movement after movement, by its own list
    ("remark", "never-settles"),
    # its minutes are fixed: the plan is as long as asked, and could not be landed on time if late
    ("remark", "nothing-may-stretch"),
}


def test_of_the_published_protocol_only_customs_are_remarked_on() -> None:
    found = opened(HERE / "common-protocol.yaml").findings
    assert not [one for one in found if one.weight is not Weight.REMARK]
    assert {(str(one.weight), one.rule) for one in found} == PROTOCOL
