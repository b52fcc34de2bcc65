"""Changes to a class under way: pace, breaths, sides, voice. The position stays."""

from collections.abc import Callable, Sequence

from conductor.engine.anchor import Anchor, paced
from conductor.engine.course import Course, course
from conductor.engine.led import PACES, Led, Tools
from conductor.engine.model import Command, Happening, State
from conductor.engine.moves import RefusedError, resuming
from conductor.engine.owing import exchanged
from conductor.engine.sounds import placed_anew
from conductor.engine.stay import Stay, changed, left, stay
from conductor.engine.swap import swapped
from conductor.score.model import Score
from conductor.settings import BELLS_DBS, VOICE_DBS
from conductor.values import replace

NEXT_WAY = ">"  # no way can be called so
LEVELS = {"": "as written", "ease": "gentler", "more": "fuller", "or": "the other way"}

Done = tuple[Led, str, list[Happening]]


def made(score: Score, tools: Tools, level: str) -> Course:
    """A course of a score: its cues by the injected step of timing."""
    cues, _ = tools.cueing(score, tools.lengths, tools.settings, level)
    return course(score, cues)


def pos_at(led: Led, now: int) -> int:
    """Where the score stands now (ms), or will be taken up."""
    return led.anchor.score_at(now) if led.state is State.LEADING else led.pos


# -- pace ------------------------------------------------------------------------------------


def slower(led: Led, _: Command, now: int, _tools: Tools) -> Done:
    """Every breath from here on a little longer."""
    return _at_pace(led, now, PACES.step, "slow")


def faster(led: Led, _: Command, now: int, _tools: Tools) -> Done:
    """Every breath from here on a little shorter."""
    return _at_pace(led, now, -PACES.step, "fast")


def _at_pace(led: Led, now: int, by: int, word: str) -> Done:
    pace = led.pace + by
    if pace not in PACES:
        raise RefusedError(f"This is as {word} as it goes.")
    led, dropped = placed_anew(at_pace(led, now, pace), now)
    return led, f"Breaths at {pace / 10:g} % of their length.", dropped


def at_pace(led: Led, now: int, pace: int) -> Led:
    """Lead at another pace from here on; sounds are not placed anew yet."""
    led = replace(led, pace=pace)
    if led.state is State.LEADING:
        led = replace(led, anchor=Anchor(now, led.anchor.score_at(now), pace))
    elif led.state is State.ARRIVING:
        led = replace(led, anchor=replace(led.anchor, pace=pace))
    elif led.held is not None:
        inhale, exhale = (paced(ms, pace) for ms in led.course.breaths[led.index])
        led = replace(led, held=replace(led.held, inhale=inhale, exhale=exhale))
        led = resuming(led) if led.resume_at is not None else led
    return led


# -- the score -------------------------------------------------------------------------------


def on_course(led: Led, new: Course, index: int, now: int) -> tuple[Led, list[Happening]]:
    """Lead another score from the same place: nothing that has begun moves."""
    shift = new.starts[index] - led.course.starts[led.index]
    led = replace(
        led,
        course=new,
        index=index,
        pos=led.pos + shift,
        anchor=replace(led.anchor, score=led.anchor.score + shift),
        pass_no=led.pass_no + 1,
    )
    if led.resume_at is not None and led.state is State.HOLDING:
        led = resuming(led)
    return placed_anew(led, now)


