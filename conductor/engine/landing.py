"""Meeting the time: landing asked for and done, a late start, and a class kept to the clock.

What landing would do is said before it is done: the first asking only tells, a second one within
ten seconds does it.
"""

from conductor.engine.anchor import Anchor, paced
from conductor.engine.changes import Done, made, on_course, pos_at
from conductor.engine.course import Course
from conductor.engine.led import Led, Refitting, Tools
from conductor.engine.model import Command, Do, Happening, Reply, State
from conductor.engine.moves import RUN_IN_MS, RefusedError, resuming, taking
from conductor.score.model import Score
from conductor.timing.model import Refit
from conductor.timing.telling import span, told
from conductor.values import Struct, replace

ASKED_MS = 10_000  # so long after the first asking a second one does it
AGAIN = "Again does it."
SOON_MS = 1000  # a difference below that is none
LITTLE_MS = 10_000  # of a late start: the rest takes it and nobody need know


class Fitted(Struct, frozen=True):
    """The course fitted to a time, what that changes, and how well it does, in words."""

    course: Course
    changes: str
    misses: str

    @property
    def words(self) -> str:
        """All of it as one line."""
        return "; ".join(words for words in (self.changes, self.misses) if words)


def land(led: Led, command: Command, now: int, tools: Tools) -> Done:
    """Tell what it takes to end on time (or `ms` from now); asked again, do it."""
    goal = now + command.ms if command.ms else led.planned_end
    asked = led.asked is not None and now <= led.asked
    led = replace(led, planned_end=goal, asked=None)
    index, pos, at = _standing(led, now, tools)
    fitted = fit(led, index, Anchor(at, pos, led.pace), tools)
    name = tools.naming(goal) if tools.naming else "time"
    if not fitted.changes:
        return led, _as_it_is(fitted), []
    if not asked:
        led = replace(led, asked=now + ASKED_MS)
        return led, f"Land on {name}: {fitted.words}. {AGAIN}", []
    led, dropped = _onto(led, index, pos, fitted.course, now)
    return led, f"Landing on {name}: {fitted.words}.", dropped


def _as_it_is(fitted: Fitted) -> str:
    if not fitted.misses:
        return "It ends on time as it is."
    return f"No stay or passage ahead may change for it: {fitted.misses}."


def _onto(led: Led, index: int, pos: int, course: Course, now: int) -> tuple[Led, list[Happening]]:
    """Lead a fitted course from where the class stands."""
    where = course.index_of.get(led.course.moments[led.index].id)
    if where is None and led.state is State.STOPPED:  # the shape to come in to is further back
        led = replace(led, index=index, pos=pos)
        where = course.index_of.get(led.course.moments[index].id)
    if where is None:
        raise RefusedError("The class cannot be fitted from here.")
    return on_course(led, course, where, now)


def _standing(led: Led, now: int, tools: Tools) -> tuple[int, int, int]:
    """From where the class can be fitted: the moment, the score time reached in it, and when."""
    if led.state is State.STOPPED:
        how = taking(led, now, tools)
        return how.index, how.pos, now + how.run_in
    if led.state is State.ARRIVING:
        return led.index, led.pos, led.anchor.now
    if led.held is not None and not led.course.timed(led.index):
        goes_on = resuming(led).resume_at
        return led.index, led.course.moments[led.index].end, goes_on or led.held.leaves
    return led.index, pos_at(led, now), now


def fit(led: Led, index: int, anchor: Anchor, tools: Tools, *, passages: bool = True) -> Fitted:
    """Fit moments from `index` on to the planned end, once the class stands at the anchor."""
    left_ms = anchor.score_at(led.planned_end) - anchor.score
    if left_ms <= 0:
        raise RefusedError("The time it should end at has passed.")
    done = anchor.score - led.course.starts[index]
    try:
        result = tools.refitting(led.course.score, index, left_ms, done, passages=passages)
    except ValueError as error:
        raise RefusedError(f"The class cannot be fitted: {error}.") from error
    course = made(result.score, tools, led.level) if result.changes else led.course
    return Fitted(course, told(led.course.score, result), _missing(result, anchor.pace))


