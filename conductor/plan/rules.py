"""The rules of the plan language: what a file must be before it can be led.

Each rule's `bad` and `good` are whole files, and its test.
"""

from conductor.findings import Weight
from conductor.rules import Rule

FAMILY = "language"
OWN = "this project's plan language"


def _rule(
    name: str, sentence: str, why: str, *examples: str, weight: Weight = Weight.ERROR
) -> Rule:
    bad, good = examples
    return Rule(name, weight, FAMILY, sentence, why, bad, good, OWN)


def _plan(steps: str, head: str = "") -> str:
    indented = "".join(f"      {line}\n" for line in steps.splitlines())
    return f"plan: 1\ntitle: Small Hours\n{head}parts:\n  - part: All\n    steps:\n{indented}"


LAYOUT = _rule(
    "layout",
    "A plan is YAML: keys with a colon, lists with dashes, indented by spaces.",
    "A file that is laid out wrongly means something else than its author thinks.",
    _plan("- in: mountain\n out: standing fold"),
    _plan("- in: mountain\n- out: standing fold"),
)
QUOTES = _rule(
    "quotes",
    "Words that YAML would take for its own signs stand in quotes.",
    "A colon, a bracket or a leading sign in a spoken line would change or lose the words.",
    _plan("- say: Reach: long arms."),
    _plan('- say: "Reach: long arms."'),
)
EATEN = _rule(
    "eaten-words",
    "Spoken words with ' #' in them stand in quotes.",
    "YAML takes what follows ' #' for a comment, so it would never be said.",
    _plan("- say: Station #3 is the wall."),
    _plan('- say: "Station #3 is the wall."'),
    weight=Weight.WARNING,
)
CONTROL = _rule(
    "control-characters",
    "A text holds letters, signs and spaces, no control characters.",
    "They steer a terminal or turn the direction of reading; they are left out.",
    _plan('- say: "Breathe\\e[2J in."'),
    _plan("- say: Breathe in."),
    weight=Weight.WARNING,
)
PLAIN = _rule(
    "plain-yaml",
    "A plan has no anchors, aliases, tags, directives or second document.",
    "They hide what is led; what is used often is a flow, with a name of its own.",
    _plan("- in: &up arms overhead\n- out: *up"),
    _plan("- in: arms overhead\n- out: same"),
)
TWICE = _rule(
    "key-twice",
    "A key stands once in its mapping.",
    "Only one of two could hold, and which one would be a guess.",
    _plan("- in: mountain\n  say: Rise.\n  say: Stand."),
    _plan("- in: mountain\n  say: Rise. Stand."),
)
SIZE = _rule(
    "size",
    "A plan stays within the size, depth and number of things that one file may have.",
    "So that no file, by accident or by design, can keep the program busy.",
    "plan: " + "[" * 40 + "]" * 40,
    _plan("- come to: mountain"),
)
VERSION = _rule(
    "version",
    "The file says in which version of the plan language it is written: plan: 1.",
    "A later version may read the same words differently.",
    "plan: 2\nparts:\n  - part: All\n    steps:\n      - come to: mountain\n",
    _plan("- come to: mountain"),
)
KEY = _rule(
    "unknown-key",
    "Only the keys of the plan language stand in a plan.",
    "A misspelt key would be lost without a word.",
    _plan("- inn: mountain"),
    _plan("- in: mountain"),
)
MISPLACED = _rule(
    "misplaced-key",
    "A modifier stands where it can take effect.",
    "Elsewhere it would be read and never obeyed.",
    _plan("- stay: 3 breaths\n  turn: other end"),
    _plan("- out: warrior two\n  turn: other end\n- stay: 3 breaths"),
)
VERB = _rule(
    "one-verb",
    "A step has exactly one verb.",
    "Two verbs in one step have no order, and a step with none does nothing.",
    _plan("- in: arms overhead\n  out: standing fold"),
    _plan("- in: arms overhead\n- out: standing fold"),
)
MISSING = _rule(
    "missing",
    "What a part, a flow, a step or a key needs is there and not empty.",
    "An empty list or value is a passage that was forgotten.",
    _plan("- rounds: 3"),
    _plan("- rounds: 3\n  steps:\n    - in: half lift\n    - out: standing fold"),
)
FORM = _rule(
    "form",
    "A text stands where a text is asked for, a list where a list, a mapping where a mapping.",
    "Anything else cannot be led.",
    _plan("- rounds: 2\n  steps: plank"),
    _plan("- rounds: 2\n  steps:\n    - in: plank\n    - out: same"),
)
AMOUNT = _rule(
    "amount",
    "An amount says how many and of what: 5 breaths, half a breath, 40 s, 1:30, 5 min.",
    "A bare number could be breaths, seconds or minutes.",
    _plan("- come to: mountain\n- stay: 5"),
    _plan("- come to: mountain\n- stay: 5 breaths"),
)
LIMIT = _rule(
    "limit",
    "Amounts, rounds and strokes stay within what a class can hold, written out in full.",
    "A slip of a digit would make a class of days, and reading it would never end.",
    _plan("- come to: mountain\n- stay: 1000000000 breaths"),
    _plan("- come to: mountain\n- stay: 10 breaths"),
)
BOUNDS = _rule(
    "bounds",
    "Bounds are in order, in the unit of what they bound, and what is written lies between them.",
    "Bounds that leave out what is written cannot both be meant.",
    _plan("- come to: mountain\n- stay: 10 breaths\n  may stretch: 3 to 8 breaths"),
    _plan("- come to: mountain\n- stay: 5 breaths\n  may stretch: 3 to 8 breaths"),
)
SHARES = _rule(
    "shares",
    "The shares of the parts leave room for each part; they make 100 % when every part has one.",
    "Parts that together wish for more than the class cannot all be given what they wish.",
    "plan: 1\nlength: 20 min\nparts:\n  - part: Stand\n    share: 70 %\n    steps:\n"
    "      - come to: mountain\n  - part: Rest\n    share: 40 %\n    steps:\n"
    "      - come to: final rest\n",
    "plan: 1\nlength: 20 min\nparts:\n  - part: Stand\n    share: 70 %\n    steps:\n"
    "      - come to: mountain\n  - part: Rest\n    share: 30 %\n    steps:\n"
    "      - come to: final rest\n",
)
WORD = _rule(
    "known-word",
    "Where a key takes one of a few words, it is one of them.",
    "Another word would be a guess.",
    _plan("- in: warrior two\n  side: starboard"),
    _plan("- in: warrior two\n  side: right"),
)
FLOW = _rule(
    "unknown-flow",
    "A flow that is called stands under `flows`.",
    "There is nothing to lead under another name.",
    _plan("- flow: lnik", "flows:\n  link:\n    - in: plank\n"),
    _plan("- flow: link", "flows:\n  link:\n    - in: plank\n"),
)
CYCLE = _rule(
    "flow-in-itself",
    "A flow does not call itself, straight or by way of others.",
    "It would never end.",
    _plan("- flow: tide", "flows:\n  tide:\n    - in: plank\n    - flow: tide\n"),
    _plan("- flow: tide\n  rounds: 2", "flows:\n  tide:\n    - in: plank\n    - out: same\n"),
)
UNUSED = _rule(
    "unused-flow",
    "A flow that is written is called.",
    "It is usually one that was forgotten or renamed.",
    _plan("- in: mountain", "flows:\n  link:\n    - in: plank\n"),
    _plan("- flow: link", "flows:\n  link:\n    - in: plank\n"),
    weight=Weight.REMARK,
)
PATH = _rule(
    "path",
    "A file that a plan names lies in the plan's own folder.",
    "A plan from elsewhere must not reach other files.",
    _plan("- come to: mountain", "shapes from: ../elsewhere.yaml\n"),
    _plan("- come to: mountain", "shapes from: my-shapes.yaml\n"),
)

LANGUAGE: tuple[Rule, ...] = (
    LAYOUT,
    QUOTES,
    EATEN,
    CONTROL,
    PLAIN,
    TWICE,
    SIZE,
    VERSION,
    KEY,
    MISPLACED,
    VERB,
    MISSING,
    FORM,
    AMOUNT,
    LIMIT,
    BOUNDS,
    SHARES,
    WORD,
    FLOW,
    CYCLE,
    UNUSED,
    PATH,
)
