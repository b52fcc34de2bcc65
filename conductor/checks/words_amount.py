"""How much is said: silence in between, in the rest above all, and no cue worn out."""

from collections.abc import Iterator

from conductor.checks.case import Case, Check, finding
from conductor.checks.examples import ARRIVE, WORK
from conductor.checks.visits import Visit, at_rest, spoken
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.sides import Breath
from conductor.spans import Span
from conductor.timing.model import Cue

MINUTE_MS = 60_000
GENTLE_MS = 10_000  # free time in which one may come out of the rest at leisure

_DOWN = ARRIVE + WORK + "- free: 20 s\n  to: final rest\n"
_TALKED = (
    "- come to: easy seat{top}\n- rounds: {rounds}\n  speak: full\n  steps:\n"
    "    - stay: {seconds} s{here}\n      say: Notice how the breath comes in, and how it "
    "goes out again.\n"
)
_STRONG = (
    "- come to: downward dog\n- rounds: 12\n{speak}  steps:\n    - in: plank{here}\n"
    "      say: Strong arms, long neck.\n    - out: downward dog\n    - stay: 1 breath"
)

TALK = Rule(
    "much-talk",
    Weight.REMARK,
    "words",
    "A third of a class is silent, its rest not counted.",
    "Silence is where what was said is done.",
    bad=_TALKED.format(rounds=75, seconds=5, top="  # here", here=""),
    good=_TALKED.format(rounds=30, seconds=12, top="", here=""),
)
FAST = Rule(
    "fast-talk",
    Weight.REMARK,
    "words",
    "No minute of a class holds more words than a public talk.",
    "More than that is heard as noise by people who move.",
    bad=_TALKED.format(rounds=25, seconds=5, top="", here="  # here") + "- stay: 4 min",
    good=_TALKED.format(rounds=30, seconds=12, top="", here=""),
    source="published rates: a public talk 100-130 words a minute, conversation about 150, "
    "subtitles 160-180",
)
REST_TALK = Rule(
    "talk-in-rest",
    Weight.REMARK,
    "words",
    "The final rest holds a long silence.",
    "Rest that is talked through is listened to. A guided rest is a choice: switch this off then.",
    bad=(
        _DOWN
        + "- stay: 20 s  # here\n  say: Let the floor carry you.\n"
        + "- stay: 20 s\n  say: Let the floor carry you.\n" * 14
    ),
    good=(_DOWN + "- stay: 5 min\n  say: Let go.\n- bell: 1\n"),
)
ABRUPT = Rule(
    "abrupt-rest-end",
    Weight.WARNING,
    "words",
    "A word or a bell ends the final rest.",
    "People lie with closed eyes: without it nobody knows, or they are startled.",
    bad=(_DOWN + "- stay: 5 min  # here\n  speak: nothing\n"),
    good=(_DOWN + "- stay: 5 min\n  speak: nothing\n- bell: 1\n"),
)
WORN = Rule(
    "repeated-cue",
    Weight.REMARK,
    "words",
    "The same written words are not said over and over.",
    "They are no longer heard. Generated cues do not count: they grow shorter by themselves.",
    bad=_STRONG.format(here="  # here", speak="  speak: full\n"),
    good=_STRONG.format(here="", speak=""),
)


def _outside_rest(case: Case) -> tuple[tuple[Cue, ...], int]:
    """Cues outside the final rest, and the ms of class left without it."""
    run = at_rest(case) if case.is_class else ()
    if not run:
        return case.cues, case.score.length
    first, last = run[0].start, run[-1].end
    cues = tuple(cue for cue in case.cues if not first <= cue.start < last)
    return cues, case.score.length - (last - first)


def _talk(case: Case) -> Iterator[Finding]:
    cues, length = _outside_rest(case)
    if length < case.limits["talk from seconds"] * 1000:
        return
    share = 100 * sum(min(cue.length, cue.room) for cue in cues) / length
    if share > case.limits["talk share"]:
        words = f"{round(share)} % of the class is spoken"
        hint = "`speak: full, then short, then breath` on rounds, and fewer lines in stays"
        yield finding(TALK, words, case.score.moments[cues[0].moment].origin, hint)


