"""Sides said: the words name the side, the hand and the end of the mat that the score leads."""

import re
from collections.abc import Iterator

from conductor.body.moves import Do
from conductor.checks.case import Case, Check, finding
from conductor.checks.sides_clauses import (
    Named,
    legs,
    named_sides,
    names_side,
    passing,
    says,
    shaped,
)
from conductor.findings import Finding, Weight
from conductor.patterns import pattern
from conductor.rules import Rule
from conductor.score.model import Moment
from conductor.sides import Side
from conductor.stance import Frame, Trunk

FAMILY = "sides"
AHEAD = 2  # half breaths before a movement in which its side may have been announced

WRONG_SIDE = Rule(
    "wrong-side-said",
    Weight.WARNING,
    FAMILY,
    "Words name the side on which the body really moves.",
    "Half the room follows the words, the other half the teacher. Passages are written for the"
    " right and exchanged for the left, so one wrong word is wrong on both sides.",
    bad="- come to: downward dog\n- each side: yes\n  steps:\n    - in: three-legged dog\n"
    "    - out: low lunge  # here\n      say: Step your left foot between your palms.\n"
    "    - in: plank\n    - out: downward dog",
    good="- come to: downward dog\n- each side: yes\n  steps:\n    - in: three-legged dog\n"
    "    - out: low lunge\n      say: Step your right foot between your palms.\n"
    "    - in: plank\n    - out: downward dog",
)
WRONG_HAND = Rule(
    "wrong-hand-said",
    Weight.WARNING,
    FAMILY,
    "In a twist the words bring that hand to the knee which turns the body the way that is led.",
    "The other hand turns the body back, and neck and low back pay for it.",
    bad="- come to: easy seat\n- each side: yes\n  steps:\n    - in: seated arms overhead\n"
    "    - out: seated twist  # here\n      say: Turn, right hand to the right knee.",
    good="- come to: easy seat\n- each side: yes\n  steps:\n    - in: seated arms overhead\n"
    "    - out: seated twist\n      say: Turn, left hand to the right knee.",
    source="the catalogue: which hand meets the knee in each twist",
)
WRONG_END = Rule(
    "wrong-end-said",
    Weight.WARNING,
    FAMILY,
    "Words about the front or back of the mat or the room fit the way the class faces.",
    "Told to turn to the front while turning to the back, people turn twice.",
    bad="- come to: mountain\n- in: arms overhead  # here\n  turn: other end\n"
    "  say: Turn to the front of the mat, arms up.\n- out: mountain\n- in: arms overhead\n"
    "  turn: other end\n- out: mountain",
    good="- come to: mountain\n- in: arms overhead\n  turn: other end\n"
    "  say: Turn to the <end> of the mat, arms up.\n- out: mountain\n- in: arms overhead\n"
    "  turn: other end\n- out: mountain",
)
UNNAMED = Rule(
    "side-unsaid",
    Weight.REMARK,
    FAMILY,
    "Where the side changes, a cue of the plan's own says so: a side, or the other side.",
    "Whoever has the eyes closed goes on with the side they were on.",
    bad="- come to: mountain\n- each side: yes\n  steps:\n    - in: tree  # here\n"
    "      say: Press the foot into the leg.\n    - stay: 2 breaths\n    - out: mountain",
    good="- come to: mountain\n- each side: yes\n  steps:\n    - in: tree\n"
    "      say: Lift the right foot to the inner leg.\n    - stay: 2 breaths\n    - out: mountain",
)

