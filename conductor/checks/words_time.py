"""Words against time: a cue is over before the next, and what must be followed comes in time."""

import re
from collections.abc import Iterator

from conductor.checks.case import Case, Check, finding
from conductor.findings import Finding, Weight
from conductor.patterns import pattern
from conductor.rules import Rule
from conductor.score.model import Moment
from conductor.sides import Breath
from conductor.stance import Trunk
from conductor.timing.estimate import estimate
from conductor.timing.model import Cue

_BREATH = {
    Breath.IN: pattern(r"\b(?:inhal\w*|breath(?:e|ing)? in)\b", re.IGNORECASE, "inhal|breath"),
    Breath.OUT: pattern(r"\b(?:exhal\w*|breath(?:e|ing)? out)\b", re.IGNORECASE, "exhal|breath"),
}
_SIDE = pattern(
    r"(?<!all )\b(?:left|right)\b(?! (?:now|away|here|there|over|in time)\b)", re.IGNORECASE
)
SIDE_FIRST = "say the side first"
_TRAINING = (
    "teacher training: speak before movement, one action per breath; cues must fit the breath, "
    "else the rhythm follows the cue (both published)"
)

TOO_LONG = Rule(
    "cue-too-long",
    Weight.WARNING,
    "words",
    "A cue is over before the next one begins.",
    "Two cues at once are none, and a breath that waits for words is no longer a breath.",
    bad="- come to: mountain\n- in: arms overhead  # here\n  say: Inhale slowly through the "
    "nose and reach both of your arms up toward the ceiling.\n- out: mountain",
    good="- come to: mountain\n- in: arms overhead\n  say: Reach both arms up.\n- out: mountain",
    source=_TRAINING,
)
LATE_BREATH = Rule(
    "late-breath-word",
    Weight.WARNING,
    "words",
    "The breath word is heard within two seconds, before its half breath is half over.",
    "People breathe by it; heard at the end it belongs to the next half.",
    bad="- come to: mountain\n- in: arms overhead  # here\n  say: Reach both of your long arms "
    "up to the sky as you inhale.\n- stay: 2 breaths",
    good="- come to: mountain\n- in: arms overhead\n  say: Inhale, reach both of your arms up."
    "\n- stay: 2 breaths",
    source=_TRAINING,
)
LATE_SIDE = Rule(
    "late-side-word",
    Weight.WARNING,
    "words",
    "The side is heard before the half breath of its movement is half over.",
    "By then the foot is on its way, and half the room has moved the other one. Where the feet "
    "leave no choice of side it is a remark.",
    bad="- come to: downward dog\n- in: three-legged dog  # here\n  side: right\n"
    "  say: Lift one leg high up behind you, the right one.\n- stay: 2 breaths",
    good="- come to: downward dog\n- in: three-legged dog\n  side: right\n"
    "  say: Right leg up, high behind you.\n- stay: 2 breaths",
    source=_TRAINING,
)


HURRIED = Rule(
    "hurried-cue",
    Weight.REMARK,
    "words",
    "No cue has to be spoken faster than the others to fit its breath.",
    "It fits that way, and the room hears the hurry: shorter words are calmer.",
    bad="- come to: mountain\n- in: arms overhead  # here\n  say: Reach both of your long arms "
    "up to the sky, gaze lifted.\n- out: mountain\n- stay: 1 breath",
    good="- come to: mountain\n- in: arms overhead\n  say: Reach both arms up.\n- out: mountain"
    "\n- stay: 1 breath",
    source=_TRAINING,
)


def _hurried(case: Case) -> Iterator[Finding]:
    fast = [cue for cue in case.cues if cue.saying.hurry]
    places = {case.score.moments[cue.moment].origin for cue in fast}
    if fast:
        first = case.score.moments[fast[0].moment].origin
        words = f"“{fast[0].saying.text}” is spoken {fast[0].saying.hurry} % faster to fit"
        if len(places) > 1:
            words += f", as are the cues of {len(places) - 1} more lines"
        yield finding(HURRIED, words, first, "use fewer words, or give a `short` form")