def _fast(case: Case) -> Iterator[Finding]:
    cues, _ = _outside_rest(case)
    most, words, first = 0, 0, 0
    busiest: tuple[Cue, ...] = ()
    counts = [len(cue.saying.text.split()) for cue in cues]
    for index, cue in enumerate(cues):
        words += counts[index]
        while cue.start + cue.length - cues[first].start > MINUTE_MS and first < index:
            words -= counts[first]
            first += 1
        if words > most:
            most, busiest = words, cues[first : index + 1]
    if most > case.limits["talk words"]:
        longest = max(busiest, key=lambda cue: cue.length)
        span = case.score.moments[longest.moment].origin
        said = f"the fullest minute holds {most} words, from {_clock(busiest[0].start)} on"
        yield finding(FAST, said, span, "leave something unsaid")


def _clock(ms: int) -> str:
    return f"{ms // MINUTE_MS}:{ms // 1000 % 60:02d}"


def _rest(case: Case) -> tuple[Visit, ...]:
    """The final rest, when it is long enough to speak of silence."""
    run = at_rest(case) if case.is_class else ()
    seconds = sum(visit.seconds for visit in run)
    return run if seconds >= case.limits["rest silence seconds"] else ()


def _rest_talk(case: Case) -> Iterator[Finding]:
    run = _rest(case)
    if not run:
        return
    start, end = run[0].start, run[-1].end
    said = [cue for cue in case.cues if start <= cue.start < end]
    edges = [start, *(cue.start + cue.length for cue in said)]
    silences = [
        after - before
        for before, after in zip(edges, [*(cue.start for cue in said), end], strict=True)
    ]
    longest = max(silences) / 1000
    share = case.limits["rest silence share"] / 100 * (end - start) / 1000
    if longest < min(case.limits["rest silence seconds"], share):
        words = f"the longest silence in the final rest is {spoken(max(longest, 0))}"
        hint = "`speak: nothing` on the longest stay, or a longer one"
        yield finding(REST_TALK, words, _talked(case, run, said), hint)


def _talked(case: Case, run: tuple[Visit, ...], said: list[Cue]) -> Span:
    """The line of the first words in the shape in which the class rests longest."""
    main = max(run, key=lambda visit: visit.seconds)
    moments = [case.score.moments[cue.moment] for cue in said]
    inside = (one for one in moments if one.shape == main.shape.id and not one.arriving)
    return next(inside, case.score.moments[main.first]).origin


def _abrupt(case: Case) -> Iterator[Finding]:
    run = _rest(case)
    if not run:
        return
    last = run[-1]
    since = max(run[0].start, last.end - round(1000 * case.limits["rest end seconds"]))
    moments = case.score.moments
    tail = [moment for visit in run for moment in moments[visit.first : visit.last]]
    rung = any(moment.bells for moment in tail if moment.end > since)
    called = any(since < cue.start < last.end for cue in case.cues if cue.moment >= run[0].first)
    if rung or (called and not _only_opening(case, run)) or _gently(case, last):
        return
    words = "nothing ends the final rest: no word and no bell"
    yield finding(ABRUPT, words, tail[-1].origin, "- bell: 1")


def _only_opening(case: Case, run: tuple[Visit, ...]) -> bool:
    """Whether all words of the rest belong to lying down."""
    said = {cue.moment for cue in case.cues if run[0].first <= cue.moment < run[-1].last}
    return said <= {run[0].first} and run[-1].last - run[0].first > 1


def _gently(case: Case, last: Visit) -> bool:
    """Whether the class is led out of the rest in words, with time to follow them."""
    if last.last >= len(case.score.moments):
        return False
    after = case.score.moments[last.last]
    slow = after.breath is Breath.FREE and after.length >= GENTLE_MS
    return bool(after.bells) or (slow and last.last in case.said)


def _worn(case: Case) -> Iterator[Finding]:
    said: dict[str, list[Span]] = {}
    for cue in case.cues:
        moment = case.score.moments[cue.moment]
        if cue.form == "full" and (moment.words.written or cue.slot.startswith("line")):
            said.setdefault(cue.saying.text, []).append(moment.origin)
    worn = {text: at for text, at in said.items() if len(at) > case.limits["same cue"]}
    if worn:
        text, places = max(worn.items(), key=lambda one: len(one[1]))
        words = f"“{text}” is said {len(places)} times"
        if len(worn) > 1:
            words += f", and {len(worn) - 1} more of the plan's words nearly as often"
        hint = "`say again`, a `short` form, or `speak: full, then short, then breath`"
        yield finding(WORN, words, places[0], hint)


AMOUNT: tuple[Check, ...] = (
    Check(TALK, _talk),
    Check(FAST, _fast),
    Check(REST_TALK, _rest_talk),
    Check(ABRUPT, _abrupt),
    Check(WORN, _worn),
)
