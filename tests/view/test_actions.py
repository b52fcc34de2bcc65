from collections import Counter
from types import ModuleType

import pytest

from conductor.engine.model import Command, Do, State
from conductor.score.model import Variant
from conductor.values import replace
from conductor.view.actions import (
    ACTIONS,
    BY_ID,
    EVERY,
    command,
    keys_of,
    named_ways,
    offered,
    pressed,
    table,
    typed,
)


def test_no_key_means_two_things() -> None:
    keys = Counter(key for one in EVERY for key in {*one.keys, *one.remote})
    assert [key for key, number in keys.items() if number > 1] == []


def test_every_command_a_person_gives_can_be_given() -> None:
    given = {one.do for one in ACTIONS} | {do for one in ACTIONS for do in one.instead.values()}
    assert given == set(Do) - {Do.SLEPT}


def test_escape_and_f5_never_end_a_class() -> None:
    for action in ACTIONS:
        if {"escape", "f5"} & {*action.keys, *action.remote}:
            assert Do.END not in (action.do, *action.instead.values())


def test_ending_asks_first_and_nothing_is_bound_to_suspend() -> None:
    assert all(bool(one.asks) == (one.do is Do.END) for one in ACTIONS)
    assert not any("ctrl+z" in one.keys for one in ACTIONS)


def test_a_remote_reaches_the_whole_class() -> None:
    remote = {key: one.id for one in ACTIONS for key in one.remote}
    assert remote == {
        "full_stop": "silence",
        "escape": "hold",
        "f5": "hold",
        "pagedown": "next",
        "pageup": "back",
    }


@pytest.mark.parametrize(
    ("action", "state", "silenced", "do"),
    [
        ("stop", State.READY, False, Do.BEGIN),
        ("stop", State.LEADING, False, Do.STOP),
        ("stop", State.STOPPED, False, Do.GO_ON),
        ("stop", State.STOPPED, True, Do.GO_ON),
        ("stop", State.HOLDING, False, Do.GO_ON),
        ("hold", State.LEADING, False, Do.HOLD),
        ("hold", State.HOLDING, False, Do.GO_ON),
        ("silence", State.LEADING, False, Do.SILENCE),
        ("silence", State.HOLDING, False, Do.SILENCE),
        ("silence", State.STOPPED, False, Do.SILENCE),
        ("silence", State.STOPPED, True, Do.SILENCE),
        ("hold", State.STOPPED, True, Do.GO_ON),
        ("next", State.READY, False, Do.BEGIN),
        ("next", State.STOPPED, False, Do.NEXT),
        ("next", State.STOPPED, True, Do.GO_ON),
    ],
)
def test_one_key_does_what_the_state_asks(
    scene: ModuleType, action: str, state: State, silenced: bool, do: Do
) -> None:
    assert command(BY_ID[action], scene.snap(9, 0, state, silenced=silenced)).do is do


def test_a_hold_that_is_ending_can_be_held_on_or_stopped(scene: ModuleType) -> None:
    going = scene.snap(9, 0, State.HOLDING, resumes_at=100_000)
    assert command(BY_ID["hold"], going).do is Do.HOLD
    assert command(BY_ID["stop"], going).do is Do.STOP


def test_only_what_is_accepted_is_offered(scene: ModuleType) -> None:
    snapshot = scene.snap(9, offers=frozenset({Do.STOP, Do.LEVEL}))
    assert [one.id for one in offered(snapshot)] == [
        "stop",
        "as written",
        "gentler",
        "fuller",
        "other way",
        "ways",
    ]
    assert command(BY_ID["gentler"], snapshot) == Command(Do.LEVEL, word="ease")


@pytest.mark.parametrize(
    ("line", "do"),
    [
        ("stop", Do.STOP),
        (" Go  On ", Do.GO_ON),
        ("next part", Do.NEXT_PART),
        ("sw", Do.SWAP),
        ("h", Do.HOLD),
        ("+", Do.MORE),
        ("one breath more", Do.MORE),
        (".", Do.SILENCE),
        ("end", Do.END),
    ],
)
def test_typed_words_become_commands(scene: ModuleType, line: str, do: Do) -> None:
    given = typed(line, scene.snap(9))
    assert given
    assert given.do is do


@pytest.mark.parametrize("line", ["", "dance", "slept"])
def test_other_words_are_no_command(scene: ModuleType, line: str) -> None:
    assert typed(line, scene.snap(9)) is None


def test_the_table_is_written_for_people() -> None:
    assert len(table()) == len(EVERY)
    assert keys_of(BY_ID["hold"]) == "h, Escape, F5"
    assert keys_of(BY_ID["silence"]) == "."
    assert all(one.help.endswith(".") for one in EVERY)


def test_a_way_is_asked_for_by_the_name_the_plan_gives_it(scene: ModuleType) -> None:
    snapshot = scene.snap(9)
    score = snapshot.score
    first = replace(score.moments[0], variants=(Variant("more", "x"), Variant("with block", "y")))
    snapshot = replace(snapshot, score=replace(score, moments=(first, *score.moments[1:])))
    assert typed("With block", snapshot) == Command(Do.LEVEL, word="with block")
    assert typed("way with block", snapshot) == Command(Do.LEVEL, word="with block")
    assert typed("more", snapshot) == Command(Do.MORE)
    assert named_ways(snapshot) == ("with block",)


def test_a_key_says_which_it_was_unless_it_may_repeat(scene: ModuleType) -> None:
    snapshot = scene.snap(9)
    assert pressed(BY_ID["next"], snapshot) == Command(Do.NEXT, press="next")
    assert pressed(BY_ID["more"], snapshot) == Command(Do.MORE)
    repeating = {one.id for one in ACTIONS if one.repeats}
    volumes = {f"{what} {how}" for what in ("voice", "bells") for how in ("louder", "softer")}
    assert repeating == {"silence", "more", "fewer", "slower", "faster", *volumes}