_CHANGE = r"other|second|opposite|both|same|switch|change|again|alternate"
_SIDE = pattern(rf"\b(?:left|right|{_CHANGE})\b", re.IGNORECASE, f"left|right|{_CHANGE}")
_OTHER = pattern(rf"\b(?:{_CHANGE})\b", re.IGNORECASE, _CHANGE)
_PART = pattern(
    r"\b(?:front|back|top|bottom|standing|raised|lifted|bent|straight)\s+\w+",
    re.IGNORECASE,
    "front|back|top|bottom|standing|raised|lifted|bent|straight",
)
_HANDS = "hand|elbow|forearm|arm|palm|tricep"
_KNEES = "knee|thigh|shin"
_HAND, _KNEE = f"(?:{_HANDS})", f"(?:{_KNEES})"
_FILL = r"(?:\s+(?!left\b|right\b)[a-z'-]+){0,5}?\s+"
_TO_KNEE = pattern(
    rf"\b(left|right)\s+{_HAND}s?{_FILL}(left|right)\s+(?:outer\s+|inner\s+)?{_KNEE}\b",
    re.IGNORECASE,
    _HANDS,
    _KNEES,
)
_KNEE_WITH = pattern(
    rf"\b(left|right)\s+{_KNEE}{_FILL}(left|right)\s+{_HAND}\b", re.IGNORECASE, _HANDS, _KNEES
)
_KIND = pattern(
    rf"\b(same|opposite)(?:[\s-]+side)?\s+{_HAND}(?:\s+[a-z'-]+){{0,5}}?\s+{_KNEE}\b",
    re.IGNORECASE,
    "same|opposite",
    _HANDS,
    _KNEES,
)
_END = r"(?P<end>front|back|top|far end)(?:\s+(?:end|edge|side|short side))?"
_MAT = r"\s+of\s+(?:the|your)\s+(?:mat|room|hall|studio|space)\b"
_WALL = r"(?P<wall>front|back)\s+wall\b"
_FACE = pattern(
    r"\b(?:turn(?:ing)?|fac(?:e|ing)|pivot|spin)"
    r"(?:\s+(?:around|round|all|the way|and|face|to|toward|towards|now|yourself|your body))*"
    rf"\s+(?:the|your)\s+(?:{_END}(?:{_MAT}|(?=\s*(?:[,.;:!?]|$)))|{_WALL})",
    re.IGNORECASE,
    "turn|fac|pivot|spin",
    "the|your",
)
_LOOK = pattern(
    r"\b(?:look|gaze)(?:\s+(?:up|straight|ahead|out|forward))?\s+(?:to|toward|towards|at)"
    rf"\s+the\s+(?:(?P<end>front){_MAT}|(?P<wall>front)\s+wall\b)",
    re.IGNORECASE,
    "look|gaze",
    "front",
)
_FORTH = pattern(
    r"\b(?:step|walk|hop|jump|float)(?:\s+\w+){0,5}?\s+(?:to|toward|towards)\s+the\s+"
    rf"(?P<end>front)(?:\s+(?:end|edge))?{_MAT}",
    re.IGNORECASE,
    "step|walk|hop|jump|float",
    "front",
    "mat|room|hall|studio|space",
)
_OTHER_END = {"front": ("back", "far end"), "back": ("front", "top")}
_ENDS = {"front": "front", "top": "front", "back": "back", "far end": "back"}
_FORWARD = frozenset({Do.STEP_FORWARD, Do.KNEE_FORWARD})


def _written(moment: Moment) -> tuple[str, ...]:
    """The words of the plan's own for a movement, as led."""
    words = moment.words
    return tuple(dict.fromkeys((words.full, words.short))) if words.written else ()


def _lines(moment: Moment) -> tuple[str, ...]:
    return tuple(line.saying.text for line in moment.lines)


def wrong_side(case: Case) -> Iterator[Finding]:
    """Find words that name another side than the one on which the body moves."""
    for index, moment in enumerate(case.score.moments):
        texts = (*_written(moment), *_lines(moment))
        if not any(named_sides(text) for text in texts):
            continue
        wrong = passing(moment, texts)
        written = _written(moment) if moment.arriving else ()
        if written and wrong is None:
            shape = case.shape(moment)
            wrong = legs(case.ways[index], written, shape, moment.side) or shaped(
                shape, moment, written
            )
        if wrong:
            yield _wrong_side(moment, wrong)


def _wrong_side(moment: Moment, wrong: Named) -> Finding:
    words = f"“{wrong.text}” is said, but {wrong.fact}"
    if moment.readings:
        words += f" (written: “{moment.readings[0]}”)"
    hint = f"say {wrong.side.other}"
    if moment.pass_side:
        word = "side" if wrong.side.other is moment.pass_side else "other"
        hint = f"write <{word}>, which follows the side that is led"
    return finding(WRONG_SIDE, words, moment.origin, hint)


