"""Happenings in words fit to print, with the data a journal needs."""

from conductor.engine.led import Held, Led, Placed
from conductor.engine.model import Happening, State
from conductor.score.sounds import Bell
from conductor.sides import Breath

BREATHS = {Breath.IN: "Inhale", Breath.OUT: "Exhale", Breath.FREE: "At your own breath"}
STATES = {
    State.READY: "Ready.",
    State.ARRIVING: "Coming in.",
    State.LEADING: "Leading.",
    State.HOLDING: "Holding; breathe on.",
    State.STOPPED: "Stopped.",
    State.FINISHED: "The class is over.",
}


def told_state(led: Led, now: int) -> Happening:
    """The state has changed."""
    words = "Silence." if led.silenced and led.state is State.STOPPED else STATES[led.state]
    kind = "finished" if led.state is State.FINISHED else "state"
    data = (("state", str(led.state)), ("index", led.index), ("pos", led.pos), ("pace", led.pace))
    return Happening(now, kind, here(led), words, data)


def here(led: Led) -> str:
    """The id of the moment in which the class stands, or to which it is coming in."""
    return led.course.moments[led.index].id


def told_part(led: Led, now: int) -> Happening:
    """Another part has been entered."""
    moment = led.course.moments[led.index]
    parts = led.course.score.parts
    name = parts[moment.part].name if moment.part < len(parts) else ""
    return Happening(now, "part", moment.id, name, (("part", moment.part),))


def told_moment(led: Led, now: int) -> Happening:
    """A moment has been entered."""
    moment = led.course.moments[led.index]
    data: list[tuple[str, str | int]] = [
        ("index", led.index),
        ("shape", moment.shape),
        ("breath", str(moment.breath)),
        ("start", moment.start),
        ("length", moment.length),
        ("pace", led.pace),
        ("pass", led.pass_no),
    ]
    if moment.side:
        data.append(("side", str(moment.side)))
    if moment.hold:
        data.append(("hold", moment.hold))
    return Happening(now, "moment", moment.id, moment_words(led), tuple(data))


def moment_words(led: Led) -> str:
    """A moment in a line: "Exhale: warrior two (right), breath 2 of 5"."""
    moment = led.course.moments[led.index]
    side = f" ({moment.side})" if moment.side else ""
    breath, of = moment.of_stay
    stay = f", breath {breath} of {of}" if of else ""
    return f"{BREATHS[moment.breath]}: {led.course.shape(led.index)}{side}{stay}"


def told_sound(placed: Placed, now: int) -> Happening:
    """A cue or a bell is due."""
    sound = placed.sound
    data: tuple[tuple[str, str | int], ...] = (("slot", sound.id.slot), ("pass", sound.id.pass_no))
    data += (("late", placed.late),) if placed.late else ()
    if isinstance(sound.what, Bell):
        strokes = sound.what.strokes
        words = "Bell." if strokes == 1 else f"Bell, {strokes} strokes."
        return Happening(now, "bell", sound.id.moment, words, (*data, ("strokes", strokes)))
    data = (*data, ("form", placed.form), ("ms", placed.length))
    return Happening(now, "cue", sound.id.moment, sound.what.text, data)


def told_mark(led: Led, now: int) -> Happening:
    """A place has been marked."""
    moment = led.course.moments[led.index]
    side = f" ({moment.side})" if moment.side else ""
    words = f"Marked: {led.course.shape(led.index)}{side}."
    return Happening(now, "mark", moment.id, words, (("index", led.index),))


def told_held(led: Led, held: Held, now: int) -> Happening:
    """Half a breath has been counted while the class holds."""
    words = f"{BREATHS[held.breath]}, held breath {held.count // 2 + 1}"
    data = (("held", held.count), ("breath", str(held.breath)), ("index", led.index))
    return Happening(now, "held", here(led), words, data)


def told_offer(led: Led, words: str, now: int) -> Happening:
    """A resting shape is offered."""
    return Happening(now, "offer", here(led), words, (("shape", led.offer),))