def more(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """One breath more in the present stay, and on the other side if that is still to come."""
    return _resized(led, now, tools, 1)


def fewer(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """One breath fewer in the present stay, and on the other side if that is still to come."""
    return _resized(led, now, tools, -1)


def _resized(led: Led, now: int, tools: Tools, by: int) -> Done:
    here = stay(led.course, led.index)
    if here is None:
        raise RefusedError("There is no stay here to change.")
    if by < 0 and left(led.course, led.index, here.hold, pos_at(led, now)) < 1:
        raise RefusedError("There is no whole breath left to take out.")
    score = changed(led.course, led.index, here, by)
    led, dropped = on_course(led, made(score, tools, led.level), led.index, now)
    return led, _resized_words(here, by), dropped


def _resized_words(here: Stay, by: int) -> str:
    words = "One breath more." if by > 0 else "One breath fewer."
    if here.mates:
        return f"{words} The other side gets the same."
    return f"{words} The other side has been led already." if here.led else words


def swap(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """We are on the other side: this pass and its mate exchange."""
    moment = led.course.moments[led.index]
    if not moment.pass_key:
        raise RefusedError("This passage has no other side.")
    if not led.course.mate(led.index):
        raise RefusedError("The other side of this passage is not in the class.")
    score, index = swapped(led.course, led.index)
    sides = exchanged(led.sides, moment.pass_key, led.course.mate(led.index))
    led = replace(led, swapped=not led.swapped, sides=sides)
    led, dropped = on_course(led, made(score, tools, led.level), index, now)
    side = led.course.moments[led.index].pass_side
    return led, f"We are on the {side}." if side else "Sides exchanged.", dropped


def level(led: Led, command: Command, now: int, tools: Tools) -> Done:
    """Lead another of the ways the plan has: by its name, or the one after the present one."""
    there = led.course.levels
    word = command.word
    if word == NEXT_WAY:
        word = there[(there.index(led.level) + 1) % len(there)] if led.level in there else ""
    if word not in {*LEVELS, *there}:
        raise RefusedError(f"No way is called {word!r} here. {ways_told(there)}")
    if word == led.level:
        one = len(there) == 1 and command.word == NEXT_WAY
        raise RefusedError(
            ways_told(there) if one else f"The class is led {way_named(word)} already."
        )
    led = replace(led, level=word)
    new = made(led.course.score, tools, led.level)
    led, dropped = on_course(led, new, led.index, now)
    return led, f"Led {way_named(word)}.", dropped


def way_named(level: str) -> str:
    """How a way is called in replies."""
    return LEVELS.get(level, f"the way called {level}")


def ways_told(there: Sequence[str]) -> str:
    """Which ways a class has beside the written one."""
    if len(there) == 1:
        return "The plan has no other ways."
    return f"The plan has: {', '.join(there[1:])}."


def quiet(led: Led, _: Command, _now: int, _tools: Tools) -> Done:
    """The voice falls quiet, or speaks again."""
    return replace(led, quiet=not led.quiet), "Voice on." if led.quiet else "Voice off.", []


# -- whether there is anything to do ----------------------------------------------------------


def _can_fewer(led: Led) -> bool:
    here = stay(led.course, led.index)
    return here is not None and left(led.course, led.index, here.hold, pos_at(led, led.now)) > 0


MAY: dict[str, Callable[[Led], bool]] = {
    "slower": lambda led: led.pace + PACES.step in PACES,
    "faster": lambda led: led.pace - PACES.step in PACES,
    "more": lambda led: stay(led.course, led.index) is not None,
    "fewer": _can_fewer,
    "swap": lambda led: bool(led.course.mate(led.index)),
    "next": lambda led: led.course.last[led.index] + 1 < len(led.course.moments),
    "next part": lambda led: led.course.part_beside(led.index, 1) is not None,
    "previous part": lambda led: led.course.part_beside(led.index, -1) is not None,
    "rest": lambda led: led.index < led.course.closing,
    "silence": lambda led: not led.silenced,
    "land": lambda led: led.planned_end > led.now,
    "hold on": lambda led: led.resume_at is not None,
    "let go": lambda led: led.resume_at is None,
    "voice louder": lambda led: led.voice_db < VOICE_DBS[1],
    "voice softer": lambda led: led.voice_db > VOICE_DBS[0],
    "bells louder": lambda led: led.bells_db < BELLS_DBS[1],
    "bells softer": lambda led: led.bells_db > BELLS_DBS[0],
    "take back": lambda led: led.to_take_back(led.now) is not None,
}
