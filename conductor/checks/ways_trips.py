"""Trips: how often the class goes down and up again, and props that nobody had time to fetch."""

import re
from collections.abc import Iterator

from conductor.body.regions import Region, region
from conductor.checks.case import Case, Check, finding
from conductor.checks.visits import visits
from conductor.findings import Finding, Weight
from conductor.patterns import pattern
from conductor.rules import Rule
from conductor.score.model import Moment
from conductor.sides import Breath
from conductor.stance import Stance

FAMILY = "ways"
AGAIN_MS = 300_000  # a prop put down so long ago has to be found again

TRIPS_RULE = Rule(
    "floor-trips",
    Weight.REMARK,
    FAMILY,
    "The class does not go down to the floor and up to standing again and again.",
    "Each trip costs breath and warmth, and knees; keep standing together and floor together.",
    bad="- come to: easy seat\n- rounds: 5\n  steps:\n    - free: 20 s\n      to: mountain\n"
    "      say: Come up to stand.\n    - stay: 2 breaths\n    - free: 20 s  # here\n"
    "      to: easy seat\n      say: Come down to sit.\n    - stay: 2 breaths",
    good="- come to: easy seat\n- stay: 10 breaths\n- free: 20 s\n  to: mountain\n"
    "  say: Come up to stand.\n- stay: 10 breaths",
)
PROP = Rule(
    "prop-unfetched",
    Weight.WARNING,
    FAMILY,
    "There is time to fetch a prop before the movement that needs it.",
    "Half the room would still be looking for it.",
    bad="- come to: mountain\n- in: arms overhead\n- out: standing fold  # here\n  with: block",
    good="- come to: mountain\n- free: 20 s\n  say: Fetch a block, and stand.\n"
    "- in: arms overhead\n- out: standing fold\n  with: block",
)
_PROPS = {
    "block": r"\b(?:blocks?|bricks?)\b",
    "strap": r"\b(?:straps?|belts?)\b",
    "bolster": r"\bbolsters?\b",
    "blanket": r"\bblankets?\b",
    "chair": r"\b(?:on|with|from|against) (?:a|the|your) chair\b|^chair$",
    "wall": r"\bwall\b",
}
_FINDERS = {prop: pattern(words, re.IGNORECASE) for prop, words in _PROPS.items()}
_NEEDS = {
    "supported-bridge": "block",
    "supported-fish": "bolster",
    "supported-childs-pose": "bolster",
    "supported-final-rest": "bolster",
    "legs-up-the-wall": "wall",
}
_STANDING = frozenset({Region.STANDING})
_DOWN = frozenset({Region.SEAT, Region.HIP, Region.BACK, Region.SIDE, Region.HEELS, Region.ARCH})


def _level(stance: Stance) -> str:
    here = region(stance)
    return "up" if here in _STANDING else "down" if here in _DOWN else ""


def trips(case: Case) -> Iterator[Finding]:
    """Count ways down to the floor, beyond what the length of a class has room for."""
    downs = []
    level = ""
    for visit in visits(case):
        now = _level(visit.stance)
        if level == "up" and now == "down":
            downs.append(visit)
        level = now or level
    hours = case.score.length / 3_600_000
    most = max(
        case.limits["trips to the floor at least"],
        case.limits["trips to the floor an hour"] * hours,
    )
    if case.is_class and len(downs) > most:
        minutes = round(case.score.length / 60_000)
        words = f"the class goes from standing down to the floor {len(downs)} times"
        words += f" in {minutes} min"
        hint = "put what is done on the floor together, and what is done standing"
        yield finding(TRIPS_RULE, words, downs[0].origin, hint)


def props(case: Case) -> Iterator[Finding]:
    """Find props first used on a movement with nothing before it in which to fetch them."""
    used: dict[str, int] = {}
    last: Moment | None = None
    for index, moment in enumerate(case.score.moments):
        for prop in sorted(_props(moment)):
            late = last is not None and case.hurried(moment) and moment.arriving
            known = prop in used and moment.start - used[prop] < AGAIN_MS
            if late and not known and not _fetched(case, index, prop):
                name = case.shape(moment).name
                words = f"the {prop} for {name} has to be fetched within half a breath"
                typed = f"- free: 20 s  (before it)  say: Fetch your {prop}."
                yield finding(PROP, words, moment.origin, typed)
            used[prop] = moment.end
        last = moment


def _props(moment: Moment) -> set[str]:
    with_ = moment.with_
    named = {prop for prop, finder in _FINDERS.items() if with_ and finder.search(with_)}
    needed = _NEEDS.get(moment.shape)
    return named | {needed} if needed and not named else named


def _fetched(case: Case, index: int, prop: str) -> bool:
    """Whether there was a stay just before, or words that sent for the prop in the last minutes."""
    moments = case.score.moments
    start = moments[index].start
    quiet = 0
    for before in reversed(moments[:index]):
        if before.arriving and before.breath is not Breath.FREE and not before.hold:
            break
        quiet += before.length
    if quiet >= case.limits["fetch a prop"] * 1000:
        return True
    for earlier in range(index - 1, -1, -1):
        if start - moments[earlier].start > AGAIN_MS:
            break
        if _FINDERS[prop].search(case.told[earlier]):
            return True
    return False


TRIPS: tuple[Check, ...] = (Check(TRIPS_RULE, trips), Check(PROP, props))
