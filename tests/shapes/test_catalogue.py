import subprocess
import sys

import pytest

from conductor.shapes import names
from conductor.shapes.catalogue import Catalogue, load
from conductor.shapes.model import Shape
from conductor.sides import Side
from conductor.values import replace

CATALOGUE = load()
SHAPES = tuple(CATALOGUE.shapes.values())

IN_PLANS = (
    "mountain, arms overhead, standing fold, half lift, plank, low plank, upward dog, downward dog,"
    "three-legged dog, low lunge, crescent lunge, warrior one, warrior two, warrior three,"
    "reverse warrior, side angle, triangle, wide-legged fold, pyramid, tree, eagle, chair,"
    "half moon, child's pose, all fours, cat, cow, cobra, sphinx, locust, bow, boat, bridge, wheel,"
    "seated fold, head to knee, seated twist, bound angle, pigeon, easy seat, staff, happy baby,"
    "knees to chest, reclined twist, legs up the wall, final rest, garland, goddess, side plank,"
    "dolphin, camel, hero, thunderbolt, eight points, equestrian, prayer stand"
)


@pytest.mark.parametrize("name", [name.strip() for name in IN_PLANS.split(",")])
def test_the_names_of_the_plans_are_the_names_shown(name: str) -> None:
    found = CATALOGUE.find(name)
    assert found is not None
    assert (found.shape.name, found.side) == (name, None)


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.id)
def test_every_name_of_a_shape_finds_it(shape: Shape) -> None:
    for name in (*shape.names, *shape.spellings, shape.iast, shape.ascii, shape.deva):
        if name:
            posed = name if name == shape.deva else f"{name} pose"
            for written in (name, name.upper(), posed, name.replace(" ", "-")):
                found = CATALOGUE.find(written)
                assert found is not None, written
                assert (found.shape.id, found.side) == (shape.id, None), written


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.id)
@pytest.mark.parametrize("side", list(Side))
def test_every_name_takes_a_side_before_and_after(shape: Shape, side: Side) -> None:
    for name in (*shape.names, *shape.spellings, shape.iast):
        for text in (f"{side} {name}", f"{name} {side}", f"{name}, {side} side"):
            if name:
                found = CATALOGUE.find(text)
                assert found is not None, text
                assert (found.shape.id, found.side) == (shape.id, side), text


def test_no_name_belongs_to_two_shapes() -> None:
    owner: dict[str, str] = {}
    for shape in SHAPES:
        for name in (*shape.names, *shape.spellings, shape.iast, shape.ascii, shape.deva):
            if name:
                assert owner.setdefault(names.key(name), shape.id) == shape.id, name


def test_no_sanskrit_sound_belongs_to_two_shapes() -> None:
    owner: dict[str, str] = {}
    for shape in SHAPES:
        if shape.iast:
            assert owner.setdefault(names.sound(names.key(shape.iast)), shape.id) == shape.id


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("High Lunge", "crescent lunge"),
        ("warrior 2", "warrior two"),
        ("Warrior II pose", "warrior two"),
        ("Virabhadrasana 2", "warrior two"),
        ("Vrikshasana", "tree"),
        ("Parshva Bakasana", "side crow"),
        ("Pawanmuktasana", "wind-relieving"),
        ("Upavistha Konasana", "wide-angle seated fold"),
        ("Ashwa Sanchalanasana", "equestrian"),
        ("corpse", "final rest"),
        ("shavasan", "final rest"),
        ("downdogs", "downward dog"),
        ("childs pose", "child's pose"),
        ("chaturanga", "low plank"),
        ("Trikonasana", "triangle"),
        ("अर्ध उत्तानासन", "half lift"),
        ("one-legged bridge", "one-legged bridge"),
    ],
)
def test_what_people_write_finds_the_shape(text: str, name: str) -> None:
    found = CATALOGUE.find(text)
    assert found is not None
    assert found.shape.name == name


@pytest.mark.parametrize("text", ["", "  ", "lighthouse", "right", "asana", "💃", "side"])
def test_what_is_no_shape_finds_none(text: str) -> None:
    assert CATALOGUE.find(text) is None


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("low lounge", "low lunge"),
        ("left crescnt lunge", "crescent lunge"),
        ("dowward dgo", "downward dog"),
        ("virabadhrasna", "Virabhadrasana"),
        ("trianlge", "triangle"),
    ],
)
def test_a_slip_gets_the_nearest_name(text: str, name: str) -> None:
    nearest = CATALOGUE.nearest(text)
    assert nearest is not None
    assert nearest.startswith(name)


def test_nothing_like_it_gets_no_name() -> None:
    assert CATALOGUE.nearest("qqqq zzzz") is None
    assert CATALOGUE.nearest("") is None


def test_a_teachers_own_name_wins_and_the_first_catalogue_stays_as_it_was() -> None:
    mine = replace(CATALOGUE.shapes["equestrian"], id="low-lunge", names=("low lunge",))
    other = replace(mine, id="lighthouse", names=("lighthouse", "down dog"), spellings=())
    both = CATALOGUE.with_own([mine]).with_own([other])
    for text, shape in (("right low lunge", mine), ("Lighthouse", other), ("down dog", other)):
        found = both.find(text)
        assert found is not None
        assert found.shape is shape
    dog = both.find("downward dog")
    assert dog is not None
    assert dog.shape is CATALOGUE.shapes["downward-dog"]
    assert CATALOGUE.find("lighthouse") is None
    assert both.nearest("lighthose") == "lighthouse"


def test_an_empty_catalogue_knows_nothing() -> None:
    empty = Catalogue(())
    assert empty.find("tree") is None
    assert empty.nearest("tree") is None


def test_finding_loads_no_spelling_library() -> None:
    code = (
        "import sys; from conductor.shapes.catalogue import load;"
        "assert load().find('right warrior 2').side == 'right'; assert not load().find('nix');"
        "print([m for m in sys.modules if m.startswith(('rapidfuzz', 'yaml', 'textual'))])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
