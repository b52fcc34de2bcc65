"""Leading a whole class without waiting, for rehearsal, sheets and tests."""

from collections.abc import Iterator

from conductor.engine.model import Command, Do, Happening, State
from conductor.run.ports import Machine

MOST_STEPS = 1_000_000  # a machine that gives deadlines for ever is broken


def through(machine: Machine, now: int = 0) -> Iterator[tuple[Happening, ...]]:
    """Begin and lead to the end, from deadline to deadline; gives what happened at each."""
    machine.command(Command(Do.BEGIN), now)
    for _ in range(MOST_STEPS):
        deadline = machine.next_deadline()
        if deadline is None or machine.snapshot(now).state is State.FINISHED:
            return
        now = max(now, deadline)
        yield machine.advance(now)
    raise RuntimeError("the class did not come to its end")
