from dataclasses import dataclass, replace

import pytest

from conductor.copies import changed


@dataclass(frozen=True)
class Value:
    one: int
    two: str = "b"


def test_a_copy_has_the_new_fields_and_the_old_value_stays() -> None:
    value = Value(1)
    assert changed(value, two="c") == replace(value, two="c")
    assert value == Value(1, "b")
    assert hash(changed(value, one=2)) == hash(Value(2))


def test_a_field_that_there_is_not_is_refused() -> None:
    with pytest.raises(TypeError, match="three"):
        changed(Value(1), three=3)
