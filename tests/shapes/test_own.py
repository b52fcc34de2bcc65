import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.shapes.catalogue import load
from conductor.shapes.model import Shape
from conductor.shapes.own import own
from conductor.sides import End, Side
from conductor.stance import Base, Foot, Frame, Hands, Trunk

CATALOGUE = load()


def built(name: str, **fields: str) -> Shape:
    shape, troubles = own(name, {key.replace("_", " "): v for key, v in fields.items()}, CATALOGUE)
    assert troubles == ()
    assert shape is not None
    return shape


def test_a_shape_like_another_keeps_what_it_does_not_change() -> None:
    shape = own(
        "Lighthouse",
        {"like": "warrior three", "with": "arms wide", "say it": "light house"},
        CATALOGUE,
    )[0]
    assert shape is not None
    like = CATALOGUE.shapes["warrior-three"]
    assert (shape.id, shape.name, shape.spoken) == ("lighthouse", "Lighthouse", "light house")
    assert shape.place.hands is Hands.WIDE
    assert shape.enter == "arms wide"
    assert (shape.side_means, shape.cautions) == (like.side_means, like.cautions)
    assert (shape.iast, shape.spellings) == ("", ())
    assert shape.sources == {"*": "the plan"}


def test_the_like_is_found_by_any_name() -> None:
    assert built("mine", like="Virabhadrasana 2").place == CATALOGUE.shapes["warrior-two"].place


def test_a_side_may_be_given_to_a_shape_without_sides_and_taken_away() -> None:
    keel = built("keel", like="boat", side_means="leg that is raised")
    assert keel.sided
    assert (keel.side_means, keel.side_part) == ("leg that is raised", "leg")
    assert not built("both", like="tree", side_means="none").sided


def test_a_convention_turned_round_turns_the_stance_round() -> None:
    tree, mine = CATALOGUE.shapes["tree"], built("my tree", like="tree", side_means="standing leg")
    assert mine.place.at(Side.RIGHT, End.FRONT) == tree.place.at(Side.LEFT, End.FRONT)
    half_moon = CATALOGUE.shapes["half-moon"]
    again = built("moonrise", like="half moon", side_means="raised leg")
    ours, theirs = again.place.at(Side.LEFT, End.FRONT), half_moon.place.at(Side.RIGHT, End.FRONT)
    assert (ours.left, ours.right, ours.standing) == (theirs.left, theirs.right, theirs.standing)


def test_a_shape_like_no_other_is_made_of_plain_words() -> None:
    shape = built(
        "reed",
        stands_on="one foot",
        faces="the long side",
        bends="sideways",
        arms="overhead",
        breath="inhale",
        level="2",
        cautions="ba, high blood pressure",
    )
    place = shape.place
    assert (place.base, place.own, place.other) == (Base.FOOT, Foot.TOP, Foot.LIFTED)
    assert (place.frame, place.trunk, place.hands) == (Frame.LONG, Trunk.LATERAL, Hands.UP)
    assert (shape.side_means, shape.breath, shape.level) == ("standing leg", "in", 2)
    assert shape.cautions == ("BA", "BP")
    assert (shape.spine, shape.loads, shape.balance, shape.unseen) == ("lateral", True, True, False)


def test_feet_alone_are_enough() -> None:
    shape = built("still", stands_on="both feet")
    assert (shape.sided, shape.loads, shape.unseen) == (False, False, False)


def test_a_fold_of_ones_own_hides_the_screen() -> None:
    assert built("drop", stands_on="feet", bends="forward").unseen


@pytest.mark.parametrize(
    ("fields", "field", "hint"),
    [
        ({}, "stands on", "like: a shape's name"),
        ({"arms": "up"}, "stands on", "stands on: feet"),
        ({"like": "crescnt lunge"}, "like", "like: crescent lunge"),
        ({"like": "right tree"}, "like", "like: tree"),
        ({"like": "qqq zzz"}, "like", ""),
        ({"like": "tree", "bend": "forward"}, "bend", "bends"),
        ({"like": "tree", "bends": "sidways"}, "bends", "bends: sideways"),
        ({"like": "tree", "level": "9"}, "level", ""),
        ({"like": "tree", "cautions": "kne trouble"}, "cautions", "cautions: knee trouble"),
        ({"stands on": "one foott"}, "stands on", "stands on: one foot"),
        ({"like": "tree", "breath": "sideways"}, "breath", ""),
    ],
)
def test_what_cannot_be_read_is_told_with_the_nearest_word(
    fields: dict[str, str], field: str, hint: str
) -> None:
    shape, troubles = own("mine", fields, CATALOGUE)
    assert shape is None
    ((where, message, nearest),) = troubles
    assert where == field
    assert message
    assert hint in nearest
    assert bool(hint) == bool(nearest)


def test_every_trouble_is_told_at_once() -> None:
    _, troubles = own("mine", {"like": "qqq", "bends": "x", "wobbles": "y"}, CATALOGUE)
    assert {trouble[0] for trouble in troubles} == {"like", "bends", "wobbles"}


@given(
    st.text(max_size=20),
    st.dictionaries(
        st.sampled_from(("like", "with", "say it", "side means", "stands on", "arms", "x")),
        st.one_of(st.text(max_size=20), st.sampled_from(("tree", "one foot", "up", "raised leg"))),
    ),
)
def test_any_text_gives_a_shape_or_says_why_not(name: str, fields: dict[str, str]) -> None:
    shape, troubles = own(name, fields, CATALOGUE)
    assert (shape is None) == bool(troubles)
    if shape is not None:
        right, left = (shape.place.at(side, End.FRONT) for side in (Side.RIGHT, Side.LEFT))
        assert left == right.mirrored()
