"""A wish becomes the text of a plan: laid out, tuned to its length, written."""

import shlex
from collections.abc import Iterator, Mapping
from random import Random

from conductor.draft import words
from conductor.draft.arc import Arc
from conductor.draft.choice import Hold
from conductor.draft.graph import shapes
from conductor.draft.peak import Peak
from conductor.draft.text import Page, text
from conductor.draft.tree import Length, measure
from conductor.draft.wish import MEANS, CannotError, Wish
from conductor.values import Struct

REST_STEP_S = 10


TRIES = 4  # layouts drawn before a wish is refused


class Draft(Struct, frozen=True):
    """A drafted plan, what it leads up to, and how many layouts were drawn for it."""

    text: str
    title: str
    peak: Peak
    tries: int = 1


def drafts(wish: Wish) -> Iterator[Draft]:
    """Drafts of a wish, the one to take first; the same wish gives the same on every machine.

    A layout whose stays cannot meet the length is passed over; when all are, it is said why.
    """
    why: CannotError | None = None
    met = False
    for attempt in range(TRIES):
        try:
            yield _drafted(wish, attempt)
            met = True
        except CannotError as error:
            why = why or error
    if why is not None and not met:
        raise why


def drafted(wish: Wish) -> Draft:
    """The first draft of a wish."""
    return next(drafts(wish))


def _drafted(wish: Wish, attempt: int) -> Draft:
    chance = Random(f"{wish.seed}/{wish.focus}/{attempt}")  # noqa: S311 -- chance of a plan
    arc = Arc(wish, chance)
    arc.lay()
    pen = arc.pen
    whole = measure([step for part in arc.parts for step in part.steps], pen.flows, wish.tempo)
    amounts = tuned(whole, pen.bounds, wish)
    title = wish.title or pen.one(words.TITLES[wish.focus])
    page = Page(
        head=_head(wish, arc.peak),
        title=title,
        people=wish.people,
        minutes=wish.minutes,
        tempo=wish.tempo,
        first_side=wish.first_side.value,
        flows=pen.flows,
        about={"link": "The passage between standing sequences.", **arc.about},
        parts=tuple(arc.parts),
        amounts=amounts,
    )
    return Draft(text(page), title, arc.peak, attempt + 1)


def _head(wish: Wish, peak: Peak) -> tuple[str, ...]:
    return (
        f"A first plan of {wish.minutes} minutes, {wish.focus}: {MEANS[wish.focus]}.",
        f"The peak is {shapes()[peak.shape].name}. It is a start, not a finished class: change",
        "words, shapes, rounds and stays as you like, then let `conductor check` look at it.",
        "Stays with `may stretch` meet the length by themselves; `conductor language` shows every",
        "key, `conductor shape NAME` what prepares a shape, what undoes it, its usual cautions.",
        "This replaces neither a teacher's training nor medical advice.",
        "",
        "The same again, and another seed for another class:",
        command(wish),
    )


def command(wish: Wish) -> str:
    """The command that drafts this wish again."""
    breath = f"{wish.tempo.inhale / 1000:g} s in, {wish.tempo.exhale / 1000:g} s out"
    told = {
        "--length": f"{wish.minutes}min",
        "--focus": wish.focus.value,
        "--for": wish.people,
        "--breath": breath,
        "--first-side": wish.first_side.value,
        "--title": wish.title,
        "--seed": str(wish.seed),
    }
    options = (f"{name} {shlex.quote(value)}" for name, value in told.items() if value)
    return f"conductor new {' '.join(options)}"


def tuned(whole: Length, bounds: Mapping[int, Hold], wish: Wish) -> dict[int, int]:
    """Breaths for each stay such that the class lasts as asked, within the last ten seconds.

    What is left is given or taken a breath at a time, in turn, then by the rest in steps of ten
    seconds; the stays keep room on both sides, for the class that starts late.
    """
    amounts = {key: bounds[key].usual for key in (*whole.breaths, *whole.seconds)}
    breath = wish.tempo.breath
    left = wish.length - _lasts(whole, amounts, breath)
    left = _in_turn(whole, bounds, amounts, left, breath)
    for key, times in whole.seconds.items():
        step = round(left / 1000 / times / REST_STEP_S) * REST_STEP_S
        amounts[key] = min(max(amounts[key] + step, bounds[key].least), bounds[key].most)
    least = {key: bounds[key].least for key in amounts}
    most = {key: bounds[key].most for key in amounts}
    if _lasts(whole, least, breath) > wish.length or _lasts(whole, most, breath) < wish.length:
        raise CannotError(_why(_lasts(whole, least, breath), _lasts(whole, most, breath), wish))
    return amounts


def _in_turn(
    whole: Length, bounds: Mapping[int, Hold], amounts: dict[int, int], left: int, breath: int
) -> int:
    """Share what is left among the stays, one breath each in turn; gives what nobody took."""
    sign = 1 if left > 0 else -1

    def room(key: int) -> int:
        return bounds[key].most - amounts[key] if sign > 0 else amounts[key] - bounds[key].least

    while True:
        may = [
            key
            for key, times in whole.breaths.items()
            if room(key) > 0 and (left < 0 if sign < 0 else times * breath <= left)
        ]
        if not may:
            return left
        key = max(may, key=lambda one: (room(one), -one))
        amounts[key] += sign
        left -= sign * whole.breaths[key] * breath


def _lasts(whole: Length, amounts: Mapping[int, int], breath: int) -> int:
    breaths = sum(amounts[key] * times for key, times in whole.breaths.items())
    seconds = sum(amounts[key] * times for key, times in whole.seconds.items())
    return whole.fixed + breaths * breath + 1000 * seconds


def _why(least: int, most: int, wish: Wish) -> str:
    bound = (
        f"at least {least / 60_000:.1f}" if least > wish.length else f"at most {most / 60_000:.1f}"
    )
    return f"at this breath such a class takes {bound} min: give another length or breath"
