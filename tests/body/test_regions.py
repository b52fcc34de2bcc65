"""Regions of carrying the weight."""

from hypothesis import given
from hypothesis import strategies as st

from conductor.body.regions import Region, near_floor, on_hands, region, stops
from conductor.shapes.catalogue import load
from conductor.sides import End, Side
from conductor.stance import Base, Foot, Stance

regions = st.sampled_from(Region)


def test_every_base_belongs_to_a_region() -> None:
    assert {region(Stance(base, Foot.TOP, Foot.TOP)) for base in Base} == set(Region)


@given(regions, regions)
def test_every_region_is_reached_from_every_other_and_back_alike(a: Region, b: Region) -> None:
    cost, between = stops(a, b)
    assert cost == stops(b, a)[0]
    assert cost < 9
    assert (cost == 0) == (a is b)
    assert a not in between
    assert b not in between


@given(regions, regions, regions)
def test_a_detour_is_never_shorter(a: Region, b: Region, c: Region) -> None:
    assert stops(a, c)[0] <= stops(a, b)[0] + stops(b, c)[0]


def test_hands_at_the_floor() -> None:
    catalogue = load()

    def at(name: str) -> Stance:
        return catalogue.shapes[name].place.at(Side.RIGHT, End.FRONT)

    assert on_hands(at("plank"))
    assert near_floor(at("half-lift"))
    assert not near_floor(at("arms-overhead"))
    assert not on_hands(at("warrior-two"))
