"""Time: the class ends on its minute, in proportion."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator

from conductor.checks.case import Case, Check, finding
from conductor.checks.examples import ARRIVE, LONG_WORK, REST, WORK
from conductor.checks.visits import Visit, at_rest, named, spoken, visits
from conductor.findings import Finding, Weight
from conductor.patterns import pattern
from conductor.rules import Rule
from conductor.score.model import Moment, Part
from conductor.spans import Span

WARMING = pattern(
    r"\bwarm|\bawaken|\bopening\b|\bwake up", re.IGNORECASE, "warm|awaken|opening|wake up"
)
MET_MS = 1000  # a class this near to its length meets it
PARTS = 4  # fewer are beginning, middle and end, whose middle may be nearly all
HELD_MS = 10_000  # held, not passed through

_FITTED = (
    "length: 9 min 32 s\nsteps:\n  - come to: easy seat\n  - stay: 4 min\n  - free: 20 s\n"
    "    to: final rest\n  - stay: 5 min{here}\n{stretch}  - bell: 1"
)

PROPORTION = Rule(
    "out-of-proportion",
    Weight.REMARK,
    "time",
    "No part of a class is much too short or too long for the whole.",
    "A warm-up of a few breaths warms nobody, and what one part takes another lacks.",
    bad="- come to: staff\n- in: boat  # here\n- stay: 4 breaths\n- out: staff\n"
    + LONG_WORK
    + REST,
    good=ARRIVE + WORK + "- free: 20 s\n  to: staff\n- in: boat\n- stay: 4 breaths\n" + WORK + REST,
    source="Stephens, Yoga Sequencing (2012): an arc of five parts; Common Yoga Protocol: 6 of 45 "
    "min of loosening; Ward et al. 2013: 10 of 50 min before the work; the shares are common "
    "practice",
)
STIFF = Rule(
    "nothing-may-stretch",
    Weight.REMARK,
    "time",
    "Where a class has a length, something in it may be longer or shorter.",
    "Without that it cannot be landed on time when it starts late. Where the length is missed "
    "besides, that is said instead (length-missed).",
    bad=_FITTED.format(here="  # here", stretch=""),
    good=_FITTED.format(here="", stretch="    may stretch: 4 to 8 min\n"),
)


def _met(case: Case) -> bool:
    """Whether the class is as long as was asked."""
    return abs(case.score.length - case.score.meta.length) < MET_MS


def _part_ms(case: Case, part: Part) -> int:
    return sum(moment.length for moment in case.score.moments[part.first : part.last])


def _longest(moments: Iterable[Moment]) -> Span:
    """The line that takes most time."""
    spent: Counter[Span] = Counter()
    for moment in moments:
        spent[moment.origin] += moment.length
    return spent.most_common(1)[0][0]


def _proportions(case: Case) -> Iterator[Finding]:
    """What takes too much, or else what is left with too little: one fault, said once.

    A class that misses its length has its stays at their bounds, and is out of proportion for that.
    """
    short = case.score.length < 1000 * case.limits["proportion from seconds"]
    if not case.is_class or short or (case.score.meta.length and not _met(case)):
        return
    much = [*_long_parts(case), *_long_rest(case)]
    yield from much or list(_short_warm_up_parts(case)) or _early_work(case)


def _short_warm_up_parts(case: Case) -> Iterator[Finding]:
    """Parts that are called a warm-up and hardly are one, taken together."""
    parts = [part for part in case.score.parts if WARMING.search(part.name) and _led(part)]
    if not parts:
        return
    share = 100 * sum(_part_ms(case, part) for part in parts) / case.score.length
    if share < case.limits["warm-up part share"]:
        names = named([f"“{part.name}”" for part in parts])
        words = f"{names} takes {share:.1f} % of the class"
        hint = "warm up longer, or take that time from another part"
        span = case.score.moments[parts[0].first].origin
        yield finding(PROPORTION, words, span, hint)


def _led(part: Part) -> bool:
    return part.last > part.first


def _early_work(case: Case) -> Iterator[Finding]:
    """The first middling shape that is held, when hardly anything came before it."""
    for visit in visits(case):
        if _works(visit):
            share = 100 * visit.start / case.score.length
            if share < case.limits["warm-up share"]:
                words = f"{visit.shape.name} is held after {spoken(visit.start / 1000)}, "
                words += f"{round(share)} % of the class"
                hint = "warm up longer, or hold it later"
                yield finding(PROPORTION, words, visit.origin, hint)
            return


def _works(visit: Visit) -> bool:
    """Whether this is a middling shape that loads and is held; strong ones have their own rules."""
    return visit.held >= HELD_MS and visit.shape.level == 2 and visit.shape.loads


def _long_rest(case: Case) -> Iterator[Finding]:
    """The shape rested in longest; a row of resting shapes before it may be the class itself."""
    run = [visit for visit in at_rest(case) if visit.stays]
    if not run:
        return
    main = max(run, key=lambda visit: visit.seconds)
    share = 100_000 * main.seconds / case.score.length
    if share > case.limits["most rest share"]:
        words = f"the final rest takes {spoken(main.seconds)}, {round(share)} % of the class"
        span = _longest(case.score.moments[main.first : main.last])
        yield finding(PROPORTION, words, span, "rest shorter, or call it `kind: piece`")


def _long_parts(case: Case) -> Iterator[Finding]:
    if len(case.score.parts) < PARTS:
        return
    for part in case.score.parts:
        share = 100 * _part_ms(case, part) / case.score.length
        if share > case.limits["part share"]:
            words = f"“{part.name}” takes {round(share)} % of the class"
            span = _longest(case.score.moments[part.first : part.last])
            hint = "shorten this, or divide the part, or give the others more"
            yield finding(PROPORTION, words, span, hint)


def _stiff(case: Case) -> Iterator[Finding]:
    score = case.score
    if not score.meta.length or not score.moments or not _met(case):
        return
    may = any(hold.stretchable for hold in score.holds.values())
    if may or any(moment.drop for moment in score.moments):
        return
    stays = [one for one in score.moments if one.hold and not one.arriving]
    words = f"a length of {spoken(score.meta.length / 1000)} is given, and nothing may stretch"
    hint = "may stretch: yes, on this stay or on others"
    yield finding(STIFF, words, _longest(stays or score.moments), hint)


TIME: tuple[Check, ...] = (Check(PROPORTION, _proportions), Check(STIFF, _stiff))
