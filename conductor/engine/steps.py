"""What time alone does to a class: run-ins end, moments follow, breath is counted, cues fall due.

One step at a time, each at its own now, so that it never matters how often anyone looks.
"""

from conductor.engine.landing import kept
from conductor.engine.led import Held, Led, Tools
from conductor.engine.model import Happening, State
from conductor.engine.owing import credited
from conductor.engine.phrases import COUNTED, offered, resting
from conductor.engine.sounds import in_order, phrase
from conductor.engine.words import (
    told_held,
    told_moment,
    told_offer,
    told_part,
    told_sound,
    told_state,
)
from conductor.values import replace

OFFER_AFTER = 4  # half breaths in a shape that loads

Told = list[Happening]


def settled(led: Led, now: int, tools: Tools) -> tuple[Led, Told]:
    """The class at `now` (ms), and what happened on the way; time never goes back."""
    told: Told = []
    while (when := due(led)) is not None and when <= now:
        led, news = _step(led, when, tools)
        told += news
    return (replace(led, now=now) if now > led.now else led), told


def due(led: Led) -> int | None:
    """The next now at which something happens by itself."""
    if led.state in (State.READY, State.STOPPED, State.FINISHED):
        return None
    turn, sound = _turn(led), led.sounds.due
    return turn if sound is None else min(turn, sound)


def _turn(led: Led) -> int:
    """When the run-in, the moment or the held half breath ends."""
    if led.state is State.ARRIVING:
        return led.anchor.now
    if led.held is not None:
        return led.held.leaves
    return led.anchor.now_at(led.course.moments[led.index].end)


def _step(led: Led, when: int, tools: Tools) -> tuple[Led, Told]:
    led = replace(led, now=max(led.now, when))
    if _turn(led) > when or _belongs(led, when):
        return _sound(led, when)
    if led.state is State.ARRIVING:
        led = replace(led, state=State.LEADING, resume_at=None)
        led, told = entered(led, when)
        return led, [told_state(led, when), *told]
    if led.held is not None:
        return _held(led, led.held, when, tools)
    return _next(led, when, tools)


def _belongs(led: Led, when: int) -> bool:
    """Whether a sound of a moment already entered is due: it comes before the next one enters."""
    if led.state is State.ARRIVING or led.sounds.due != when:
        return False
    moment = led.sounds.all[led.sounds.done].key[0]
    return led.course.index_of.get(moment, 0) <= led.index


def _sound(led: Led, when: int) -> tuple[Led, Told]:
    sounds = led.sounds
    told = told_sound(sounds.all[sounds.done], when)
    return replace(led, sounds=replace(sounds, done=sounds.done + 1)), [told]


def entered(led: Led, when: int) -> tuple[Led, Told]:
    """A moment begins; tell its part first if that is another one."""
    part = led.course.moments[led.index].part
    told = [told_moment(led, when)]
    if part != led.part:
        led = replace(led, part=part)
        told.insert(0, told_part(led, when))
    return led, told


def _next(led: Led, when: int, tools: Tools) -> tuple[Led, Told]:
    led = credited(led)
    if led.index + 1 == len(led.course.moments):
        led = finished(led, when)
        return led, [told_state(led, when)]
    led = replace(led, index=led.index + 1)
    led, mended = kept(led, when, tools) if led.keeps else (led, [])
    led, told = entered(led, when)
    return led, [*told, *mended]


def finished(led: Led, when: int) -> Led:
    """The class is over; what rings may ring out."""
    return replace(
        led, state=State.FINISHED, ended=when, held=None, resume_at=None, offer="", silenced=False
    )


def _held(led: Led, held: Held, when: int, tools: Tools) -> tuple[Led, Told]:
    """A held half breath ends: the class goes on if that was asked, else the next one is held."""
    if led.resume_at == when:
        led = replace(led, state=State.LEADING, held=None, resume_at=None, offer="")
        new, told = _next(led, when, tools)
        return new, told if new.state is State.FINISHED else [told_state(led, when), *told]
    breath = held.breath.other
    after = replace(
        held,
        entered=when,
        leaves=when + held.length(breath),
        breath=breath,
        count=held.count + 1,
    )
    led = _counted(replace(led, held=after), after, when, tools)
    told = [told_held(led, after, when)]
    if after.count == OFFER_AFTER:
        led, news = _offer(led, when, tools)
        told += news
    return led, told


def _counted(led: Led, held: Held, when: int, tools: Tools) -> Led:
    """A breath of the hold begins: say which, where that is wished; an offer is said instead."""
    number = held.count // 2
    offers = held.count == OFFER_AFTER and _loads(led)
    begins = held.count % 2 == 0 and not offers
    if not tools.settings.count_aloud or not begins or not 1 <= number <= len(COUNTED):
        return led
    spoken = phrase(COUNTED[number - 1], led, when, f"count{number}", tools)
    coming = [spoken, *led.sounds.all[led.sounds.done :]]
    return replace(led, sounds=in_order(led.sounds.begun, coming))


def _loads(led: Led) -> bool:
    """Whether the shape is one not to be waited in."""
    shape = led.course.score.shapes.get(led.course.moments[led.index].shape)
    return shape is not None and shape.loads


def _offer(led: Led, when: int, tools: Tools) -> tuple[Led, Told]:
    """Two breaths in a shape that loads: offer a resting one."""
    if not _loads(led) or led.resume_at is not None:
        return led, []
    led = replace(led, offer=resting(led.course.score))
    saying = offered(led.offer)
    spoken = phrase(saying, led, when, "offer", tools)
    sounds = in_order(led.sounds.begun, [spoken, *led.sounds.all[led.sounds.done :]])
    return replace(led, sounds=sounds), [told_offer(led, saying.text, when)]
