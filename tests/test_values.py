import dataclasses
import pickle
from typing import Any, ClassVar

import pytest

from conductor.values import dataclass, field


@dataclass(frozen=True, slots=True, order=True)
class Fast:
    """A value."""

    name: str
    number: int = 3
    others: tuple[str, ...] = ()
    table: dict[str, int] = field(default_factory=dict)

    @property
    def double(self) -> int:
        return 2 * self.number


@dataclasses.dataclass(frozen=True, slots=True, order=True)
class Standard:
    """A value."""

    name: str
    number: int = 3
    others: tuple[str, ...] = ()
    table: dict[str, int] = dataclasses.field(default_factory=dict)

    @property
    def double(self) -> int:
        return 2 * self.number


@dataclass(frozen=True)
class Open:
    name: str
    table: dict[str, int] = field(default_factory=dict)
    number: int = field(default=7)


@dataclass(frozen=True, slots=True)
class Whole:
    numbers: tuple[int, ...]
    total: int = 0
    most: ClassVar[int] = 3

    def __post_init__(self) -> None:
        if len(self.numbers) > self.most:
            raise ValueError(self.numbers)


@dataclass(frozen=True, slots=True)
class Checked:
    number: int

    def __post_init__(self) -> None:
        if self.number < 0:
            raise ValueError(self.number)


@dataclass(slots=True)
class Loose:
    number: int = 0


def test_values_behave_as_those_of_the_standard_library() -> None:
    kinds: tuple[Any, ...] = (Fast, Standard)
    for kind in kinds:
        one = kind("a", others=("x",))
        assert one == kind("a", 3, ("x",), {})
        assert one != kind("b")
        assert one != 3
        assert repr(one) == f"{kind.__name__}(name='a', number=3, others=('x',), table={{}})"
        assert one.double == 6
        assert kind("a", table={"b": 1}).table == {"b": 1}
        assert one.table is not kind("a").table
        assert not hasattr(one, "__dict__")
        assert kind("a", 1) < kind("a", 2) <= kind("b", 0)
        assert kind("b", 0) >= kind("a", 9)
        assert dataclasses.replace(one, number=5) == kind("a", 5, ("x",))
        assert [item.name for item in dataclasses.fields(one)] == [
            "name", "number", "others", "table",
        ]  # fmt: skip
        assert pickle.loads(pickle.dumps(one)) == one  # noqa: S301 -- written just now
        with pytest.raises(dataclasses.FrozenInstanceError):
            one.number = 4
        with pytest.raises(dataclasses.FrozenInstanceError):
            del one.number
        with pytest.raises(TypeError):
            kind()
        with pytest.raises(TypeError):
            kind("a", 1, (), {}, 5)
        match one:
            case kind("a", number):
                assert number == 3


def test_values_are_keys() -> None:
    assert {Checked(1): "x"}[Checked(1)] == "x"
    assert hash(Checked(1)) == hash(Checked(1))
    with pytest.raises(TypeError):
        hash(Fast("a"))


def test_a_value_without_slots_keeps_its_dictionary() -> None:
    assert Open("a").__dict__ == {"name": "a", "table": {}, "number": 7}
    assert Open("a") == Open("a", {}, 7)
    with pytest.raises(dataclasses.FrozenInstanceError):
        Open("a").name = "b"  # type: ignore[misc]


def test_what_is_more_than_plain_is_left_to_the_standard_library() -> None:
    assert Whole((1, 2)).total == 0
    with pytest.raises(ValueError, match="1, 2, 3, 4"):
        Whole((1, 2, 3, 4))
    with pytest.raises(ValueError, match="-1"):
        Checked(-1)
    loose = Loose()
    loose.number = 4
    assert loose == Loose(4)
