"""The plan language on one page: every key with what it means and an example that is tested."""

import textwrap

from conductor.values import Struct


class Key(Struct, frozen=True):
    """One key of the language; the example is steps of a part, or the top of a plan."""

    name: str
    means: str
    example: str = ""
    top: bool = False


TOP = (
    Key("plan", "always `plan: 1`, the language's version", top=True),
    Key("title", "what the class is called", "title: Lighthouse Morning", top=True),
    Key(
        "kind",
        "class, or piece: a fragment that needs no arrival and no rest",
        "kind: piece",
        top=True,
    ),
    Key("for", "whom it is for; cautions for them are checked", "for: mixed level", top=True),
    Key(
        "length",
        "the class ends on this minute; left out, as long as it turns out",
        "length: 30 min",
        top=True,
    ),
    Key(
        "breath",
        "the tempo: lengths of in and out, or breaths a minute",
        "breath: 4 s in, 6 s out",
        top=True,
    ),
    Key(
        "breath may stretch",
        "how long a whole breath may be to meet the length; the same beside `breath` of a part or block",
        "breath: 4 s in, 4 s out\nbreath may stretch: 7 to 10 s",
        top=True,
    ),
    Key("first side", "which side of a passage is led first", "first side: left", top=True),
    Key("props", "what everybody should have at hand", "props: [block, blanket]", top=True),
    Key(
        "flows",
        "passages by name, written once",
        "flows:\n  rise:\n    - in: arms overhead\n    - out: mountain",
        top=True,
    ),
    Key(
        "shapes",
        "shapes of your own, built on known ones",
        "shapes:\n  lighthouse: {like: warrior three, with: arms wide}",
        top=True,
    ),
    Key("shapes from", "a file of your own shapes, in the plan's folder", top=True),
    Key(
        "voice",
        "rate, name, recordings, fastest, off, last breath, count down, part bell",
        "voice: {rate: 140, last breath: yes}",
        top=True,
    ),
    Key(
        "check",
        "thresholds by name, and rules switched off with a reason",
        "check: {off: {side-open: they choose a side}}",
        top=True,
    ),
    Key(
        "view",
        "where the screen stands, and how far away",
        "view: {screen: front, distance: 3 m}",
        top=True,
    ),
    Key(
        "parts",
        "the class: named parts with their steps, each perhaps with a length of its own",
        top=True,
    ),
    Key(
        "share",
        "of a part: how much of the class's length it wishes for; its stays bring it there, and `conductor fit` finds rounds and breath for it too",
        "length: 20 min\nparts:\n  - part: Stand\n    share: 75 %\n    steps:\n      - come to: mountain\n      - stay: 100 breaths\n        may stretch: yes\n  - part: Rest\n    steps:\n      - free: 40 s\n        to: final rest\n      - stay: 5 min\n        may stretch: 3 to 10 min",
        top=True,
    ),
)
VERBS = (
    Key(
        "come to",
        "take a shape with no breath told; it takes one breath, or `over` so long",
        "- come to: mountain\n  over: 2 breaths",
    ),
    Key(
        "in",
        "a movement on an inhale; `same` is half a breath in place",
        "- come to: mountain\n- in: arms overhead",
    ),
    Key(
        "out",
        "a movement on an exhale",
        "- come to: mountain\n- in: arms overhead\n- out: standing fold",
    ),
    Key(
        "stay",
        "breaths or time in the shape reached, from the half breath after the last one",
        "- come to: mountain\n- stay: 3 and a half breaths",
    ),
    Key("free", "time at one's own breath", "- come to: all fours\n- free: 40 s"),
    Key("of", "what goes round in free time", "- free: 40 s\n  of: [cow, cat]"),
    Key("to", "where free time arrives", "- come to: staff\n- free: 40 s\n  to: final rest"),
    Key("flow", "lead a passage by its name", "- come to: mountain\n- flow: rise"),
    Key(
        "rounds",
        "lead steps, or a flow, so often",
        "- come to: mountain\n- rounds: 3\n  steps:\n    - in: arms overhead\n    - out: mountain",
    ),
    Key(
        "may repeat",
        "how few and how many rounds there may be to meet the length",
        "- come to: mountain\n- rounds: 3\n  may repeat: 2 to 5\n  steps:\n    - in: arms overhead\n    - out: mountain",
    ),
    Key(
        "each side",
        "lead steps on both sides; write them for the right",
        "- come to: downward dog\n- each side: yes\n  steps:\n    - in: three-legged dog\n    - out: downward dog",
    ),
    Key(
        "steps",
        "the steps of a block; a block may stand for its modifiers alone",
        "- come to: mountain\n- settle: 1 breath\n  steps:\n    - in: arms overhead\n    - out: mountain",
    ),
    Key(
        "between",
        "what is led between the two sides",
        "- come to: downward dog\n- each side: yes\n  steps:\n    - in: three-legged dog\n    - out: downward dog\n  between:\n    - in: same\n    - out: same",
    ),
    Key(
        "alternate",
        "rounds change the side each time",
        "- come to: downward dog\n- rounds: 4\n  alternate: yes\n  steps:\n    - in: three-legged dog\n    - out: downward dog",
    ),
    Key("bell", "so many strokes", "- come to: easy seat\n- bell: 1\n- stay: 3 breaths"),
    Key(
        "say",
        "words within the shape, or of a step; on a stay a list, one a breath, or first and last",
        "- come to: mountain\n- stay: 4 breaths\n  say:\n    - first: Let the shoulders drop.\n    - last: Last breath.",
    ),
)
MODIFIERS = (
    Key(
        "short",
        "the same words, shorter, for later rounds and tight breaths",
        "- come to: mountain\n- in: arms overhead\n  say: Reach up from the floor.\n  short: Reach up.",
    ),
    Key(
        "say again",
        "words for the later times",
        "- come to: mountain\n- rounds: 2\n  steps:\n    - in: arms overhead\n      say: Reach up from the floor.\n      say again: Reach.\n    - out: mountain",
    ),
    Key(
        "speak",
        "how much is said, by round: full, short, breath, nothing",
        "- come to: mountain\n- rounds: 3\n  speak: full, then short, then breath\n  steps:\n    - in: arms overhead\n    - out: mountain",
    ),
    Key(
        "side",
        "right, left or other (than the passage's)",
        "- come to: downward dog\n- in: warrior one\n  side: left",
    ),
    Key(
        "with", "arms, hands, a bind, a prop", "- come to: mountain\n- in: same\n  with: arms wide"
    ),
    Key(
        "through",
        "shapes passed in the same half breath",
        "- come to: half lift\n- out: low plank\n  through: plank",
    ),
    Key(
        "turn",
        "other end, long side; outside of two-sided passages front or back",
        "- come to: mountain\n- in: arms overhead\n  turn: other end",
    ),
    Key(
        "over",
        "a movement that takes several breaths",
        "- come to: standing fold\n- in: mountain\n  over: 2 breaths",
    ),
    Key(
        "settle",
        "so many breaths after each movement of a block, for teaching it slowly",
        "- come to: mountain\n- settle: 1 breath\n  steps:\n    - in: arms overhead\n    - out: mountain",
    ),
    Key(
        "ease",
        "a gentler way: words, a shape, or steps of the same breaths",
        "- come to: low plank\n- in: upward dog\n  ease: cobra\n- out: downward dog",
    ),
    Key(
        "more",
        "a fuller way",
        "- come to: mountain\n- in: tree\n  side: right\n  more: eyes closed",
    ),
    Key(
        "or",
        "another way",
        "- come to: mountain\n- in: tree\n  side: right\n  or: hand on the wall",
    ),
    Key(
        "variants",
        "ways with names of your own, chosen before or in class by `--level NAME` or w",
        "- come to: mountain\n- in: tree\n  side: right\n  variants: {gentle: toes on the floor, full: eyes closed}",
    ),
    Key("note", "shown to you, never spoken", "- come to: mountain\n  note: wait for latecomers"),
    Key(
        "may stretch",
        "the bounds of a stay that helps to meet the length; yes is half to double",
        "- come to: mountain\n- stay: 5 breaths\n  may stretch: 3 to 8 breaths",
    ),
    Key(
        "least",
        "the least a stay may shrink to, or the fewest rounds",
        "- come to: mountain\n- rounds: 3\n  least: 2\n  steps:\n    - in: arms overhead\n    - out: mountain",
    ),
    Key(
        "may drop",
        "yes: may be left out to meet the length, where the class can go on without it; left out: it is",
        "- come to: mountain\n- may drop: yes\n  steps:\n    - in: arms overhead\n    - out: mountain",
    ),
    Key(
        "only",
        "round 1, last round, first side, second side",
        "- come to: mountain\n- rounds: 2\n  steps:\n    - in: arms overhead\n    - out: mountain\n    - stay: 1 breath\n      only: last round",
    ),
)
MARKS = (
    "In words, <side> and <other> are the side of the passage and the other one, <end> the end of the",
    "mat the class heads for. Plain left and right (“your right foot”), and front and back of the mat,",
    "are exchanged on the other side; idioms (“right now”) and the body (“back knee”) never are.",
)


def page() -> str:
    """Lay the whole language out."""
    lines = ["A plan is YAML text. Its top:", ""]
    for title, keys in (
        ("", TOP),
        ("Steps:", VERBS),
        ("What a step or a block may carry:", MODIFIERS),
    ):
        lines += ["", title, ""] if title else []
        for key in keys:
            lines += textwrap.wrap(
                key.means, 80, initial_indent=f"{key.name:<13} ", subsequent_indent=" " * 14
            )
            lines += textwrap.indent(key.example, " " * 18).splitlines()
    return "\n".join(
        [
            *lines,
            "",
            *MARKS,
            "",
            "conductor rules lists what is checked; conductor plans, what can be copied.",
        ]
    )
