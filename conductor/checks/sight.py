"""Sight: where the teacher cannot see the screen."""

from collections.abc import Iterator

from conductor.checks.case import Case, Check, finding
from conductor.checks.visits import spoken
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.score.model import Moment
from conductor.sides import End, Side
from conductor.stance import Frame, Stance

SCREEN = "view.screen"
_OFF = frozenset({"no", "off", "nothing", "none", "false", "silent"})

UNSEEN = Rule(
    "unseen-side-change",
    Weight.WARNING,
    "sight",
    "While sides change, the teacher sees the screen or hears the voice.",
    "Face down, upside down or turned away, and with the voice off, nothing says which side it is. "
    "`view: {screen: back}` says where the screen stands: front, back, left, right, or side.",
    bad="- come to: downward dog\n- each side: yes\n  speak: nothing\n  steps:\n"
    "    - in: three-legged dog  # here\n    - out: downward dog\n    - stay: 2 breaths",
    good="- come to: downward dog\n- each side: yes\n  steps:\n    - in: three-legged dog\n"
    "    - out: downward dog\n    - stay: 2 breaths",
)


def faces_away(stance: Stance, screen: str) -> bool:
    """Whether the body has its back to the screen; a screen to the side is seen by a glance.

    Facing a long side the head still looks along the mat, so there the heading decides about a
    screen at an end of it; a screen at a long side is behind whoever faces the other one.
    """
    if screen in set(End):
        return stance.heading is not End(screen)
    if screen in set(Side):
        return stance.frame is Frame.LONG and stance.wall is not Side(screen)
    return False


def _voice_off(case: Case) -> bool:
    """Whether the plan itself switches the voice off."""
    options = case.score.meta.options
    if "voice.off" in options:
        return options["voice.off"].lower() not in _OFF
    return any(options.get(name, "").lower() in _OFF for name in ("voice.speak", "voice.sound"))


def _unseen(case: Case, screen: str) -> Iterator[tuple[int, int]]:
    """Stretches of moments in which the screen cannot be seen."""
    first: int | None = None
    moments = case.score.moments
    for index, moment in enumerate(moments):
        if case.score.shapes[moment.shape].unseen or faces_away(moment.stance, screen):
            first = index if first is None else first
        elif first is not None:
            yield first, index
            first = None
    if first is not None:
        yield first, len(moments)


def _silent(moment: Moment, off: bool) -> bool:
    return off or (moment.words.form == "nothing" and not moment.lines)


def _blind(case: Case) -> Iterator[Finding]:
    off = _voice_off(case)
    if not any(one.arriving and one.side and _silent(one, off) for one in case.score.moments):
        return
    screen = case.score.meta.options.get(SCREEN, "front").lower()
    sides = _last_sides(case)
    for first, last in _unseen(case, screen):
        moments = case.score.moments[first:last]
        seconds = (moments[-1].end - moments[0].start) / 1000
        if seconds < case.limits["unseen seconds"]:
            continue
        for index, moment in enumerate(moments[1:], start=first + 1):
            before = sides[index]
            changed = moment.arriving and moment.side and before and moment.side is not before
            if changed and moment.side and _silent(moment, off):
                words = (
                    f"the side changes to the {moment.side.value} ({_shape(case, moment)}) while "
                )
                words += f"the screen cannot be seen for {spoken(seconds)}, and nothing is said"
                hint = "let the voice say it (`speak: short`), or put the screen where it is seen"
                yield finding(UNSEEN, words, moment.origin, hint)


def _shape(case: Case, moment: Moment) -> str:
    return case.score.shapes[moment.shape].name


def _last_sides(case: Case) -> list[Side | None]:
    """The side of the last sided movement before each moment."""
    sides: list[Side | None] = []
    last: Side | None = None
    for moment in case.score.moments:
        sides.append(last)
        last = moment.side or last
    return sides


SIGHT: tuple[Check, ...] = (Check(UNSEEN, _blind),)
