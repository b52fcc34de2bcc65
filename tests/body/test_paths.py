"""The shortest way through stances in between."""

from itertools import pairwise

from conductor.body.paths import shortest
from conductor.body.ways import way
from conductor.shapes.catalogue import load
from conductor.sides import End, Side
from conductor.stance import Stance

CATALOGUE = load()
LANDINGS = {
    f"{shape.name} {side}" if shape.sided else shape.name: shape.place.at(side, End.FRONT)
    for shape in CATALOGUE.shapes.values()
    if shape.landing or shape.id == "standing-fold"
    for side in Side
}


def stance(name: str) -> Stance:
    found = CATALOGUE.find(name)
    assert found is not None, name
    return found.shape.place.at(found.side or Side.RIGHT, End.FRONT)


def test_an_open_way_needs_nothing_between() -> None:
    assert shortest(stance("plank"), stance("downward dog"), LANDINGS) == ()


def test_every_step_of_the_way_is_open() -> None:
    for start, goal in [("right warrior two", "boat"), ("mountain", "final rest")]:
        between = shortest(stance(start), stance(goal), LANDINGS)
        assert between
        stops = [stance(start), *(LANDINGS[name] for name in between), stance(goal)]
        for before, after in pairwise(stops):
            found = way(before, after)
            assert found.possible
            assert found.effort <= 1


def test_the_other_foot_goes_by_way_of_feet_together() -> None:
    candidates = {"downward dog": stance("downward dog"), "plank": stance("plank")}
    start, goal = stance("right three-legged dog"), stance("left low lunge")
    assert shortest(start, goal, candidates) == ("downward dog",)


def test_a_hurried_way_is_better_than_none() -> None:
    candidates = {"staff": stance("staff")}
    assert shortest(stance("mountain"), stance("final rest"), candidates) == ("staff",)


def test_no_way_gives_nothing() -> None:
    assert shortest(stance("mountain"), stance("final rest"), {}) == ()
