import pytest

from conductor.values import replace
from conductor.view.actions import EVERY
from conductor.view.rehearsing import (
    REHEARSAL,
    SPEEDS,
    ask,
    beside,
    help_lines,
    typed,
    with_rehearsal,
)


class Rehearsal:
    """Keeps what it was asked; the rest of a class is not needed here."""

    def __init__(self) -> None:
        self.times = 1.0

    def speed(self) -> float:
        return self.times

    def at_speed(self, times: float) -> None:
        self.times = times

    def standing(self) -> str:
        return f"Rehearsal, {self.times:g}"


def test_no_key_of_a_rehearsal_means_something_else_in_class() -> None:
    classes = {key for action in EVERY for key in (*action.keys, *action.remote)}
    own = [key for one in REHEARSAL for key in one.keys]
    assert not classes & set(own)
    assert len(own) == len(set(own))


def test_keys_of_a_rehearsal_give_way_to_a_persons_own() -> None:
    own = tuple(replace(one, keys=("j",)) if one.id == "back" else one for one in EVERY)
    both = {one.id: one for one in with_rehearsal(own)}
    assert (both["back"].keys, both["exhale"].keys, both["inhale"].keys) == (("j",), (), ("u",))
    assert [one.id for one in with_rehearsal(own)][: len(REHEARSAL)] == [
        one.id for one in REHEARSAL
    ]


def test_speeds_go_up_and_down_and_stay_at_their_ends() -> None:
    assert (SPEEDS[0], SPEEDS[-1]) == (1, 60)
    assert [beside(one, up=True) for one in (1, 1.3, 60)] == [1.25, 1.5, 60]
    assert [beside(one, up=False) for one in (60, 1.3, 1)] == [45, 1.25, 1]


def test_each_hand_does_what_it_says() -> None:
    led = Rehearsal()
    ask(led, "quicker")  # type: ignore[arg-type]
    assert led.times == 1.25
    ask(led, "calmer")  # type: ignore[arg-type]
    assert led.times == 1.0


@pytest.mark.parametrize(
    ("words", "told", "times"),
    [
        ("speed 4", "Rehearsal, 4", 4.0),
        ("speed 1.5 times", "Rehearsal, 1.5", 1.5),
        (">", "Rehearsal, 1.25", 1.25),
        ("time faster", "Rehearsal, 1.25", 1.25),
        ("speed 90", "A rehearsal runs 1 to 60 times as fast: speed 4.", 1.0),
        ("speed of light", "A rehearsal runs 1 to 60 times as fast: speed 4.", 1.0),
        ("next", None, 1.0),
    ],
)
def test_what_is_typed(words: str, told: str | None, times: float) -> None:
    led = Rehearsal()
    assert typed(led, words) == told  # type: ignore[arg-type]
    assert led.times == times


def test_help_names_them_all() -> None:
    assert len(help_lines()) == len(REHEARSAL)  # the page is of the screens, speed a word besides
