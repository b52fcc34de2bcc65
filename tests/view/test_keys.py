import pytest
from textual.keys import _character_to_key

from conductor.view.actions import EVERY
from conductor.view.keys import SIGNS, KeyNameError, key_of, shown


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Page Down", "pagedown"),
        ("pgup", "pageup"),
        ("?", "question_mark"),
        ("→", "right"),
        ("n", "n"),
        ("N", "N"),
        ("Shift+n", "N"),
        ("Ctrl+N", "ctrl+n"),
        ("Alt+n", "alt+n"),
        ("f5", "f5"),
        (" ", "space"),
        ("Space", "space"),
        ("Shift+Up", "shift+up"),
        ("+", "plus"),
        ("comma", "comma"),
    ],
)
def test_keys_as_people_write_them(text: str, key: str) -> None:
    assert key_of(text) == key


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("banana", "no key is called 'banana'"),
        ("", "no key is called ''"),
        ("ctrl+", "no key is called 'ctrl\\+'"),
        ("Ctrl+C", "Ctrl\\+C always asks whether to end the class"),
        ("ctrl+z", "belongs to the terminal"),
        ("ctrl+m", "is Enter to a terminal"),
        ("Ctrl+1", "a terminal cannot tell 'Ctrl\\+1'"),
        ("alt+up", "a terminal cannot tell"),
        ("ctrl+ctrl+a", "no key is called"),
    ],
)
def test_keys_that_are_none_or_cannot_be_given_away(text: str, told: str) -> None:
    with pytest.raises(KeyNameError, match=told):
        key_of(text)


def test_signs_have_the_names_that_the_terminals_library_gives_them() -> None:
    assert {sign: _character_to_key(sign) for sign in SIGNS.values()} == {
        sign: name for name, sign in SIGNS.items()
    }


def test_a_key_is_shown_as_it_can_be_written() -> None:
    keys = {key for one in EVERY for key in (*one.keys, *one.remote)} - {"ctrl+q", "ctrl+c", "f1"}
    assert {key_of(shown(key)) for key in keys} == keys
    assert (shown("pagedown"), shown("ctrl+q"), shown("full_stop")) == ("Page Down", "Ctrl+Q", ".")
