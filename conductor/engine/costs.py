"""What a command costs: time against the end, and the side that is owed, as words of its reply."""

from conductor.engine.led import Led, Tools
from conductor.engine.look import ends_at
from conductor.engine.model import Command, Do, State
from conductor.engine.owing import passes_in
from conductor.timing.telling import span

LITTLE_MS = 5000  # less is the run-in of a jump, or the half breath begun anew
FREE = frozenset({Do.BEGIN, Do.END, Do.LAND, Do.SLEPT, Do.STOP, Do.SILENCE, Do.HOLD})


def costs(before: Led, after: Led, command: Command, tools: Tools) -> str:
    """What was done does to the end of the class, and which side it leaves owing."""
    if command.do in FREE:
        return ""
    told = (_time(before, after, command, tools), _side(before, after, command))
    return " ".join(one for one in told if one)


def _time(before: Led, after: Led, command: Command, tools: Tools) -> str:
    if after.state in (State.READY, State.FINISHED):
        return ""
    now = after.now
    ends = ends_at(after, now, tools)
    standing = f"the class ends {_against(ends - after.planned_end)}"
    if command.do is Do.GO_ON:
        return _waited(before, now, standing)
    cost = ends - ends_at(before, now, tools)
    if abs(cost) < LITTLE_MS:
        return ""
    if command.do is Do.AGAIN:
        return f"Once more: {span(cost)}; {standing}."
    return f"{'Costs' if cost > 0 else 'Saves'} {span(abs(cost))}; {standing}."


def _against(over: int) -> str:
    if abs(over) < 1000:
        return "on time"
    return f"{span(abs(over))} {'late' if over > 0 else 'early'}"


def _waited(before: Led, now: int, standing: str) -> str:
    """How long the class waited, when it goes on."""
    if before.held is not None:
        breaths = (before.held.count + 1) // 2
        waited = f"Held {breaths} breath{'s' if breaths > 1 else ''}" if breaths else ""
    else:
        waited = f"Stopped {span(now - before.since)}" if now - before.since >= LITTLE_MS else ""
    return f"{waited}; {standing}." if waited else ""


def _side(before: Led, after: Led, command: Command) -> str:
    """The side that the command leaves owing, or after a swap the one still to come."""
    if command.do is Do.SWAP:
        mate = after.course.mate(after.index)
        coming = passes_in(after.course.moments[after.index :]).get(mate, 0)
        side = after.course.moments[after.index].pass_side
        return f"The {side.other} is owed, {span(coming)}." if coming and side else ""
    was = {one.side: one.ms for one in before.owed}
    owed = [one for one in after.owed if one.ms > was.get(one.side, 0)]
    return " ".join(f"The {one.side} is owed, {span(one.ms)}." for one in owed)
