"""Load in seconds: on the wrists, on one leg, and in one shape."""

from collections.abc import Iterator

from conductor.checks.case import Case, Check, finding
from conductor.checks.visits import Visit, named, spoken, visits
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.sides import Side
from conductor.spans import Span
from conductor.stance import Base
from conductor.values import Struct

ONE_LEG = frozenset({Base.FOOT, Base.FOOT_HAND})
BEARING = 2  # of the catalogue's scale: much of the body's weight on bent wrists

WRISTS = Rule(
    "wrists-unbroken",
    Weight.WARNING,
    "load",
    "Wrists get a whole breath off before they have borne much for two minutes.",
    "Wrists tire before the shoulders notice. Downward dog and all fours neither count nor rest.",
    bad="- come to: all fours\n- in: plank\n- stay: 7 breaths\n- out: downward dog\n"
    "- in: plank  # here\n- stay: 9 breaths\n- out: downward dog",
    good="- come to: all fours\n- in: plank\n- stay: 7 breaths\n- out: child's pose\n"
    "- stay: 2 breaths\n- in: plank\n- stay: 7 breaths\n- out: downward dog",
)
LOW_PLANKS = Rule(
    "low-planks",
    Weight.REMARK,
    "load",
    "Low planks are not so many that shoulders, elbows and wrists wear.",
    "They add up unseen, since every link has one.",
    bad="- come to: all fours\n- out: downward dog\n- rounds: 30\n  steps:\n    - in: plank\n"
    "    - out: low plank  # here\n    - in: upward dog\n    - out: downward dog",
    good="- come to: all fours\n- out: downward dog\n- rounds: 5\n  steps:\n    - in: plank\n"
    "    - out: low plank\n    - in: upward dog\n    - out: downward dog",
)
ONE_LEG_RULE = Rule(
    "long-on-one-leg",
    Weight.WARNING,
    "load",
    "Nobody stands on one leg for much longer than a balance is usually held.",
    "A tired standing leg ends in a fall, or in a locked knee.",
    bad="- come to: mountain\n- in: tree  # here\n  side: right\n- stay: 12 breaths",
    good="- come to: mountain\n- in: tree\n  side: right\n- stay: 5 breaths",
    source="Light on Yoga p.74: warrior three for 20 to 30 s",
)
HOLD = Rule(
    "unusual-hold",
    Weight.REMARK,
    "load",
    "A shape is held for about as long as it usually is.",
    "A stay far out of the usual is most often a slip of the pen; where it loads and lasts three "
    "times as long, it is a warning.",
    bad="- come to: all fours\n- in: plank  # here\n- stay: 100 s\n- out: child's pose",
    good="- come to: all fours\n- in: plank\n- stay: 3 breaths\n- out: child's pose",
    source="Light on Yoga p.64 triangle 30 to 60 s, p.71 warrior one 20 to 30 s, p.74 warrior "
    "three 20 to 30 s; for the rest common practice",
)


class _Row(Struct):
    """Weight on the wrists in a row: since when, ms borne, and ms off since."""

    origin: Span | None = None
    borne: int = 0
    off: int = 0
    worst: Visit | None = None


def _wrists(case: Case) -> Iterator[Finding]:
    most, pause = case.limits["wrist seconds"], case.limits["wrist break seconds"]
    row, told = _Row(), False
    for visit in visits(case):
        asks = visit.shape.asks.get("wrists", 0)
        if not asks:
            row.off += visit.end - visit.start
            if row.off >= pause * 1000:
                row, told = _Row(), False
            continue
        row.off = 0
        if asks >= BEARING:
            row.origin = row.origin or visit.origin
            row.borne += visit.end - visit.start
            row.worst = max(visit, row.worst or visit, key=lambda one: one.seconds)
        if row.borne > most * 1000 and not told and row.worst:
            told = True
            words = f"the wrists bear much for {spoken(row.borne / 1000)} without a breath off"
            hint = "lead child's pose or mountain for a breath in between"
            also = ((row.origin, "it begins here"),) if row.origin else ()
            yield finding(WRISTS, words, row.worst.origin, hint, also)


def _low_planks(case: Case) -> Iterator[Finding]:
    found = [
        visit
        for visit in visits(case)
        if visit.shape.id == "low-plank" or any(one.id == "low-plank" for one in visit.passed)
    ]
    minutes = case.score.length / 60_000
    most = max(case.limits["low planks at least"], case.limits["low planks a minute"] * minutes)
    if len(found) > most:
        words = f"low plank comes {len(found)} times in {spoken(minutes * 60)}"
        hint = "let some links be `out: plank`, `in: same`, `out: downward dog`, or give an `ease`"
        yield finding(LOW_PLANKS, words, found[0].origin, hint)


def _one_leg(case: Case) -> Iterator[Finding]:
    most = case.limits["one leg seconds"]
    row: list[Visit] = []
    for visit in (*visits(case), None):
        if visit and visit.stance.base in ONE_LEG:
            if row and _leg(row[-1]) is not _leg(visit):
                yield from _too_long(row, most)
                row = []
            row.append(visit)
        elif row:
            yield from _too_long(row, most)
            row = []


def _leg(visit: Visit) -> Side | None:
    return visit.stance.standing


def _too_long(row: list[Visit], most: float) -> Iterator[Finding]:
    seconds = (row[-1].end - row[0].start) / 1000
    if seconds > most:
        leg = _leg(row[0])
        shapes = named([visit.shape.name for visit in row])
        on = f"the {leg.value} leg" if leg else "one leg"
        words = f"{spoken(seconds)} on {on} without touching down ({shapes})"
        hint = "stay shorter, or let the foot come down in between"
        yield finding(ONE_LEG_RULE, words, row[0].origin, hint)


def _held(case: Case) -> Iterator[Visit]:
    """Visits that are stays in shapes with a usual length: not rest, not what one waits in."""
    for visit in visits(case):
        if visit.stays and not visit.moves and not visit.rests and not visit.shape.landing:
            yield visit


def _holds(case: Case) -> Iterator[Finding]:
    long, short = case.limits["hold long"], case.limits["hold short"]
    odd: dict[Span, Visit] = {}
    for visit in _held(case):
        least, most = visit.shape.hold
        if _extreme(case, visit):
            hint = "stay shorter, or give an `ease`, so that there is a way out"
            yield finding(HOLD, _stay(visit), visit.origin, hint, weight=Weight.WARNING)
        elif not least * short <= visit.held / 1000 <= most * long:
            odd.setdefault(visit.origin, visit)
    if odd:
        yield _odd_holds(list(odd.values()))


def _extreme(case: Case, visit: Visit) -> bool:
    bears = visit.shape.loads or visit.shape.level >= 2
    return bears and visit.held / 1000 > visit.shape.hold[1] * case.limits["hold extreme"]


def _stay(visit: Visit) -> str:
    least, most = visit.shape.hold
    held = spoken(visit.held / 1000)
    return f"{visit.shape.name} is held for {held}; usual are {least} to {most} s"


def _odd_holds(odd: list[Visit]) -> Finding:
    words = _stay(odd[0])
    if len(odd) > 1:
        words += f" ({len(odd)} such stays)"
    also = tuple((one.origin, f"{one.shape.name}: {spoken(one.held / 1000)}") for one in odd[1:6])
    return finding(HOLD, words, odd[0].origin, "stay for the usual time, if it is not meant", also)


SECONDS: tuple[Check, ...] = (
    Check(WRISTS, _wrists),
    Check(LOW_PLANKS, _low_planks),
    Check(ONE_LEG_RULE, _one_leg),
    Check(HOLD, _holds),
)
