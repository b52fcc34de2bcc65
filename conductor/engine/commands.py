"""What commands do: the deeds the table names, each a pure step from one state to the next.

A deed gives the new state and the words of its reply, or says why there is nothing to do by
raising RefusedError; then nothing has changed.
"""

from collections.abc import Callable, Mapping

from conductor.engine import changes, landing, volume
from conductor.engine.anchor import Anchor, paced
from conductor.engine.descent import shorter_rest, way_down, with_descent
from conductor.engine.led import Held, Led, Sounds, Tools
from conductor.engine.model import Command, Happening, State
from conductor.engine.moves import (
    RefusedError,
    jump,
    pause,
    resume_now,
    resuming,
    take_up,
)
from conductor.engine.phrases import AND_ON, HOLD_HERE
from conductor.engine.sounds import held as held_sounds
from conductor.engine.sounds import in_order, phrase, placed_anew
from conductor.engine.steps import finished
from conductor.engine.undo import undone
from conductor.engine.words import told_mark
from conductor.score.model import Saying, Score
from conductor.sides import Breath
from conductor.values import replace

JUST_BEGUN_MS = 2000  # back, so soon after a shape was entered, means the one before

Done = tuple[Led, str, list[Happening]]
Deed = Callable[[Led, Command, int, Tools], Done]