def _too_long(case: Case) -> Iterator[Finding]:
    for cue in case.cues:
        if cue.fits or not cue.saying.text:
            continue
        moment = case.score.moments[cue.moment]
        long, room = cue.length / 1000, cue.room / 1000
        about = "" if cue.measured else "about "
        words = f"“{cue.saying.text}” takes {about}{long:.1f} s, the next cue comes in {room:.1f} s"
        yield finding(TOO_LONG, words, moment.origin, _shorter(cue))


def _shorter(cue: Cue) -> str:
    count = len(cue.saying.text.split())
    fit = int(count * cue.room / max(cue.length, 1))
    if fit < 2:
        return "leave it out, or give it time: a `stay`, or a slower `breath`"
    return f"say it in {fit} words or fewer, give a `short` form, or more time"


def _heard(cue: Cue, at: int) -> int:
    """When the word at this place of the text is heard (score ms)."""
    text = cue.saying.text
    if not at:
        return cue.word_at
    whole = max(estimate(text), 1)
    return cue.start + round(cue.length * min(estimate(text[:at]) / whole, 1))


def _movements(case: Case) -> Iterator[tuple[Moment, Moment | None, tuple[Cue, ...]]]:
    """Movements on a half breath that something is said for, with the moment before."""
    for index, moment, before in case.entries():
        if moment.breath is not Breath.FREE and moment.words.form != "nothing":
            said = tuple(cue for cue in case.said.get(index, ()) if cue.slot in {"ahead", "main"})
            if said:
                yield moment, before, said


def _late_breath(case: Case) -> Iterator[Finding]:
    for moment, _, said in _movements(case):
        for cue in said:
            found = _BREATH[moment.breath].search(cue.saying.text)
            late = _late(case, "breath word", moment, cue, found)
            if late and found:
                words = f"“{found[0]}” is heard {late:.1f} s into a half breath of "
                words += f"{moment.length / 1000:g} s"
                yield finding(LATE_BREATH, words, moment.origin, "begin the cue with it")


def _late_side(case: Case) -> Iterator[Finding]:
    told: list[tuple[Moment, str]] = []
    for moment, before, said in _movements(case):
        words = _side_late(case, moment, said) if _needs_side(moment, before) else ""
        if words and moment.decided == "stance":
            told.append((moment, words))
        elif words:
            yield finding(LATE_SIDE, words, moment.origin, SIDE_FIRST)
    if told:
        places = {moment.origin: None for moment, _ in told}
        words = told[0][1] + (f" ({len(places)} such cues)" if len(places) > 1 else "")
        also = tuple((span, "here too") for span in list(places)[1:4])
        yield finding(LATE_SIDE, words, told[0][0].origin, SIDE_FIRST, also, weight=Weight.REMARK)


def _side_late(case: Case, moment: Moment, said: tuple[Cue, ...]) -> str:
    """How late the first side named in a cue is, in words, or "" when it is soon enough."""
    sides = [(cue, _SIDE.search(cue.saying.text)) for cue in said]
    named = [(cue, found) for cue, found in sides if found]
    if not named:
        return ""
    cue, found = min(named, key=lambda one: _heard(one[0], one[1].start()))
    late = _late(case, "side word", moment, cue, found)
    half = f"{moment.length / 1000:g} s"
    return f"“{found[0]}” is heard {late:.1f} s into a half breath of {half}" if late else ""


def _needs_side(moment: Moment, before: Moment | None) -> bool:
    """Whether a limb of one side moves, or the body turns or leans to a side."""
    if moment.side is None or before is None or before.shape == moment.shape:
        return False
    was, now = before.stance, moment.stance
    steps = (was.right, was.left, was.knees) != (now.right, now.left, now.knees)
    return steps or now.trunk in {Trunk.TURNED, Trunk.LATERAL}


def _late(case: Case, word: str, moment: Moment, cue: Cue, found: re.Match[str] | None) -> float:
    """Seconds into the half breath at which a word is heard, or 0 when that is soon enough."""
    if found is None:
        return 0.0
    into = _heard(cue, found.start()) - moment.start
    share = moment.length * case.limits[f"{word} by share"] / 100
    return into / 1000 if into > min(share, 1000 * case.limits[f"{word} by seconds"]) else 0.0


TIMED: tuple[Check, ...] = (
    Check(TOO_LONG, _too_long),
    Check(HURRIED, _hurried),
    Check(LATE_BREATH, _late_breath),
    Check(LATE_SIDE, _late_side),
)
