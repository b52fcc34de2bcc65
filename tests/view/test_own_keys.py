import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.values import replace
from conductor.view.actions import EVERY, Action, keys_of
from conductor.view.keys import TAKEN
from conductor.view.own_keys import NEVER_ENDS, Keyed, keyed


def keys(found: Keyed, name: str) -> str:
    return next(keys_of(one) for one in found.actions if one.id == name)


def test_a_key_or_a_list_takes_the_place_of_all_that_were_there() -> None:
    found = keyed({"next": "j", "back": ["z", "Page Up"], "land_on_time": "y"})
    assert found.troubles == ()
    assert [keys(found, name) for name in ("next", "back", "land")] == ["j", "z, Page Up", "y"]
    assert keys(found, "hold") == "h, Escape, F5"


def test_keys_of_two_actions_can_change_places() -> None:
    found = keyed({"hold": "n", "next": ["h", "Page Down"]})
    assert found.troubles == ()
    assert (keys(found, "hold"), keys(found, "next")) == ("n", "h, Page Down")


@pytest.mark.parametrize(
    ("wanted", "told"),
    [
        ({"nxt": "j"}, ['nxt: no action is called so; did you mean "next"?']),
        ({"next": "banana"}, ["next: no key is called 'banana'"]),
        ({"next": 5}, ["next: a key is written in quotation marks, not 5"]),
        ({"next": "h"}, ['next: h is a key of "hold" too; give each its own']),
        (
            {"next part": "↓", "next_part": "j"},
            ['next_part: "next part" stands there twice; the first is taken'],
        ),
        ({"end": "Escape"}, ["end: Escape never ends a class: a remote sends it, or a slip"]),
        ({"next": "ctrl+p"}, ["next: Ctrl+P always opens the list of commands"]),
        (
            {"next": "j", "back": "j"},
            [
                'next: j is a key of "back" too; give each its own',
                'back: j is a key of "next" too; give each its own',
            ],
        ),
    ],
)
def test_what_would_not_work_is_told_and_keeps_its_keys(
    wanted: dict[str, object], told: list[str]
) -> None:
    found = keyed(wanted)
    assert list(found.troubles) == told
    assert found.actions == EVERY


def test_a_refusal_that_meets_anothers_new_key_takes_that_one_along() -> None:
    """Silence cannot have h; so it keeps the full stop, which hold then cannot have."""
    found = keyed({"silence": ["h", "j"], "hold": ".", "next part": "j"})
    assert found.actions == EVERY
    assert len(found.troubles) == 3


def test_a_table_at_odds_with_itself_holds_nobody_up() -> None:
    twice = (EVERY[0], replace(EVERY[1], keys=EVERY[0].keys))
    assert keyed({}, twice) == Keyed(twice)


def test_the_ways_out_can_be_moved_and_never_lost() -> None:
    found = keyed({"end": "F10", "help": []})
    assert found.troubles == ()
    assert (keys(found, "end"), keys(found, "help")) == ("F10, Ctrl+Q, Ctrl+C", "F1")
    assert keyed({"end": ["q", "ctrl+c"]}).troubles == ()


NAMES = st.sampled_from([*(one.id for one in EVERY), "dance"])
KEYS = st.sampled_from(
    ["h", "n", "j", "?", ".", "Page Down", "F1", "F5", "F10", "Ctrl+C", "Space", "banana", "Tab"]
)
WANTED = st.dictionaries(NAMES, KEYS | st.lists(KEYS, max_size=3) | st.integers(), max_size=8)


def all_keys(actions: tuple[Action, ...]) -> list[str]:
    return [key for one in actions for key in dict.fromkeys((*one.keys, *one.remote))]


@given(WANTED)
def test_whatever_is_asked_no_key_means_two_things_and_no_way_out_is_lost(
    wanted: dict[str, object],
) -> None:
    found = keyed(wanted)
    got = all_keys(found.actions)
    assert len(got) == len(set(got))
    ends = next(one for one in found.actions if one.id == "end")
    assert {"ctrl+q", "ctrl+c"} <= set(ends.keys)
    assert not set(NEVER_ENDS) & {*ends.keys, *ends.remote}
    assert {key for key in TAKEN if key in got} == {"ctrl+q", "ctrl+c", "f1"}
    kept = {one.id: one for one in EVERY}
    changed = [one.id for one in found.actions if one != kept[one.id]]
    for name, value in wanted.items():
        if name in changed:
            texts = [value] if isinstance(value, str) else value
            assert isinstance(texts, list)
            shown_now = keys(found, name)
            assert all(str(text) in shown_now for text in texts)