def _missing(result: Refit, pace: int) -> str:
    """By how much it is missed, as the clock has it: breaths are longer or shorter by now."""
    over = paced(result.misses_by_ms, pace)
    if abs(over) < SOON_MS:
        return ""
    return f"it ends {span(abs(over))} {'late' if over > 0 else 'early'}{_even(result)}"


def _even(result: Refit) -> str:
    return " even so" if result.changes else ""


# -- a late start ----------------------------------------------------------------------------


def starts_at(led: Led, now: int) -> int:
    """When the first moment is entered if the class begins now (now ms)."""
    return now + max(RUN_IN_MS, paced(led.course.lead(0), led.pace))


def waiting(led: Led, now: int, tools: Tools) -> str:
    """What beginning now would change of a class that has its end; "" if there is none."""
    if led.state is not State.READY or tools.must_end is None:
        return ""
    anchor = Anchor(starts_at(led, now), 0, led.pace)
    left_ms = anchor.score_at(tools.must_end)
    return begin_now(led.course.score, left_ms, tools.refitting, led.pace)


def begin_now(score: Score, left_ms: int, refitting: Refitting, pace: int = 1000) -> str:
    """What it means to begin at once a class that has to be over in `left_ms` of its score."""
    if left_ms <= 0:
        return "The time it should end at has passed."
    over = paced(score.length - left_ms, pace)
    if abs(over) < LITTLE_MS:
        return "Begin now: it ends on time as it is."
    result = refitting(score, 0, left_ms, 0, passages=True)
    words = "; ".join(
        part for part in (told(score, result, brief=False), _missing(result, pace)) if part
    )
    return f"Begin now: {_about(abs(over))} {'less' if over > 0 else 'more'}. {_capital(words)}."


def _about(ms: int) -> str:
    """A length that changes while it is read: whole minutes from two on."""
    return f"{round(ms / 60_000)} min" if ms >= 120_000 else span(ms)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


# -- kept to the clock -----------------------------------------------------------------------


def keep(led: Led, _: Command, _now: int, _tools: Tools) -> Done:
    """Keep to the clock from now on, or no longer."""
    led = replace(led, keeps=not led.keeps, kept=0)
    if led.keeps:
        return led, "Kept to the clock: stays give and take by themselves.", []
    return led, "No longer kept to the clock.", []


def _more(led: Led, late: bool) -> str:
    """Where stays could not mend it: what could."""
    ahead = led.course.moments[led.index + 1 :]
    able = late and any(one.drop not in ("", led.course.moments[led.index].drop) for one in ahead)
    return f" {str(Do.LAND).capitalize()} tells what may go." if able else ""


def kept(led: Led, when: int, tools: Tools) -> tuple[Led, list[Happening]]:
    """As a moment begins: where the class is a breath off, let its stays give or take.

    Passages only go when that is asked for. What stays cannot mend is tried, and told, once, and
    again only when it has grown by a breath.
    """
    off = led.anchor.now_at(led.course.score.length) - led.planned_end
    breath = paced(sum(led.course.breaths[led.index]), led.pace)
    if abs(off) <= breath:
        return (replace(led, kept=0) if led.kept else led), []
    if abs(off - led.kept) <= breath:
        return led, []
    anchor = Anchor(when, led.course.starts[led.index], led.pace)
    try:
        fitted = fit(led, led.index, anchor, tools, passages=False)
    except RefusedError:
        return replace(led, kept=off), []
    dropped: list[Happening] = []
    if fitted.changes:
        led, dropped = _onto(led, led.index, anchor.score, fitted.course, when)
    left = led.anchor.now_at(led.course.score.length) - led.planned_end
    done = "Kept to the clock" if fitted.changes else "No stay ahead can keep to the clock"
    words = f"{done}: {fitted.words}.{_more(led, left > breath)}"
    led = replace(led, kept=left if abs(left) > breath else 0, reply=Reply(True, words))
    return led, [*dropped, Happening(when, "kept", words=words)]
