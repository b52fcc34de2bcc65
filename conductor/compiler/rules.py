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
        bad="- come to: mountain\n- in: wrrior twoo  # here",
        good="- come to: mountain\n- in: warrior two\n  side: right",
    ),
    Rule(
        "two-sides",
        Weight.ERROR,
        "sides",
        "A step names one side only.",
        "`side` and the name of the shape would have to be obeyed both.",
        bad="- come to: downward dog\n- in: right crescent lunge\n  side: left  # here",
        good="- come to: downward dog\n- in: crescent lunge\n  side: left",
    ),
    Rule(
        "no-sides",
        Weight.WARNING,
        "sides",
        "Only a shape with a left and a right takes a side.",
        "A side on a symmetric shape is a slip, or another shape was meant.",
        bad="- come to: downward dog\n- in: plank\n  side: left  # here",
        good="- come to: downward dog\n- in: plank",
    ),
    Rule(
        "own-shape",
        Weight.ERROR,
        "names",
        "A shape of the plan's own says what it is like, or what it stands on.",
        "Without that neither its sides nor the ways in and out of it are known.",
        bad="shapes:\n  keel: {bends: forward}  # here\nsteps:\n  - come to: keel",
        good="shapes:\n  keel: {like: boat}\nsteps:\n  - come to: keel",
    ),
    Rule(
        "own-name",
        Weight.REMARK,
        "names",
        "A shape of the plan's own with a catalogue name wins over the catalogue's.",
        "It is meant more often than not, and worth knowing when it is not.",
        bad="shapes:\n  boat: {like: staff}  # here\nsteps:\n  - come to: boat",
        good="shapes:\n  keel: {like: boat}\nsteps:\n  - come to: keel",
    ),
    Rule(
        "only-where",
        Weight.ERROR,
        "rounds",
        "`only` stands inside rounds or a passage with two sides.",
        "Elsewhere there is no round or side it could speak of.",
        bad="- come to: plank\n- in: same\n  only: round 1  # here",
        good="- come to: plank\n- rounds: 2\n  steps:\n    - in: same\n      only: round 1\n"
        "    - out: same",
    ),
    Rule(
        "too-long",
        Weight.ERROR,
        "time",
        "An unfolded class has at most 20,000 moments.",
        "More is a slip in a number: at 4 s a moment it would last 22 hours.",
        bad="- come to: mountain\n- rounds: 200\n  settle: 100 breaths\n  steps:\n"
        "    - in: same\n    - out: same  # here",
        good="- come to: mountain\n- rounds: 3\n  settle: 1 breath\n  steps:\n"
        "    - in: same\n    - out: same",
    ),
    Rule(
        "nothing-to-lead",
        Weight.ERROR,
        "time",
        "A plan has at least one movement or stay.",
        "A class of no moments cannot begin.",
        bad="- say: Hello.",
        good="- come to: mountain\n  say: Hello.",
    ),
    Rule(
        "first-shape",
        Weight.ERROR,
        "ways",
        "A class begins in a shape: `come to` one, or move into one.",
        "`same`, `stay` and `free` need a shape to be in.",
        bad="- stay: 4 breaths  # here",
        good="- come to: mountain\n- stay: 4 breaths",
    ),
    Rule(
        "turn-in-pass",
        Weight.ERROR,
        "sides",
        "Inside a passage with two sides a turn is to the `other end` or the `long side`.",
        "On its way home the passage is led from the other end: `front` would be wrong there.",
        bad="- come to: mountain\n- each side: yes\n  steps:\n    - in: arms overhead\n"
        "      turn: back  # here\n    - out: mountain",
        good="- come to: mountain\n- each side: yes\n  steps:\n    - in: arms overhead\n"
        "      turn: other end\n    - out: mountain",
    ),
    Rule(
        "stretch-bounds",
        Weight.ERROR,
        "time",
        "A stay lies between the bounds of its own `may stretch`, in the same measure.",
        "Breaths cannot be stretched in minutes, nor a stay of 5 to at most 3.",
        bad="- come to: mountain\n- may stretch: 1 to 3 breaths  # here\n  steps:\n"
        "    - stay: 5 breaths",
        good="- come to: mountain\n- may stretch: 3 to 8 breaths\n  steps:\n    - stay: 5 breaths",
    ),
    Rule(
        "length-missed",
        Weight.WARNING,
        "time",
        "The class lasts as long as its `length` says.",
        "It ends late, or people lie waiting: give stays room with `may stretch`.",
        bad="length: 5 min  # here\nsteps:\n  - come to: mountain\n  - stay: 5 breaths",
        good="length: 5 min\nsteps:\n  - come to: mountain\n  - stay: 35 breaths\n"
        "    may stretch: 30 to 60 breaths\n  - stay: 20 s\n    may stretch: 5 to 60 s",
    ),
    Rule(
        "drop-leaves-gap",
        Weight.WARNING,
        "time",
        "What may be dropped leaves the class such that it can go on without it.",
        "It is never left out else, and the class does not get shorter by it.",
        bad="- come to: mountain\n- in: arms overhead\n- out: standing fold\n"
        "  may drop: yes  # here\n- in: half lift\n- out: standing fold",
        good="- come to: mountain\n- in: arms overhead\n- out: standing fold\n"
        "- steps:\n    - in: half lift\n    - out: standing fold\n  may drop: yes\n- in: mountain",
    ),
    Rule(
        "left-out",
        Weight.REMARK,
        "time",
        "Everything that is written is led.",
        "What may be dropped goes when the length asks for it; whoever leads should know.",
        bad="length: 24 s\nsteps:\n  - come to: mountain\n  - stay: 2 breaths\n"
        "  - may drop: yes  # here\n    steps:\n      - in: arms overhead\n      - out: mountain",
        good="length: 32 s\nsteps:\n  - come to: mountain\n  - stay: 2 breaths\n"
        "  - may drop: yes\n    steps:\n      - in: arms overhead\n      - out: mountain",
    ),
    Rule(
        "led-otherwise",
        Weight.REMARK,
        "time",
        "Rounds and breath are led as they are written.",
        "What may vary does so when the length asks for it; whoever leads should know.",
        bad="length: 48 s\nsteps:\n  - come to: mountain\n  - rounds: 3  # here\n"
        "    may repeat: 2 to 6\n    steps:\n      - in: arms overhead\n      - out: mountain",
        good="length: 32 s\nsteps:\n  - come to: mountain\n  - rounds: 3\n"
        "    may repeat: 2 to 6\n    steps:\n      - in: arms overhead\n      - out: mountain",
    ),
    Rule(
        "share-missed",
        Weight.WARNING,
        "time",
        "A part gets the share of the class it wishes for, to a percent of the class.",
        "Its stays and rounds do not reach that far: it would come out of proportion.",
        bad="length: 100 s\nparts:\n  - part: Stand\n    share: 50 %  # here\n    steps:\n"
        "      - come to: mountain\n      - stay: 2 breaths\n  - part: Wait\n    steps:\n"
        "      - stay: 76 s\n        may stretch: yes",
        good="length: 100 s\nparts:\n  - part: Stand\n    share: 24 %\n    steps:\n"
        "      - come to: mountain\n      - stay: 2 breaths\n  - part: Wait\n    steps:\n"
        "      - stay: 76 s\n        may stretch: yes",
    ),
    Rule(
        "unclear-side",
        Weight.WARNING,
        "words",
        "In a passage with two sides, left and right in words plainly name a side.",
        "Words are exchanged on the second side; where it is unclear, write <side> or <other>.",
        bad="- come to: downward dog\n- each side: yes\n  steps:\n"
        "    - in: three-legged dog\n      say: Sink right into the hip.  # here\n"
        "    - out: downward dog",
        good="- come to: downward dog\n- each side: yes\n  steps:\n"
        "    - in: three-legged dog\n      say: Sink into the <other> hip.\n"
        "    - out: downward dog",
    ),
    Rule(
        "unknown-mark",
        Weight.WARNING,
        "words",
        "What stands in angle brackets in words is <side>, <other> or <end>.",
        "Another mark would be spoken to the room as it stands.",
        bad="- come to: tree\n  side: right\n  say: Lift the <sid> knee.  # here",
        good="- come to: tree\n  side: right\n  say: Lift the <side> knee.",
    ),
    Rule(
        "way-in-way",
        Weight.ERROR,
        "variants",
        "Another way of a passage has no other ways of its own.",
        "In class one chooses among whole ways; a way of a way would never be chosen.",
        bad="- come to: plank\n- ease:\n    steps:\n      - out: knees down plank\n"
        "        more: arms long  # here\n      - in: cobra\n      - out: downward dog\n  steps:\n"
        "    - out: low plank\n    - in: upward dog\n    - out: downward dog",
        good="- come to: plank\n- ease:\n    steps:\n      - out: knees down plank\n"
        "      - in: cobra\n      - out: downward dog\n  steps:\n    - out: low plank\n"
        "    - in: upward dog\n    - out: downward dog",
    ),
    Rule(
        "no-such-setting",
        Weight.WARNING,
        "settings",
        "Everything under `voice` and `view` is a setting that there is.",
        "A misspelt setting is one that is not made, and nobody notices before class.",
        bad="voice: {last breth: yes}  # here\nsteps:\n  - come to: mountain",
        good="voice: {last breath: yes}\nsteps:\n  - come to: mountain",
    ),
    Rule(
        "unreadable-setting",
        Weight.ERROR,
        "settings",
        "A setting has a value that can be read.",
        "The class would be led with another one.",
        bad="voice: {rate: fast}  # here\nsteps:\n  - come to: mountain",
        good="voice: {rate: 140}\nsteps:\n  - come to: mountain",
    ),
    Rule(
        "variant-length",
        Weight.ERROR,
        "variants",
        "Another way of a passage has the same half breaths.",
        "All in the room move on the same breath, whichever way they take.",
        bad="- come to: plank\n- ease:\n    steps:  # here\n      - out: downward dog\n"
        "  steps:\n    - out: low plank\n    - in: upward dog\n    - out: downward dog",
        good="- come to: plank\n- ease:\n    steps:\n      - out: knees down plank\n"
        "      - in: cobra\n      - out: downward dog\n  steps:\n    - out: low plank\n"
        "    - in: upward dog\n    - out: downward dog",
    ),
    Rule(
        "variant-end",
        Weight.ERROR,
        "variants",
        "Another way ends where the next movement can begin with the same feet.",
        "Else those who take it are left behind at the next cue.",
        bad="- come to: downward dog\n- in: three-legged dog\n  side: right\n"
        "  or: {shape: boat}  # here\n- out: downward dog",
        good="- come to: low plank\n- in: upward dog\n  ease: {shape: cobra}\n- out: downward dog",
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
