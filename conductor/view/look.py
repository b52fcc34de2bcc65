"""A snapshot and a time become the one picture that both front ends show."""

from conductor.engine.model import Snapshot, State
from conductor.score.model import Moment
from conductor.sides import Breath
from conductor.view.actions import EVERY, Action
from conductor.view.clean import clean
from conductor.view.faces import BREATHS, SIGNS, ahead, face, next_index, part_of, place_of
from conductor.view.hints import hint
from conductor.view.model import View
from conductor.view.spell import against, clock, left, span

STATE_WORDS = {
    State.READY: "ready to begin",
    State.ARRIVING: "coming in",
    State.LEADING: "",
    State.HOLDING: "HOLDING",
    State.STOPPED: "STOPPED",
    State.FINISHED: "finished",
}
LAST_BREATH = 2  # half breaths before a shape is left, when what comes must be read


def look(
    snapshot: Snapshot, now: int, trouble: str = "", actions: tuple[Action, ...] = EVERY
) -> View:
    """The picture of the class at `now` (ms); `trouble` is what the sound has to say."""
    if snapshot.state in (State.STOPPED, State.FINISHED):
        now = snapshot.now
    score, moment = snapshot.score, snapshot.score.moments[snapshot.index]
    following = next_index(score, snapshot.index)
    breath = _breath(snapshot, moment)
    words, tally = _count(snapshot, moment, now)
    return View(
        state=snapshot.state,
        state_words=_state_words(snapshot),
        title=clean(score.meta.title),
        part=part_of(score, snapshot.index),
        place=place_of(moment),
        now=face(score, snapshot.index, snapshot.level),
        next=None if following is None else face(score, following, snapshot.level),
        ahead=ahead(score, snapshot.index, snapshot.level),
        emphasis=_emphasis(snapshot, following),
        breath=breath,
        sign=SIGNS[breath],
        fraction=_fraction(snapshot, now),
        count=words,
        tally=tally,
        elapsed=clock(now - snapshot.begun) if snapshot.state is not State.READY else clock(0),
        to_end=left(snapshot.ends_at - now),
        standing=_standing(snapshot),
        saying=clean(snapshot.saying),
        notes=_notes(moment),
        reply=clean(snapshot.reply.told if snapshot.reply else snapshot.begin_now),
        refused=snapshot.reply is not None and not snapshot.reply.done,
        offer=_offer(snapshot),
        owed=owed(snapshot),
        trouble=clean(trouble),
        keys=hint(snapshot.state, actions, snapshot.silenced),
        quiet=snapshot.quiet,
        silenced=snapshot.silenced,
    )


def _standing(snapshot: Snapshot) -> str:
    """Where the class stands against its plan, and whether it is kept to it."""
    said = against(snapshot.ends_at - snapshot.planned_end)
    return f"{said}, kept to the clock" if snapshot.keeps else said


def _state_words(snapshot: Snapshot) -> str:
    """The state; a hold that is about to end says so, so that go on is not asked twice."""
    if snapshot.state is State.HOLDING and snapshot.resumes_at is not None:
        return "going on with the next breath"
    return STATE_WORDS[snapshot.state]


def _breath(snapshot: Snapshot, moment: Moment) -> str:
    """The breath now; while holding it goes on from the moment's own half."""
    breath = snapshot.breath or moment.breath
    if snapshot.breath is None and snapshot.state is State.HOLDING and snapshot.held % 2:
        breath = breath.other
    return BREATHS[breath]


def _fraction(snapshot: Snapshot, now: int) -> int:
    if snapshot.leaves is None or snapshot.state in (State.READY, State.ARRIVING):
        return 0
    length = max(snapshot.leaves - snapshot.entered, 1)
    return min(max((now - snapshot.entered) * 1000 // length, 0), 1000)


def _count(snapshot: Snapshot, moment: Moment, now: int) -> tuple[str, str]:
    """How far it is, in words and in a few signs."""
    if snapshot.state in (State.READY, State.FINISHED):
        return "", ""
    if snapshot.state is State.ARRIVING:
        seconds = max(-(-(snapshot.entered - now) // 1000), 0)
        return f"in {seconds} s", str(seconds)
    if snapshot.state is State.HOLDING:
        breaths = snapshot.held // 2 + 1
        return f"held breath {breaths}", f"+{breaths}"
    if moment.breath is Breath.FREE or _timed(snapshot, moment):
        words = left(_left(snapshot, now))
        return f"{words} left", words.removesuffix(" min") if ":" in words else words
    breath, of = moment.of_stay
    return (f"breath {breath} of {of}", f"{breath}/{of}") if of > 0 else ("", "")


def _timed(snapshot: Snapshot, moment: Moment) -> bool:
    hold = snapshot.score.holds.get(moment.hold)
    return hold is not None and hold.timed


def _left(snapshot: Snapshot, now: int) -> int:
    """Milliseconds left of a stretch of time, all its moments together."""
    moments, index = snapshot.score.moments, snapshot.index
    here = moments[index]
    rest = 0
    for moment in moments[index + 1 :]:
        if not here.hold or moment.hold != here.hold:
            break
        rest += moment.length * snapshot.pace // 1000
    own = here.length * snapshot.pace // 1000
    leaves = snapshot.entered + own if snapshot.leaves is None else snapshot.leaves
    return max(leaves - now, 0) + rest


def _emphasis(snapshot: Snapshot, following: int | None) -> str:
    """What must be read from the mat: the shape now, or also the one that comes."""
    if following is None or snapshot.state is State.HOLDING:
        return "now"
    moment = snapshot.score.moments[snapshot.index]
    if moment.breath is Breath.FREE:
        return "now"
    return "now" if following - snapshot.index > LAST_BREATH else "both"


def _notes(moment: Moment) -> tuple[str, ...]:
    """What the teacher wrote for themselves, and the other ways of the moment."""
    ways = [f"{one.level}: {one.text or one.shape}" for one in moment.variants]
    return tuple(clean(words) for words in (moment.note, *ways) if words)


def _offer(snapshot: Snapshot) -> str:
    """The resting shape offered; a name of the score's shapes is shown as one."""
    info = snapshot.score.shapes.get(snapshot.offer)
    return clean(info.name if info else snapshot.offer)


def owed(snapshot: Snapshot) -> str:
    """The sides led for less time than the other: "left side owed, 2 min 10 s"."""
    return ", ".join(f"{one.side} side owed, {span(one.ms)}" for one in snapshot.owed)
