"""The state as others see it: one frozen snapshot, and where the class will end."""

from conductor.engine.anchor import paced
from conductor.engine.changes import MAY
from conductor.engine.led import Led, Tools
from conductor.engine.model import Do, Snapshot, State
from conductor.engine.moves import RUN_IN_MS, resuming, taking
from conductor.engine.sounds import saying
from conductor.engine.table import TABLE, Takes
from conductor.engine.undo import takes_back
from conductor.sides import Breath


def snapshot(led: Led, now: int, tools: Tools) -> Snapshot:
    """The class at `now`, which must not be before the state's own."""
    entered, leaves = _bounds(led)
    ends = ends_at(led, now, tools)
    ready = led.state is State.READY
    planned = (ends if tools.must_end is None else tools.must_end) if ready else led.planned_end
    return Snapshot(
        state=led.state,
        now=now,
        score=led.course.score,
        index=led.index,
        entered=entered,
        leaves=leaves,
        pace=led.pace,
        pass_no=led.pass_no,
        held=led.held.count if led.held else 0,
        ends_at=ends,
        planned_end=planned,
        offers=offers(led),
        reply=led.reply,
        quiet=led.quiet,
        silenced=led.silenced,
        swapped=led.swapped,
        level=led.level,
        voice_db=led.voice_db,
        bells_db=led.bells_db,
        offer=led.offer,
        saying=saying(led, now),
        begun=led.begun,
        breath=_breath(led),
        resumes_at=led.resume_at if led.state is State.HOLDING else None,
        takes_back=takes_back(led, now),
        keeps=led.keeps,
        owed=led.owed,
    )


def _bounds(led: Led) -> tuple[int, int | None]:
    """When the present moment, or held half breath, began (or will) and ends."""
    if led.state is State.READY:
        return led.now, None
    moment = led.course.moments[led.index]
    if led.state is State.STOPPED:
        return led.since, None
    if led.state is State.FINISHED:
        return led.ended, None
    if led.held is not None:
        return led.held.entered, led.held.leaves
    if led.state is State.ARRIVING:
        return led.anchor.now, led.anchor.now_at(moment.end)
    return led.anchor.now_at(moment.start), led.anchor.now_at(moment.end)


def _breath(led: Led) -> Breath:
    return led.held.breath if led.held is not None else led.course.moments[led.index].breath


def ends_at(led: Led, now: int, tools: Tools) -> int:
    """When the class will be over if nothing else is asked (now ms)."""
    length = led.course.score.length
    if led.state is State.FINISHED:
        return led.ended
    if led.state is State.READY:
        lead = paced(led.course.lead(0), led.pace)
        return now + max(RUN_IN_MS, lead) + paced(length, led.pace)
    if led.state is State.STOPPED:
        how = taking(led, now, tools)
        return now + how.run_in + paced(length - how.pos, led.pace)
    if led.held is None or led.resume_at is not None:
        return led.anchor.now_at(length)
    if led.course.timed(led.index):
        return now + paced(length - led.pos, led.pace)
    return resuming(led).anchor.now_at(length)


def offers(led: Led) -> frozenset[Do]:
    """The commands that would be accepted now."""
    row = TABLE[led.state]
    return frozenset(
        do
        for do, cell in row.items()
        if isinstance(cell, Takes) and (cell.act not in MAY or MAY[cell.act](led))
    )