def begin(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """Begin; a class that must end at a time is fitted first."""
    starts = landing.starts_at(led, now)
    words = "The class begins."
    led = replace(led, begun=now, planned_end=starts + paced(led.course.score.length, led.pace))
    if tools.must_end is not None:
        led = replace(led, planned_end=tools.must_end)
        fitted = landing.fit(led, 0, Anchor(starts, 0, led.pace), tools)
        led = replace(led, course=fitted.course)
        words = f"The class begins: {fitted.words}." if fitted.words else words
    led, dropped = jump(led, now, tools, 0, wait=starts - now)
    return led, words, dropped


def hold(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """Wait in the shape; breath goes on from the half that runs, or from now in free time."""
    moment = led.course.moments[led.index]
    inhale, exhale = (paced(ms, led.pace) for ms in led.course.breaths[led.index])
    held = Held(now, now + inhale, Breath.IN, inhale, exhale)
    pos = led.anchor.score_at(now)
    if not led.course.timed(led.index):
        entered, leaves = led.anchor.now_at(moment.start), led.anchor.now_at(moment.end)
        held = replace(held, entered=entered, leaves=leaves, breath=moment.breath)
        pos = moment.start
    sounds = held_sounds(led, now)
    led = replace(led, state=State.HOLDING, held=held, pos=pos, sounds=sounds)
    led = _with_phrase(led, HOLD_HERE, now, "hold", tools)
    return led, f"Holding in {led.course.shape(led.index)}.", []


def hold_on(led: Led, _: Command, now: int, _tools: Tools) -> Done:
    """Take back a go on that has not taken effect yet."""
    if led.resume_at is None:
        raise RefusedError("The class is holding already.")
    led = replace(led, resume_at=None, sounds=held_sounds(led, now))
    return led, "Holding on.", []


def _with_phrase(led: Led, saying: Saying, now: int, slot: str, tools: Tools) -> Led:
    """Say a fixed phrase now, if nothing else is being said or about to be."""
    spoken = phrase(saying, led, now, slot, tools)
    if any(other.sound.start < spoken.ends and other.form for other in led.sounds.all):
        return led
    coming = led.sounds.all[led.sounds.done :]
    return replace(led, sounds=in_order(led.sounds.begun, (spoken, *coming)))


def let_go(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """Go on after a hold: at the next moment, when its own half of the breath comes."""
    if led.resume_at is not None:
        raise RefusedError("The class goes on with the next breath already.")
    led = replace(led, pass_no=led.pass_no + 1)
    led = resume_now(led, now) if led.course.timed(led.index) else resuming(led)
    led, dropped = placed_anew(led, now)
    return _with_phrase(led, AND_ON, now, "on", tools), "Going on.", dropped


def stop(led: Led, _: Command, now: int, _tools: Tools) -> Done:
    """Everything waits."""
    return pause(led, now), "Stopped.", []


def silence(led: Led, _: Command, now: int, _tools: Tools) -> Done:
    """Everything waits, and nothing but that is shown."""
    if led.silenced:
        raise RefusedError("It is silent, and stays so until you go on.")
    if led.state is not State.STOPPED:
        led = pause(led, now)
    return replace(led, silenced=True), "Silence.", []


def slept(led: Led, command: Command, now: int, _tools: Tools) -> Done:
    """The machine slept: a stop since then."""
    broke = f"The class broke off {_seconds(command.ms)} ago; go on takes it up."
    if led.state is State.STOPPED:
        words = broke if command.word else "The machine slept; the class is stopped."
        return replace(led, slept=True), words, []
    led = replace(pause(led, max(now - command.ms, led.now)), slept=True)
    if command.word:
        return led, broke, []
    return led, f"The machine slept for {_seconds(command.ms)}; the class is stopped.", []


def _seconds(ms: int) -> str:
    seconds = max(round(ms / 1000), 1)
    return f"{seconds} s" if seconds < 120 else f"{seconds // 60} min"


def go_on(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """Take the class up again after a stop."""
    return take_up(led, now, tools)


def _to(led: Led, now: int, tools: Tools, index: int, word: str) -> Done:
    led, dropped = jump(_risen(led, tools, index), now, tools, index)
    return led, f"{word}: {led.course.shape(index)}.", dropped


def _risen(led: Led, tools: Tools, index: int) -> Led:
    """Before the closing again, the way down is led no more and the rest is as it was."""
    above, there = led.above, led.course.moments[index].id
    if above is None or index >= above.closing or above.index_of.get(there) != index:
        return led
    return replace(led, course=changes.made(above.score, tools, led.level), above=None)


def next_(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """Leave this movement or stay for the next."""
    index = led.course.last[led.index] + 1
    if index == len(led.course.moments):
        raise RefusedError("This is the last of the class; end it, or let it run out.")
    here = led.course.shape(led.index)
    led, words, dropped = _to(led, now, tools, index, "Next")
    still = led.course.shape(index) == here  # its next stay may have words of its own
    return led, f"Next, still in {here}." if still else words, dropped


def back(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """Take back the last command, soon after it; else return to the start of this movement or stay.

    If that has just begun, it returns to the one before.
    """
    taken_back = undone(led, now, tools)
    if taken_back is not None:
        return taken_back
    led = replace(led, undo=())
    first = led.course.first[led.index]
    if first and _just_begun(led, first, now):
        first = led.course.first[first - 1]
    return _to(led, now, tools, first, "Back")


def take_back(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """Take back the last command, where there is no shape to return to."""
    taken_back = undone(led, now, tools)
    if taken_back is None:
        raise RefusedError("The class has not begun; begin first.")
    return taken_back


def _just_begun(led: Led, first: int, now: int) -> bool:
    if led.state is State.ARRIVING:
        return True
    if led.state is State.LEADING:
        return now - led.anchor.now_at(led.course.starts[first]) < JUST_BEGUN_MS
    return False


def next_part(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """To the start of the next part."""
    part = led.course.part_beside(led.index, 1)
    if part is None:
        raise RefusedError("This is the last part.")
    return _to_part(led, now, tools, part, "Next part")


def previous_part(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """To the start of the part before."""
    part = led.course.part_beside(led.index, -1)
    if part is None:
        raise RefusedError("This is the first part.")
    return _to_part(led, now, tools, part, "Previous part")


def _to_part(led: Led, now: int, tools: Tools, part: int, word: str) -> Done:
    target = led.course.score.parts[part]
    led, dropped = jump(_risen(led, tools, target.first), now, tools, target.first)
    return led, f"{word}: {target.name}.", dropped


def again(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """Lead this side, round or part once more from its start."""
    return _to(led, now, tools, led.course.again[led.index], "Again")


def go_to(led: Led, command: Command, now: int, tools: Tools) -> Done:
    """To any moment of the class, by its id."""
    index = led.course.index_of.get(command.word)
    if index is None:
        raise RefusedError(
            "There is no such place in the class as it is led now; name a shape or a part."
        )
    return _to(led, now, tools, index, "Go to")


def mark(led: Led, _: Command, now: int, _tools: Tools) -> Done:
    """Mark this place, to be looked at afterwards; the class goes on as it was."""
    told = told_mark(led, now)
    return led, told.words, [told]


def rest(led: Led, _: Command, now: int, tools: Tools) -> Done:
    """Take the shortest way down to the final rest, and leave it its length if there is time."""
    if led.index >= led.course.closing:
        raise RefusedError("The class is in its closing already.")
    down = way_down(led.course, led.index)
    score = with_descent(led.course, led.index, down, led.pass_no)
    going, dropped = _down(led, score, down.entry, now, tools)
    least = shorter_rest(going.course, going.anchor.score_at(led.planned_end))
    if least is not None:
        going, dropped = _down(led, least, down.entry, now, tools)
    by = f" by way of {', '.join(shape.name for shape in down.through)}" if down.through else ""
    short = " The rest is shorter, to end on time." if least is not None else ""
    return going, f"Down to the closing{by}.{short}", dropped


def _down(
    led: Led, score: Score, entry: int, now: int, tools: Tools
) -> tuple[Led, list[Happening]]:
    course = led.course if score is led.course.score else changes.made(score, tools, led.level)
    above = led.above or led.course
    return jump(replace(led, course=course, above=above), now, tools, entry)


def end(led: Led, _: Command, now: int, _tools: Tools) -> Done:
    """End the class here; all sound ends with it."""
    return replace(finished(led, now), sounds=Sounds()), "The class has ended.", []


DEEDS: Mapping[str, Deed] = {
    "begin": begin,
    "hold": hold,
    "hold on": hold_on,
    "let go": let_go,
    "stop": stop,
    "silence": silence,
    "slept": slept,
    "take up": go_on,
    "next": next_,
    "back": back,
    "take back": take_back,
    "next part": next_part,
    "previous part": previous_part,
    "again": again,
    "go to": go_to,
    "rest": rest,
    "end": end,
    "swap": changes.swap,
    "more": changes.more,
    "fewer": changes.fewer,
    "slower": changes.slower,
    "faster": changes.faster,
    "land": landing.land,
    "keep": landing.keep,
    "quiet": changes.quiet,
    "level": changes.level,
    "voice louder": volume.voice_louder,
    "voice softer": volume.voice_softer,
    "bells louder": volume.bells_louder,
    "bells softer": volume.bells_softer,
    "mark": mark,
}
