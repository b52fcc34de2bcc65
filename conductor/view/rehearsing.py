"""What can be asked of a rehearsal besides what every class takes, such as its speed."""

from collections.abc import Callable
from typing import Protocol, runtime_checkable

from conductor.breathing.session import Session
from conductor.sides import Breath
from conductor.values import replace
from conductor.view.actions import Action, keys_of, named
from conductor.view.leading import Leading

SPEEDS = (1.0, 1.25, 1.5, 2.0, 3.0, 4.0, 6.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0)


@runtime_checkable
class Rehearsing(Leading, Protocol):
    """A class that is rehearsed: led as any other, and its time can be made to run faster."""

    def speed(self) -> float:
        """How many times as fast as in class its time runs, or was last asked to run."""
        ...

    def at_speed(self, times: float) -> None:
        """Let time run so many times as fast from here on."""
        ...

    def tap(self, breath: Breath) -> None:
        """An inhale or an exhale of the person who rehearses begins now."""
        ...

    def sitting(self) -> tuple[Session, Callable[[], int]]:
        """Their breath measured apart from the class, and the clock (ms) it is measured by."""
        ...

    def standing(self) -> str:
        """That it is a rehearsal, how fast it runs, and what was marked, for the screen."""
        ...


REHEARSAL: tuple[Action, ...] = (
    Action(
        "quicker",
        "Time faster",
        "Let time run faster, up to 60 times; above 1.5 times voice and bells are text.",
        None,
        ("greater_than_sign",),
    ),
    Action(
        "calmer",
        "Time slower",
        "Let time run slower again, down to that of a class.",
        None,
        ("less_than_sign",),
    ),
    Action(
        "inhale",
        "I inhale",
        "Press as your own inhale begins: your breath is measured, by part.",
        None,
        ("u",),
    ),
    Action("exhale", "I exhale", "Press as your own exhale begins.", None, ("j",)),
    Action(
        "your breath",
        "Your breath",
        "The class stops, and a page measures your breath apart from it.",
        None,
        ("B",),
    ),
)
"""What is asked of a rehearsal alone; the class it leads goes on as it was."""

SCREENS_OWN = "your breath"  # a page, which lines of text have no need of

IDS = frozenset(action.id for action in REHEARSAL) - {SCREENS_OWN}


def with_rehearsal(actions: tuple[Action, ...]) -> tuple[Action, ...]:
    """The actions with those of a rehearsal before them, whose keys give way to a person's own."""
    taken = {key for action in actions for key in (*action.keys, *action.remote)}
    own = (replace(one, keys=tuple(set(one.keys) - taken)) for one in REHEARSAL)
    return (*own, *actions)


def beside(speed: float, up: bool) -> float:
    """The next speed up or down; the same at either end."""
    if up:
        return next((one for one in SPEEDS if one > speed), speed)
    return next((one for one in reversed(SPEEDS) if one < speed), speed)


def ask(leading: Rehearsing, name: str) -> None:
    """Do what was asked for, by its id."""
    if name in ("quicker", "calmer"):
        leading.at_speed(beside(leading.speed(), name == "quicker"))
    else:
        leading.tap(Breath.IN if name == "inhale" else Breath.OUT)


def typed(leading: Rehearsing, line: str) -> str | None:
    """Do what a typed line asks of a rehearsal; what to tell, None where it is something else."""
    action = named(line, tuple(one for one in REHEARSAL if one.id in IDS))
    if action:
        ask(leading, action.id)
        return leading.standing()
    words = line.lower().split()
    if words[:1] != ["speed"]:
        return None
    try:
        times = float(" ".join(words[1:]).rstrip(" x×").removesuffix(" times"))
    except ValueError:
        times = 0.0
    if not SPEEDS[0] <= times <= SPEEDS[-1]:
        return "A rehearsal runs 1 to 60 times as fast: speed 4."
    leading.at_speed(times)
    return leading.standing()


def help_lines() -> list[str]:
    """What can be typed in a rehearsal besides, a line each."""
    given = [f"{one.id} ({keys_of(one)}): {one.help}" for one in REHEARSAL if one.id in IDS]
    return [*given, "speed 4: let time run four times as fast."]
