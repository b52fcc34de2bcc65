"""The picture of the states, made from the table so that it cannot differ from it."""

from collections.abc import Mapping

from conductor.engine.model import Do, State
from conductor.engine.table import BY_TIME, TABLE, Cell, Takes


def picture() -> str:
    """A mermaid state diagram; commands that do not change the state stand in a note."""
    lines = ["stateDiagram-v2", f"    [*] --> {State.READY}"]
    for state, row in TABLE.items():
        for to, commands in _leaving(row).items():
            if to is not state:
                lines.append(f"    {state} --> {to}: {', '.join(commands)}")
        lines += [f"    {a} --> {b}: ({why})" for a, why, b in BY_TIME if a is state]
        staying = _leaving(row).get(state, [])
        if staying:
            lines.append(f"    note right of {state}: stays: {', '.join(staying)}")
    lines.append(f"    {State.FINISHED} --> [*]")
    return "\n".join(lines) + "\n"


def _leaving(row: Mapping[Do, Cell]) -> dict[State, list[str]]:
    """The commands taken in a state, by where they lead."""
    ways: dict[State, list[str]] = {}
    for do in Do:
        cell = row[do]
        for to in cell.to if isinstance(cell, Takes) else ():
            ways.setdefault(to, []).append(str(do))
    return ways
