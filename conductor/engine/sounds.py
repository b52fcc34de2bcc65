"""What should sound, and when: cues and bells of the score placed in now."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping

from conductor.engine.anchor import Anchor
from conductor.engine.course import Course
from conductor.engine.led import Led, Placed, Sounds, Tools
from conductor.engine.model import Happening, State
from conductor.engine.phrases import spoken_ms
from conductor.score.model import Saying
from conductor.score.sounds import Bell, Sound, SoundId
from conductor.settings import STALE_MS
from conductor.timing.model import Cue
from conductor.values import Struct, replace

SLACK_MS = 1000  # a cue stays wanted so long after its reckoned end: the reckoning may be short
RINGS_MS = 12_000  # a bell stays wanted until it has died away
STROKE_MS = 4000  # between strokes of a bell
MOVED_MS = 2000  # a cue already said is said again only if its moment moved away by more

Key = tuple[str, str]


class Stretch(Struct, frozen=True):
    """What to place: moments from `first` on, leaving out what lies at or before `after` in it.

    `after` None: `first` is entered from its start. Nothing starts before `window` (now).
    """

    anchor: Anchor
    first: int
    after: int | None
    window: int
    pass_no: int


def in_order(begun: Iterable[Placed], coming: Iterable[Placed]) -> Sounds:
    """Sounds that were due already, and those that will be."""
    done = tuple(begun)
    both = (*done, *sorted(coming, key=lambda placed: placed.sound.start))
    return Sounds(
        all=both,
        starts=tuple(placed.sound.start for placed in both),
        longest=max((placed.ends - placed.sound.start for placed in both), default=0),
        done=len(done),
    )


def place(
    course: Course, stretch: Stretch, said: Mapping[Key, int]
) -> tuple[list[Placed], list[Happening]]:
    """Place all cues and bells from `first` on; what comes too late is dropped, and told.

    This is the one place that judges lateness. What should have started before the window starts
    with it, one after the other, unless its moment would have begun by then. `said` holds when
    cues already begun were due.
    """
    placed: list[Placed] = bells(course, stretch)
    dropped: list[Happening] = []
    free = stretch.window
    for cue in course.cues:
        if cue.moment < stretch.first or _past(cue, stretch):
            continue
        start, moment = stretch.anchor.now_at(cue.start), course.moments[cue.moment]
        begun = said.get((moment.id, cue.slot))
        if begun is not None and start <= begun + MOVED_MS:
            continue
        late = max(free - start, 0)
        if late > STALE_MS and free > stretch.anchor.now_at(moment.start):
            dropped.append(drop(stretch.window, moment.id, cue.saying, late))
            continue
        placed.append(sound_of(course, cue, start + late, stretch.pass_no, late))
        free = max(free, start + late + cue.length) if late else free
    return placed, dropped


def _past(cue: Cue, stretch: Stretch) -> bool:
    return cue.moment == stretch.first and stretch.after is not None and cue.start <= stretch.after


def drop(now: int, moment: str, what: Saying | Bell, late: int) -> Happening:
    """Say that something was too late to be said."""
    words = what.text if isinstance(what, Saying) else "bell"
    return Happening(now, "dropped", moment, words, (("late", late),))


def sound_of(course: Course, cue: Cue, start: int, pass_no: int, late: int) -> Placed:
    """A cue as a sound."""
    name = SoundId(course.moments[cue.moment].id, pass_no, cue.slot)
    slack = SLACK_MS if cue.measured else SLACK_MS + cue.length
    sound = Sound(name, start, cue.saying, start + STALE_MS)
    ends = start + cue.length + slack
    return Placed(sound, ends, late, cue.form, cue.start, cue.length)


def bells(course: Course, stretch: Stretch) -> list[Placed]:
    """The bells of the moments still to be entered."""
    found = []
    for index in range(stretch.first, len(course.moments)):
        moment = course.moments[index]
        passed = index == stretch.first and stretch.after is not None
        if moment.bells and not passed:
            start = stretch.anchor.now_at(moment.start - moment.struck)
            if start < stretch.window:
                start = stretch.anchor.now_at(moment.start)
            name = SoundId(moment.id, stretch.pass_no, "bell")
            sound = Sound(name, start, Bell(moment.bell, moment.bells), start + STALE_MS)
            found.append(Placed(sound, start + RINGS_MS + STROKE_MS * moment.bells))
    return found


def phrase(saying: Saying, led: Led, now: int, slot: str, tools: Tools) -> Placed:
    """A fixed phrase, said at once."""
    name = SoundId(led.course.moments[led.index].id, led.pass_no, slot)
    length = spoken_ms(saying, tools.lengths, tools.settings.rate)
    sound = Sound(name, now, saying, now + STALE_MS)
    return Placed(sound, now + length + SLACK_MS, form="phrase", length=length)


def ahead(led: Led) -> tuple[Anchor, int, int | None] | None:
    """From which moment on, and after what, sounds are to be placed as the class stands now."""
    start = led.course.starts[led.index]
    if led.state is State.ARRIVING:
        return led.anchor, led.index, None if led.pos == start else led.pos - 1
    if led.state is State.LEADING:
        return led.anchor, led.index, led.anchor.score_at(led.now)
    if led.state is State.HOLDING and led.resume_at is not None:
        return led.anchor, led.index + 1, None
    return None


def placed_anew(led: Led, now: int) -> tuple[Led, list[Happening]]:
    """Place what is still to come once more, after pace or score changed under a running class.

    What has begun keeps its place and goes on, unless it will be said again later.
    """
    begun = led.sounds.begun
    said = {placed.key: placed.sound.start for placed in begun}
    new: list[Placed] = []
    dropped: list[Happening] = []
    where = ahead(led)
    if where is not None:
        anchor, first, after = where
        new, dropped = place(led.course, Stretch(anchor, first, after, now, led.pass_no), said)
    if led.state is State.HOLDING:
        here = led.course.moments[led.index].id
        new += [one for one in led.sounds.all[led.sounds.done :] if one.key[0] == here]
    again = {placed.key for placed in new}
    kept = [one for one in begun if one.key not in again and _matters(led, one, now)]
    return replace(led, sounds=in_order(kept, new)), dropped


def _matters(led: Led, placed: Placed, now: int) -> bool:
    """Whether it still sounds, or belongs to a moment to come (and must not be said twice)."""
    return placed.ends > now or led.course.index_of.get(placed.key[0], -1) > led.index


def held(led: Led, now: int) -> Sounds:
    """While the class waits in a shape: what belongs to it, but nothing of what comes next.

    A stretch of time stands still, so there only what has begun goes on.
    """
    index_of, index = led.course.index_of, led.index
    coming = () if led.course.timed(index) else led.sounds.all[led.sounds.done :]
    mine = [one for one in coming if index_of.get(one.key[0], index) <= index]
    begun = [one for one in led.sounds.begun if index_of.get(one.key[0], index) <= index]
    return in_order([one for one in begun if one.ends > now], mine)


def wanted(led: Led, now: int, horizon: int, tools: Tools) -> tuple[Sound, ...]:
    """The sounds from those still going on now to those starting within the horizon (ms)."""
    if not tools.settings.sound or led.state in (State.READY, State.STOPPED):
        return ()
    starts = led.sounds.starts
    low = bisect_left(starts, now - led.sounds.longest)
    high = bisect_right(starts, now + horizon)
    those = led.sounds.all[low:high]
    heard = (p.sound for p in those if p.ends > now and _heard(p, led, tools))
    return tuple(_as_loud(sound, led) for sound in heard)


def _as_loud(sound: Sound, led: Led) -> Sound:
    """The sound at the volume of now, which holds for one that sounds already too."""
    db = led.bells_db if isinstance(sound.what, Bell) else led.voice_db
    return replace(sound, db=db) if db else sound


def _heard(placed: Placed, led: Led, tools: Tools) -> bool:
    if isinstance(placed.sound.what, Bell):
        return tools.settings.bells
    return not led.quiet


def saying(led: Led, now: int) -> str:
    """The words of the latest cue begun, as long as they matter to the moment that runs."""
    if led.state in (State.READY, State.STOPPED, State.FINISHED):
        return ""
    last = bisect_right(led.sounds.starts, now)
    for placed in reversed(led.sounds.all[max(last - 4, 0) : last]):
        if isinstance(placed.sound.what, Saying):
            return placed.sound.what.text if _matters_now(led, placed, now) else ""
    return ""


def _matters_now(led: Led, placed: Placed, now: int) -> bool:
    first = led.course.first[led.index]
    return placed.ends > now or led.course.index_of.get(placed.key[0], -1) >= first
