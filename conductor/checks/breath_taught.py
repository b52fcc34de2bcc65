"""Taught: a flow is told before it is led a movement every half breath."""

from collections.abc import Iterator
from functools import lru_cache

from conductor.checks.case import Case, Check, finding
from conductor.findings import Finding, Weight
from conductor.patterns import pattern
from conductor.rules import Rule
from conductor.score.model import Moment
from conductor.sides import Breath
from conductor.spans import Span

FAMILY = "breath"

UNTAUGHT = Rule(
    "flow-untaught",
    Weight.WARNING,
    FAMILY,
    "A flow is led in whole words, or slower, the first time.",
    "Nobody can follow at one movement a half breath what was never told.",
    bad="flows:\n  link:\n    - in: plank  # here\n    - out: low plank\n    - in: upward dog\n"
    "    - out: downward dog\nsteps:\n  - come to: downward dog\n  - flow: link\n    speak: breath",
    good="flows:\n  link:\n    - in: plank\n    - out: low plank\n    - in: upward dog\n"
    "    - out: downward dog\nsteps:\n  - come to: downward dog\n  - flow: link\n"
    "  - flow: link\n    speak: breath",
)


_STEP = pattern(r"\d+(?:\.\d+)?(?::\w+)?|r\d+(?::\w+)?|between|settled|bell|way\d+")
_SIDED = pattern(r":(?:right|left)$")


def _flows(moment: Moment) -> Iterator[tuple[str, str]]:
    """The flows a moment belongs to, from the path it is named by: each name with its call."""
    steps = moment.id.split("/")
    for at, step in enumerate(steps):
        name = _flow(step)
        if name is not None:
            yield name, "/".join(steps[: at + 1])


@lru_cache(maxsize=4096)
def _flow(step: str) -> str | None:
    """The flow that a step of a path names, or None for a step of another kind."""
    return None if _STEP.fullmatch(step) else _SIDED.sub("", step)


def _first_led(case: Case) -> dict[str, list[int]]:
    """The moments of each flow as it is led for the first time, its first round alone."""
    calls: dict[str, str] = {}
    rows: dict[str, list[int]] = {}
    lines: dict[str, set[Span]] = {}
    for index, moment in enumerate(case.score.moments):
        for name, call in _flows(moment):
            led = lines.setdefault(name, set())
            again = moment.origin in led and moment.arriving
            if calls.setdefault(name, call) != call or again:
                calls[name] = ""  # over: what follows is not the first time
            else:
                rows.setdefault(name, []).append(index)
                led.add(moment.origin)
    return rows


def taught(case: Case) -> Iterator[Finding]:
    """Find flows that nobody was told the first time they are led."""
    moments = case.score.moments
    told = _told(case)
    for name, row in _first_led(case).items():
        moves = [index for index in row if moments[index].arriving and not moments[index].hold]
        if len(moves) < 3 or not _fast([moments[index] for index in row], len(moves)):
            continue
        untold = [index for index in moves if told.get(moments[index].shape, index + 1) > index]
        if len(untold) * 2 <= len(moves):
            continue
        heard = {moments[index].words.form for index in untold}
        forms = "breath words alone" if "breath" in heard else "few words"
        forms = "silence" if heard == {"nothing"} else forms
        words = f"the first time {name} is led, it is led in {forms}, a movement every half breath"
        typed = "speak: full  (or, to teach it slowly, settle: 1 breath)"
        weight = None if case.is_class else Weight.REMARK
        yield finding(UNTAUGHT, words, moments[untold[0]].origin, typed, weight=weight)


def _told(case: Case) -> dict[str, int]:
    """The index at which each shape is first told in whole words, or in the author's own."""
    told: dict[str, int] = {}
    for index, moment in enumerate(case.score.moments):
        form, written = moment.words.form, moment.words.written
        if form == "full" or (form == "short" and written):
            told.setdefault(moment.shape, index)
    return told


def _fast(row: list[Moment], moves: int) -> bool:
    """Whether there is hardly more than half a breath for each movement."""
    if any(moment.breath is Breath.FREE and moment.arriving for moment in row):
        return False
    return sum(not moment.arriving or bool(moment.hold) for moment in row) < moves


TAUGHT: tuple[Check, ...] = (Check(UNTAUGHT, taught),)
