"""Moving about a class: jumps with their run-in, stopping, and taking up again."""

from conductor.engine.anchor import Anchor, paced
from conductor.engine.led import Held, Led, Sounds, Tools
from conductor.engine.model import Happening, State
from conductor.engine.owing import uncredited
from conductor.engine.phrases import spoken_ms
from conductor.engine.sounds import Stretch, in_order, phrase, place
from conductor.timing.sayings import taken_up
from conductor.values import Struct, replace

RUN_IN_MS = 3000  # the longest run-in, and that of begin
LONG_STOP_MS = 20_000  # after that, bodies have left the shape


class RefusedError(Exception):
    """There is nothing to do for a command, and why."""


def run_in(led: Led, tools: Tools, index: int, fresh: bool) -> int:
    """How long a jump to a moment takes to land: as long as its cue's lead, at most 3 s."""
    lead = paced(led.course.lead(index), led.pace) if fresh else 0
    return min(max(lead, tools.settings.lead_ms), RUN_IN_MS)


def jump(
    led: Led,
    now: int,
    tools: Tools,
    index: int,
    *,
    pos: int | None = None,
    wait: int | None = None,
    hush: int = 0,
) -> tuple[Led, list[Happening]]:
    """Come in to a moment: from its start, or from `pos` (score ms) within it.

    No cue starts in the first `hush` ms, in which a phrase is said.
    """
    start = led.course.starts[index]
    pos = start if pos is None else pos
    wait = run_in(led, tools, index, pos == start) if wait is None else wait
    anchor = Anchor(now + wait, pos, led.pace)
    after = None if pos == start else pos - 1
    stretch = Stretch(anchor, index, after, now + hush, led.pass_no + 1)
    placed, dropped = place(led.course, stretch, {})
    led = replace(
        led,
        state=State.ARRIVING,
        index=index,
        pos=pos,
        anchor=anchor,
        pass_no=led.pass_no + 1,
        sounds=in_order((), placed),
        held=None,
        resume_at=None,
        slept=False,
        silenced=False,
        offer="",
    )
    return led, [replace(one, now=now) for one in dropped]


def pause(led: Led, now: int) -> Led:
    """Stop where the class stands."""
    return replace(
        led,
        state=State.STOPPED,
        pos=standing(led, now),
        since=now,
        sounds=Sounds(),
        held=None,
        resume_at=None,
        offer="",
    )


def standing(led: Led, now: int) -> int:
    """Where to take up after a short stop (score ms): a half breath starts over, time does not.

    Words cut off in a stretch of time are said again: it is taken up where they began.
    """
    start = led.course.starts[led.index]
    if not led.course.timed(led.index):
        return start
    if led.state is not State.LEADING:
        return led.pos
    here = led.course.moments[led.index].id
    cut = [
        one.at
        for one in led.sounds.begun
        if one.at is not None and one.ends > now and one.key[0] == here
    ]
    return max(min([led.anchor.score_at(now), *cut]), start)


class Taking(Struct, frozen=True):
    """How a stopped class is taken up: where, with what run-in, and announced with which shape."""

    index: int
    pos: int
    run_in: int
    shape: str | None


def taking(led: Led, now: int, tools: Tools) -> Taking:
    """Where a stopped class is taken up: where it was, or at the last shape to land in."""
    course, index = led.course, led.index
    if not led.slept and now - led.since < LONG_STOP_MS:
        fresh = led.pos == course.starts[index]
        return Taking(index, led.pos, run_in(led, tools, index, fresh), None)
    landing = course.landing[index]
    to = max(landing, 0)
    pos = led.pos if to == index else course.starts[to]
    breath = paced(sum(course.breaths[to]), led.pace)
    return Taking(to, pos, max(breath, RUN_IN_MS), course.shape(to) if landing >= 0 else "")


def take_up(led: Led, now: int, tools: Tools) -> tuple[Led, str, list[Happening]]:
    """Go on after a stop; after a long one it is announced and there is a breath to come in."""
    how = taking(led, now, tools)
    if how.shape is None:
        led, dropped = jump(led, now, tools, how.index, pos=how.pos, wait=how.run_in)
        return led, "Going on.", dropped
    led = uncredited(led, how.index)
    saying = taken_up(how.shape)
    hush = spoken_ms(saying, tools.lengths, tools.settings.rate)
    led, dropped = jump(led, now, tools, how.index, pos=how.pos, wait=how.run_in, hush=hush)
    spoken = phrase(saying, led, now, "taken up", tools)
    return replace(led, sounds=in_order((), (spoken, *led.sounds.all))), saying.text, dropped


def resume_now(led: Led, now: int) -> Led:
    """After a hold in a stretch of time: it goes on from where it was."""
    anchor = Anchor(now, led.pos, led.pace)
    return replace(led, state=State.LEADING, anchor=anchor, held=None, resume_at=None, offer="")


def resuming(led: Led) -> Led:
    """After a hold in breath: the next moment comes with its own half of the breath."""
    if led.held is None:
        return led
    at = go_on_at(led, led.held)
    end = led.course.moments[led.index].end
    return replace(led, resume_at=at, anchor=Anchor(at, end, led.pace))


def go_on_at(led: Led, held: Held) -> int:
    """When a held class can go on so that breath stays even: the end of this half or the next."""
    following = led.index + 1
    if held.count and following < len(led.course.moments):
        breath = led.course.moments[following].breath
        if breath is held.breath:
            return held.leaves + held.length(breath.other)
    return held.leaves
