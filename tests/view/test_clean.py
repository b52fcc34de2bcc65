import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.view.clean import clean


@pytest.mark.parametrize(
    "attack",  # CWE-150: what a terminal would obey
    [
        "\x1b]52;c;aGk=\x07",
        "\x1b[2J",
        "\x9b6n",
        "\x1bc",
        "\x90payload\x9c",
        "\x7f\x08",
        "\u202eabc\u2066",
        "\u200b\ufeff",
    ],
)
def test_nothing_a_terminal_would_obey_is_left(attack: str) -> None:
    left = clean(f"warrior{attack}two")
    assert left.isprintable()
    assert left.startswith("warrior")
    assert left.endswith("two")


def test_line_ends_and_tabs_become_spaces() -> None:
    assert clean("a\nb\tc") == "a b c"


@given(st.text())
def test_cleaning_twice_changes_nothing_more(text: str) -> None:
    once = clean(text)
    assert clean(once) == once
    assert not any(ord(c) < 32 or 127 <= ord(c) < 160 for c in once)
