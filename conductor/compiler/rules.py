"""The rules the compiler enforces: what makes a plan impossible to lead as written."""

from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.spans import Span

COMPILER: tuple[Rule, ...] = (
    Rule(
        "unknown-shape",
        Weight.ERROR,
        "names",
        "Every shape is one of the catalogue's or one of the plan's own.",
        "A shape nobody knows has no side, no stance and no words.",
        bad="- in: warior two",
        good="- in: warrior two",
    ),
    Rule(
        "two-sides",
        Weight.ERROR,
        "sides",
        "A step names one side only.",
        "`side` and the name of the shape would have to be obeyed both.",
        bad="- in: right crescent lunge\n  side: left",
        good="- in: crescent lunge\n  side: left",
    ),
    Rule(
        "no-sides",
        Weight.WARNING,
        "sides",
        "Only a shape with a left and a right takes a side.",
        "A side on a symmetric shape is a slip, or another shape was meant.",
        bad="- in: plank\n  side: left",
        good="- in: plank",
    ),
    Rule(
        "own-shape",
        Weight.ERROR,
        "names",
        "A shape of the plan's own says what it is like, or what it stands on.",
        "Without that neither its sides nor the ways in and out of it are known.",
        bad="shapes:\n  keel: {bends: forward}",
        good="shapes:\n  keel: {like: boat}",
    ),
    Rule(
        "own-name",
        Weight.REMARK,
        "names",
        "A shape of the plan's own with a catalogue name wins over the catalogue's.",
        "It is meant more often than not, and worth knowing when it is not.",
        bad="shapes:\n  boat: {like: staff}",
        good="shapes:\n  keel: {like: boat}",
    ),
    Rule(
        "only-where",
        Weight.ERROR,
        "rounds",
        "`only` stands inside rounds or a passage with two sides.",
        "Elsewhere there is no round or side it could speak of.",
        bad="- in: plank\n  only: round 1",
        good="- rounds: 2\n  steps:\n    - in: plank\n      only: round 1",
    ),
    Rule(
        "too-long",
        Weight.ERROR,
        "time",
        "An unfolded class has at most 20,000 moments.",
        "More is a slip in a number: at 4 s a moment it would last 22 hours.",
        bad="- rounds: 200\n  steps: [{rounds: 200, steps: [{in: plank}]}]",
        good="- rounds: 3\n  steps: [{in: plank}]",
    ),
    Rule(
        "nothing-to-lead",
        Weight.ERROR,
        "time",
        "A plan has at least one movement or stay.",
        "A class of no moments cannot begin.",
        bad="steps:\n  - say: Hello.",
        good="steps:\n  - come to: mountain",
    ),
    Rule(
        "first-shape",
        Weight.ERROR,
        "ways",
        "A class begins in a shape: `come to` one, or move into one.",
        "`same`, `stay` and `free` need a shape to be in.",
        bad="steps:\n  - stay: 4 breaths",
        good="steps:\n  - come to: mountain\n  - stay: 4 breaths",
    ),
    Rule(
        "turn-in-pass",
        Weight.ERROR,
        "sides",
        "Inside a passage with two sides a turn is to the `other end` or the `long side`.",
        "On its way home the passage is led from the other end: `front` would be wrong there.",
        bad="- each side: yes\n  steps:\n    - in: arms overhead\n      turn: back",
        good="- each side: yes\n  steps:\n    - in: arms overhead\n      turn: other end",
    ),
    Rule(
        "stretch-bounds",
        Weight.ERROR,
        "time",
        "A stay lies between the bounds of its own `may stretch`, in the same measure.",
        "Breaths cannot be stretched in minutes, nor a stay of 5 to at most 3.",
        bad="- stay: 5 breaths\n  may stretch: 1 to 3 breaths",
        good="- stay: 5 breaths\n  may stretch: 3 to 8 breaths",
    ),
    Rule(
        "length-missed",
        Weight.WARNING,
        "time",
        "The class lasts as long as its `length` says.",
        "It ends late, or people lie waiting: give stays room with `may stretch`.",
        bad="length: 5 min  # and steps of 2 min, none of which may stretch",
        good="- stay: 5 breaths\n  may stretch: 3 to 8 breaths",
    ),
    Rule(
        "unclear-side",
        Weight.WARNING,
        "words",
        "In a passage with two sides, left and right in words plainly name a side.",
        "Words are exchanged on the second side; where it is unclear, write <side> or <other>.",
        bad="say: That feels right to the hip.",
        good="say: That feels good in the <side> hip.",
    ),
    Rule(
        "variant-length",
        Weight.ERROR,
        "variants",
        "Another way of a passage has the same half breaths.",
        "All in the room move on the same breath, whichever way they take.",
    ),
    Rule(
        "variant-end",
        Weight.ERROR,
        "variants",
        "Another way ends where the next movement can begin with the same feet.",
        "Else those who take it are left behind at the next cue.",
    ),
)

_WEIGHTS = {rule.name: rule.weight for rule in COMPILER}


def found(
    rule: str,
    words: str,
    span: Span | None,
    hint: str = "",
    also: tuple[tuple[Span, str], ...] = (),
) -> Finding:
    """Make a finding of a compiler rule, with the rule's weight."""
    return Finding(rule, _WEIGHTS[rule], words, span, hint, also)