def wrong_hand(case: Case) -> Iterator[Finding]:
    """Find words that bring the wrong hand to the knee in a twist."""
    for moment in case.score.moments:
        shape = case.shape(moment)
        if not shape.hand:
            continue
        for text in (*_written(moment), *_lines(moment)):
            said = _hand_said(text)
            if said and said != shape.hand:
                words = f"“{text}” brings the {said} hand to the knee;"
                words += f" in {shape.name} it is the {shape.hand} one"
                hint = "say: <other> hand to the <side> knee"
                if shape.hand == "same":
                    hint = "say: <side> hand to the <side> knee"
                yield finding(WRONG_HAND, words, moment.origin, hint)
                break


def _hand_said(text: str) -> str:
    """Which hand the words bring to the knee: same, opposite, or "" when they do not say."""
    kind = _KIND.search(text)
    if kind:
        return kind.group(1).lower()
    found = {match.group(1).lower() == match.group(2).lower() for match in _hands(text)}
    return ("same" if found.pop() else "opposite") if len(found) == 1 else ""


def _hands(text: str) -> Iterator[re.Match[str]]:
    for clause in re.split(r"[.;!?,]", text):
        if not names_side(clause):
            continue
        yield from _TO_KNEE.finditer(clause)
        yield from _KNEE_WITH.finditer(clause)


def wrong_end(case: Case) -> Iterator[Finding]:
    """Find words that name the other end of the mat or the room than the class turns to."""
    for index, moment in enumerate(case.score.moments):
        heading = moment.stance.heading.value
        for text in _written(moment) if moment.arriving else ():
            if not says(text, *_OTHER_END[heading]):
                continue
            turns = moment.stance.frame is not Frame.LONG or moment.turn
            match = _FACE.search(text) if turns else None
            said = _ENDS[(match.group("end") or match.group("wall")).lower()] if match else "front"
            if not match and _steps_forward(case, index):
                match = _FORTH.search(text)
            if not match and moment.stance.trunk is Trunk.UPRIGHT:
                match = _LOOK.search(text)
            if match and said != heading:
                words = f"“{match.group().strip()}” is said, but the class faces the {heading}"
                yield finding(WRONG_END, words, moment.origin, "write <end> for the end faced")
                break


def _steps_forward(case: Case, index: int) -> bool:
    return any(action.kind in _FORWARD for way in case.ways[index] for action in way.actions)


def unnamed(case: Case) -> Iterator[Finding]:
    """Find cues of the plan's own that leave unsaid that the side has changed."""
    side: Side | None = None
    passage = ""
    for index, moment in enumerate(case.score.moments):
        if moment.side is None or not moment.arriving:
            continue
        fresh = side is not moment.side or (moment.pass_key != passage and moment.decided == "pass")
        side, passage = moment.side, moment.pass_key
        if not fresh or moment.decided == "stance" or not moment.words.written:
            continue
        if moment.words.form in {"breath", "nothing"} or _announced(case, index):
            continue
        name = case.shape(moment).name
        words = f"the side changes to the {moment.side} at {name}, and the cue does not say so"
        yield finding(UNNAMED, words, moment.origin, "write <side> into its words")


def _announced(case: Case, index: int) -> bool:
    """Whether a side was said for this movement, or announced by the plan just before it."""
    moments = case.score.moments
    near = [
        case.told[at]
        for at in range(max(0, index - AHEAD), index)
        if moments[at].words.written or moments[at].lines
    ]
    own = case.told[index]
    side = case.score.moments[index].side
    return bool(_SIDE.search(own) or _PART.search(own)) or any(
        side in named_sides(text) or _OTHER.search(text) for text in near
    )


SAID: tuple[Check, ...] = (
    Check(WRONG_SIDE, wrong_side),
    Check(WRONG_HAND, wrong_hand),
    Check(WRONG_END, wrong_end),
    Check(UNNAMED, unnamed, once=True),
)
