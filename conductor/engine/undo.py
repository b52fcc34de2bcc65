"""Taking back: `back`, pressed soon after a command, undoes it before it means the shape before.

The state before a command is remembered whole; only position and time go on. So whatever a command
changed is given back exactly, and no command needs an undoing of its own.
"""

from conductor.engine.changes import Done, at_pace, on_course, pos_at, way_named
from conductor.engine.led import TAKES_BACK_MS, Led, Sounds, Taken, Tools
from conductor.engine.model import Command, Do, Happening, State
from conductor.engine.moves import jump, standing
from conductor.engine.owing import Sides, exchanged
from conductor.engine.sounds import placed_anew
from conductor.engine.swap import unswapped
from conductor.values import replace

ASKING = "asking to land on time"
MOST = 8  # commands remembered: a teacher takes back the last few, not the class

JUMPS = frozenset({Do.NEXT, Do.NEXT_PART, Do.PREVIOUS_PART, Do.AGAIN, Do.GO_TO, Do.REST})
CHANGES = frozenset({
    Do.SWAP, Do.MORE, Do.FEWER, Do.SLOWER, Do.FASTER, Do.LAND, Do.KEEP, Do.QUIET, Do.LEVEL,
    Do.VOICE_LOUDER, Do.VOICE_SOFTER, Do.BELLS_LOUDER, Do.BELLS_SOFTER,
})  # fmt: skip
# These leave the score alone, whatever keeping to the clock has done to it since.
BESIDE = CHANGES - {Do.SWAP, Do.MORE, Do.FEWER, Do.LAND, Do.LEVEL}

# What belongs to the class as it goes on; all else is given back as it was.
GOES_ON = (
    "state", "now", "index", "pos", "anchor", "pass_no", "sounds", "held", "resume_at", "since",
    "slept", "silenced", "offer", "begun", "ended", "part", "sides", "reply",
)  # fmt: skip

Moved = tuple[Led, list[Happening]]


def remembering(before: Led, after: Led, command: Command) -> Led:
    """The state after a command, with what can be taken back; back sees to its own.

    A mark changes nothing, so it neither is taken back nor keeps what was before it from being.
    """
    if command.do in (Do.BACK, Do.MARK):
        return after
    if command.do not in JUMPS | CHANGES:
        return replace(after, undo=())
    kept = tuple(
        one for one in before.undo if after.now - one.at <= TAKES_BACK_MS and one.words != ASKING
    )
    taken = Taken(command.do, _named(after, command), after.now, replace(before, undo=()))
    return replace(after, undo=(*kept, taken)[-MOST:])


def _named(after: Led, command: Command) -> str:
    """A command as its undoing calls it."""
    if command.do is Do.QUIET:
        return "voice off" if after.quiet else "voice on"
    if command.do is Do.LEVEL:
        return f"led {way_named(after.level)}"
    if command.do is Do.LAND and after.asked is not None:
        return ASKING
    return str(command.do)


def takes_back(led: Led, now: int) -> str:
    """The command that back would take back now; "" where it means the shape before."""
    taken = led.to_take_back(now)
    if taken is None or (_moves_on(led, taken) and _where(led, taken.before, now)[0] is None):
        return ""
    return taken.words


def _moves_on(led: Led, taken: Taken) -> bool:
    """Whether the class has to find its place in another score to take the command back."""
    waits = led.state in (State.READY, State.STOPPED)
    another = taken.before.course is not led.course
    return not waits and another and taken.do not in JUMPS | BESIDE | {Do.SWAP}


def undone(led: Led, now: int, tools: Tools) -> Done | None:
    """The last command taken back; None where there is none, or what it did has been led."""
    taken = led.to_take_back(now)
    if taken is None:
        return None
    words = f"Undone: {taken.words}."
    if taken.do in JUMPS:
        after, dropped = _returned(led, taken, now, tools)
        words = f"{words} Back to {after.course.shape(after.index)}."
    else:
        moved = _given(led, taken, now, tools)
        if moved is None:
            return None
        after, dropped = moved
    return replace(after, undo=led.undo[:-1]), words, dropped


def _returned(led: Led, taken: Taken, now: int, tools: Tools) -> Moved:
    """A jump taken back: to the moment it left, or to the stop it went on from."""
    before = taken.before
    goes_on = {"pass_no": led.pass_no, "part": led.part, "sides": led.sides, "reply": led.reply}
    back = replace(before, now=now, **goes_on)
    if before.state is State.STOPPED:
        return replace(back, sounds=Sounds()), []
    pos = before.pos if before.state is State.ARRIVING else standing(before, taken.at)
    return jump(back, now, tools, before.index, pos=pos)


def _given(led: Led, taken: Taken, now: int, tools: Tools) -> Moved | None:
    """A change taken back: the class goes on from where it is, in the score as it was."""
    before = taken.before
    if led.state in (State.READY, State.STOPPED):
        goes_on = {"pass_no": led.pass_no, "part": led.part, "reply": led.reply}
        return replace(before, now=now, sides=_sides(led, taken), **goes_on), []
    going = {name: getattr(led, name) for name in GOES_ON}
    after = replace(before, **going, course=led.course, pace=led.pace)
    after = at_pace(after, now, before.pace) if before.pace != led.pace else after
    if before.course is led.course or taken.do in BESIDE:
        return placed_anew(after, now) if before.pace != led.pace else (after, [])
    if taken.do is Do.SWAP:
        after = replace(after, sides=_sides(led, taken))
        index = unswapped(before.course, before.index, led.course, led.index)
        return on_course(after, before.course, index, now)
    where, comes_in = _where(led, before, now)
    if where is None:
        return None
    if comes_in:
        return jump(replace(after, course=before.course), now, tools, where)
    return on_course(after, before.course, where, now)


def _sides(led: Led, taken: Taken) -> Sides:
    """What has been led of each side, also by a jump that was taken back meanwhile."""
    before = taken.before
    if taken.do is not Do.SWAP:
        return led.sides
    keys = before.course.moments[before.index].pass_key, before.course.mate(before.index)
    return exchanged(led.sides, *keys)


def _where(led: Led, before: Led, now: int) -> tuple[int | None, bool]:
    """Where the class stands in the course before a change, and whether it must come in there.

    It comes in where that course has something not led yet, or has no such moment. None: the
    change has been led and left, and the other side may count on it.
    """
    old, new = before.course, led.course
    began = new.index_of.get(old.moments[before.index].id, led.index)
    since = [moment.id for moment in new.moments[began : led.index + 1]]
    known = [old.index_of[name] for name in since if name in old.index_of]
    at = old.index_of.get(since[-1])
    following = known[-1] + 1 if known and known[-1] + 1 < len(old.moments) else None
    if at is None:
        return following, True
    missing = set(range(before.index, at)).difference(known)
    if missing:
        return min(missing), True
    if len(known) < len(since):
        return None, False
    if pos_at(led, now) - new.starts[led.index] >= old.moments[at].length:
        return following, True
    return at, False
