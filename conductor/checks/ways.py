"""Ways: every movement can be made from where the class is, in its half breath."""

from collections.abc import Iterator

from conductor.body.moves import Way
from conductor.body.regions import Region, region
from conductor.checks.case import Case, Check, finding
from conductor.checks.ways_hints import hint
from conductor.checks.ways_trips import TRIPS
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.score.model import Moment

FAMILY = "ways"
_FLOOR = frozenset(
    {
        *(Region.SEAT, Region.HIP, Region.BELLY, Region.BACK, Region.SIDE, Region.HEELS),
        *(Region.KNEELING, Region.ARCH),
    }
)

_UP = frozenset({Region.STANDING, Region.HANDS_FEET})

NO_WAY = Rule(
    "no-way",
    Weight.ERROR,
    FAMILY,
    "A movement can be made from where the class is: its foot is free, its weight can go there.",
    "In class it comes out as a stumble, and half the room ends on the other foot.",
    bad="- come to: mountain\n- in: arms overhead\n- out: final rest  # here",
    good="- come to: mountain\n- in: arms overhead\n- out: standing fold\n- free: 20 s\n"
    "  to: final rest\n  say: Sit down, and roll down to your back.",
    source="anatomy as modelled in stances; the bounds are common practice",
)
TOO_MUCH = Rule(
    "too-much-at-once",
    Weight.WARNING,
    FAMILY,
    "A movement fits its half breath: one change of weight, or the shapes passed are written.",
    "Two changes of weight on one half breath leave everybody a step behind.",
    bad="- come to: mountain\n- in: arms overhead\n- out: plank  # here",
    good="- come to: mountain\n- in: arms overhead\n- out: plank\n  through: standing fold",
)
UNSAID = Rule(
    "level-unsaid",
    Weight.WARNING,
    FAMILY,
    "Where the class goes between standing and the floor, the way is said or led.",
    "There are many ways down, and people look around for the one that is meant.",
    bad="- come to: mountain\n- free: 20 s  # here\n  to: staff",
    good="- come to: mountain\n- free: 20 s\n  to: staff\n  say: Step back, and sit down.",
)


def no_way(case: Case) -> Iterator[Finding]:
    """Find movements that cannot be made."""
    return (found for found in _ways(case) if found.rule == NO_WAY.name)


def too_much(case: Case) -> Iterator[Finding]:
    """Find movements that their half breath, or their time, has no room for."""
    return (found for found in _ways(case) if found.rule == TOO_MUCH.name)


def _ways(case: Case) -> Iterator[Finding]:
    for index, (moment, before) in _moves(case):
        found = case.ways[index]
        if case.hurried(moment) and not _over(case, index):
            yield from _hurried(case, index, moment, before, found)
        elif sum(one.effort for one in found) > _allowed(case, index, moment):
            yield _short_of_time(case, index, moment, before, found)


def _moves(case: Case) -> Iterator[tuple[int, tuple[Moment, Moment]]]:
    for index, moment, before in case.entries():
        if before is not None and case.ways[index]:
            yield index, (moment, before)


def _over(case: Case, index: int) -> bool:
    """Whether a movement takes more than half a breath (`over`)."""
    after = case.score.moments[index + 1 : index + 2]
    moment = case.score.moments[index]
    return bool(after) and not after[0].arriving and after[0].hold == moment.hold == ""


def _time(case: Case, index: int, moment: Moment) -> int:
    """Milliseconds that a movement has, all its half breaths together."""
    if moment.hold:
        hold = case.score.holds[moment.hold]
        return hold.amount if hold.timed else hold.amount * hold.unit
    length = moment.length
    for after in case.score.moments[index + 1 :]:
        if after.arriving or after.hold:
            break
        length += after.length
    return length


def _allowed(case: Case, index: int, moment: Moment) -> int:
    """Changes of weight that there is time for."""
    return max(2, int(_time(case, index, moment) / 1000 / case.limits["change of weight"]))


def _hurried(
    case: Case, index: int, moment: Moment, before: Moment, found: tuple[Way, ...]
) -> Iterator[Finding]:
    worst = max(found, key=lambda one: (not one.possible, one.effort))
    name = case.shape(moment).name
    if not worst.possible:
        words = f"{name} cannot be reached from {_from(case, before)} in one movement"
        yield _told(NO_WAY, case, index, words, worst)
    elif worst.effort > 1:
        words = f"{name} from {_from(case, before)} needs more than half a breath"
        yield _told(TOO_MUCH, case, index, words, worst)
    elif len(found) > case.limits["movements in half a breath"]:
        words = f"{len(found)} movements to {name} are more than half a breath has room for"
        hint = "give some of the shapes passed a half breath of their own"
        yield finding(TOO_MUCH, words, moment.origin, hint)


def _from(case: Case, before: Moment) -> str:
    shape = case.shape(before)
    side = f" on the {before.side}" if before.side else ""
    return f"{shape.name}{side}"


def _told(rule: Rule, case: Case, index: int, words: str, worst: Way) -> Finding:
    moment, before = case.score.moments[index], case.score.moments[index - 1]
    why = f": {worst.trouble}" if worst.trouble else ""
    also = ((before.origin, f"{_from(case, before)} is led here"),)
    typed = hint(before, moment, case.shape(moment).place)
    return finding(rule, words + why, moment.origin, typed, also)


def _short_of_time(
    case: Case, index: int, moment: Moment, before: Moment, found: tuple[Way, ...]
) -> Finding:
    name = case.shape(moment).name
    seconds = _time(case, index, moment) / 1000
    words = f"{seconds:g} s are short for the way from {_from(case, before)} to {name}"
    why = next((f": {one.trouble}" for one in found if one.trouble), "")
    longer = f"give it more time, or {hint(before, moment)}"
    return finding(TOO_MUCH, words + why, moment.origin, longer)


def levels(case: Case) -> Iterator[Finding]:
    """Find ways between standing and the floor that nobody tells."""
    for index, (moment, before) in _moves(case):
        if case.hurried(moment) and not _over(case, index):
            continue
        told = moment.words.written or moment.lines or moment.through or moment.cycle
        effort = sum(one.effort for one in case.ways[index])
        if told or not 2 <= effort <= _allowed(case, index, moment):
            continue
        here, there = region(before.stance), region(moment.stance)
        if {here, there} & _FLOOR and {here, there} & _UP:
            down = "down" if there in _FLOOR else "up"
            words = f"from {_from(case, before)} {down} to {case.shape(moment).name}"
            weight = None if Region.STANDING in {here, there} else Weight.REMARK
            typed = f"{_typed(here, there)} Or {hint(before, moment)}"
            yield finding(
                UNSAID, f"{words}, and no way is said", moment.origin, typed, weight=weight
            )


def _typed(here: Region, there: Region) -> str:
    """Words for the way, which a teacher can take or change."""
    if there in {Region.BACK, Region.SIDE, Region.BELLY}:
        return "say: Lower the knees, and lie down."
    if there in _FLOOR:
        return "say: Lower the knees, and come to sit."
    if here in {Region.BACK, Region.SIDE, Region.BELLY}:
        return "say: Roll to one side, come to hands and knees, and step up."
    return "say: Come to hands and knees, and step up."


WAYS: tuple[Check, ...] = (
    Check(NO_WAY, no_way),
    Check(TOO_MUCH, too_much),
    Check(UNSAID, levels),
    *TRIPS,
)
