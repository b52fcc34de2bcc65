import re

import pytest

from conductor.patterns import pattern


def test_a_pattern_finds_what_the_compiled_one_finds_each_time() -> None:
    words = pattern(r"\b(left|right)\b", re.IGNORECASE)
    for _ in range(2):
        assert words.findall("Left over right") == ["Left", "right"]
        assert words.sub("that", "Left over right") == "that over that"
    assert words.groups == 1


def test_a_fault_in_a_pattern_is_raised_when_it_is_used() -> None:
    broken = pattern("(")
    with pytest.raises(re.error):
        broken.search("a")
