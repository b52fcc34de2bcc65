"""Planters: each puts one fault into a sound plan, at a random place.

They are written from what goes wrong in classes, not from the rules that find it: a planter says in
which lines the fault can be seen and to which family it belongs, never which rule must find it.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise
from random import Random

from conductor.score.model import Moment
from conductor.sides import Breath, Side
from conductor.stance import Foot
from tests.checks.planting.sound import Field, Slot


@dataclass(frozen=True)
class Planted:
    """A plan with a fault, and the lines (from 1) at one of which it has to be found."""

    text: str
    lines: frozenset[int]


@dataclass(frozen=True)
class Planter:
    """One kind of fault: the family it belongs to, the sentence, and how it is planted.

    `found_by` names the families of rules that speak of it.
    """

    family: str
    sentence: str
    plant: Callable[[Field, Random], Planted | None]
    found_by: tuple[str, ...] = ()


PLANTERS: list[Planter] = []
Plant = Callable[[Field, Random], Planted | None]


def planter(family: str, sentence: str, *others: str) -> Callable[[Plant], Plant]:
    """Enter a planter into the table."""

    def entered(plant: Plant) -> Plant:
        PLANTERS.append(Planter(family, sentence, plant, (family, *others)))
        return plant

    return entered


def steps(field: Field, slots: list[Slot], chance: Random, text: str, *at: int) -> Planted | None:
    """Put steps into one of the places; the fault is in their lines `at` (from 0; none: all)."""
    if not slots:
        return None
    planted, first = field.put(chance.choice(slots), text)
    count = len(text.strip("\n").splitlines())
    return Planted(planted, frozenset(first + one for one in (at or range(count))))


def pick(chance: Random, found: Iterable[Moment]) -> Moment | None:
    """One of some moments, or None where there are none."""
    moments = list(found)
    return chance.choice(moments) if moments else None


def is_class(field: Field) -> bool:
    return field.score.meta.kind == "class"


def reached(field: Field) -> list[tuple[Moment, Moment]]:
    """Every movement that was written as a step of its own, with the moment before it."""
    moments = field.score.moments
    return [
        (before, moment)
        for before, moment in pairwise(moments)
        if moment.arriving
        and not moment.hold
        and moment.breath is not Breath.FREE
        and before.origin != moment.origin
        and field.lines[moment.origin.line - 1].lstrip().startswith("- ")
    ]


def with_words(field: Field, line: int, words: str) -> str:
    """The text with other words for the step on a line."""
    step = field.step(line)
    pad = " " * (field.depth(line) + 2)
    kept, dropping = [step[0]], False
    for row in step[1:]:
        own = row.startswith(pad) and not row.startswith(f"{pad} ")
        if own:
            dropping = row.strip().split(":")[0] in {"say", "short", "say again", "speak"}
        if not dropping:
            kept.append(row)
    return field.changed(line, [*kept, f"{pad}say: {words}"], field.end(line))


def said(field: Field, moment: Moment, words: str) -> Planted:
    """Give the step of a moment these words; the line of the step is where it is found."""
    line = moment.origin.line
    text = with_words(field, line, words)
    last = line + len(text.splitlines()) - len(field.lines) + field.end(line) - line
    return Planted(text, frozenset(range(line, last + 1)))


# -- sides ----------------------------------------------------------------------------------------

ONE_SIDED = {
    "mountain": (("tree", "in"), ("eagle", "out"), ("standing side bend", "out")),
    "downward-dog": (("three-legged dog", "in"), ("low lunge", "in"), ("warrior one", "in")),
    "all-fours": (("bird dog", "in"),),
    "constructive-rest": (("reclined twist", "out"), ("figure four", "out")),
}


@planter("sides", "a shape led on one side only")
def one_side_only(field: Field, chance: Random) -> Planted | None:
    slots = field.at(*ONE_SIDED)
    if not slots:
        return None
    slot = chance.choice(slots)
    name, breath = chance.choice(ONE_SIDED[slot.moment.shape])
    if name.replace(" ", "-").replace("figure-four", "reclined-pigeon") in field.shapes:
        return None
    side = chance.choice(["right", "left"])
    home = field.score.shapes[slot.moment.shape].name
    into = f"- {breath}: {name}\n  side: {side}\n- stay: 4 breaths\n"
    into = into if breath == "in" else f"- in: same\n{into}"
    out = f"- out: {home}" if breath == "in" else f"- in: {home}\n- out: same"
    return steps(field, [slot], chance, into + out)


@planter("sides", "a passage led on one side only")
def passage_once(field: Field, chance: Random) -> Planted | None:
    found = [
        number
        for number, line in enumerate(field.lines, 1)
        if line.strip() == "- each side: yes"
        and not any("between:" in row for row in field.step(number))
        and "<" not in "".join(field.step(number))
        and field.lines[number].strip() == "steps:"
    ]
    if not found:
        return None
    line = chance.choice(found)
    pad = " " * field.depth(line)
    text = field.changed(line, [f"{pad}- side: {chance.choice(['right', 'left'])}"])
    return Planted(text, frozenset(range(line, field.end(line) + 1)))


@planter("sides", "breaths unequal within a pair")
def uneven_breaths(field: Field, chance: Random) -> Planted | None:
    moment = pick(
        chance,
        (
            one
            for one in field.score.moments
            if one.hold and one.pass_side and one.side and one.of_stay[0] == one.of_stay[1] > 0
            if field.lines[one.origin.line - 1].lstrip().startswith("- stay:")
            if "alternate" not in field.text
        ),
    )
    if moment is None:
        return None
    line, depth = moment.origin.line, field.depth(moment.origin.line)
    pad = " " * depth
    more = [f"{pad}- stay: {chance.randint(2, 4)} breaths", f"{pad}  only: second side"]
    last = field.end(line)
    text = field.changed(last + 1, [*more, *field.lines[last : last + 1]])
    return Planted(text, frozenset({line, last + 1, last + 2}))


STEPPING = {Foot.TOP: "Step your {side} foot forward.", Foot.LIFTED: "Raise your {side} leg."}


@planter("sides", "a cue names the other side than is led")
def wrong_side_said(field: Field, chance: Random) -> Planted | None:
    found = [
        moment
        for before, moment in reached(field)
        if moment.side
        and moment.pass_side in {None, Side.RIGHT}
        and moment.stance.foot(moment.side) in STEPPING
        and before.stance.foot(moment.side) is not moment.stance.foot(moment.side)
        and before.stance.foot(moment.side.other) is moment.stance.foot(moment.side.other)
        and before.stance.heading is moment.stance.heading
    ]
    moment = pick(chance, found)
    if moment is None or moment.side is None:
        return None
    words = STEPPING[moment.stance.foot(moment.side)].format(side=moment.side.other)
    return said(field, moment, words)


@planter("sides", "hand and knee named against the twist")
def wrong_hand(field: Field, chance: Random) -> Planted | None:
    found = [
        moment
        for _, moment in reached(field)
        if moment.side
        and moment.pass_side in {None, Side.RIGHT}
        and field.shapes[moment.shape].hand in {"same", "opposite"}
    ]
    moment = pick(chance, found)
    if moment is None or moment.side is None:
        return _wrong_hand_put(field, chance)
    right = field.shapes[moment.shape].hand == "same"
    hand = moment.side.other if right else moment.side
    return said(field, moment, f"{hand.value.title()} hand to the {moment.side} knee.")


def _wrong_hand_put(field: Field, chance: Random) -> Planted | None:
    text = """- each side: yes
  steps:
    - in: three-legged dog
    - out: low lunge
      say: Step your <side> foot between your palms.
    - in: crescent lunge
    - out: crescent twist
      say: Right elbow outside the right knee.
    - stay: 2 breaths
    - in: crescent lunge
    - out: runner's lunge
    - in: plank
    - out: downward dog
    - stay: 1 breath"""
    return steps(field, field.at("downward-dog"), chance, text, 6, 7)


@planter("sides", "unclear left or right in a mirrored passage", "words")
def unclear_side(field: Field, chance: Random) -> Planted | None:
    moment = pick(chance, (one for _, one in reached(field) if one.pass_side and one.side))
    words = ["Press right, then rise.", "Sink right into the hip.", "Breathe left and long."]
    return said(field, moment, chance.choice(words)) if moment else None


@planter("sides", "the class ends facing the wrong way")
def faces_away(field: Field, chance: Random) -> Planted | None:
    if not is_class(field) or any("turn: other end" in line for line in field.lines):
        return None
    text = "- in: arms overhead\n  turn: other end\n- out: mountain"
    return steps(field, field.at("mountain"), chance, text)


@planter("sides", "a cue says front while the class faces the back")
def wrong_end_said(field: Field, chance: Random) -> Planted | None:
    words = chance.choice(
        [
            "Face the front of the mat, arms up.",
            "Look to the front of the room.",
            "Turn to the front of the mat.",
        ]
    )
    text = (
        "- in: arms overhead\n  turn: other end\n- out: mountain\n- in: arms overhead\n"
        f"  say: {words}\n- out: mountain\n- in: arms overhead\n  turn: other end\n- out: mountain"
    )
    return steps(field, field.at("mountain"), chance, text, 3, 4)


@planter("sides", "the side word is missing where the side changed")
def side_unsaid(field: Field, chance: Random) -> Planted | None:
    moments = field.score.moments
    led: Side | None = None
    found = []
    for before, moment in pairwise(moments):
        changed = moment.side is not None and led is not moment.side
        led = moment.side or led
        if changed and (before, moment) in reached(field) and "say again" not in field.text:
            found.append(moment)
    chosen = pick(
        chance, (one for one in found if field.shapes[one.shape].side_part in {"foot", "leg"})
    )
    return said(field, chosen, "And move, long and light.") if chosen else None


# -- ways -----------------------------------------------------------------------------------------


@planter("ways", "the foot that should move carries the weight")
def foot_not_free(field: Field, chance: Random) -> Planted | None:
    text = (
        "- each side: yes\n  steps:\n    - in: three-legged dog\n    - out: low lunge\n"
        "      side: other\n    - in: plank\n    - out: downward dog\n    - stay: 1 breath"
    )
    return steps(field, field.at("downward-dog"), chance, text, 3, 4)


FAR = {
    "mountain": ("wheel", "final rest", "headstand", "plow"),
    "downward-dog": ("easy seat", "final rest", "bridge"),
    "constructive-rest": ("mountain", "downward dog", "camel"),
    "staff": ("chair", "headstand", "locust"),
}


@planter("ways", "a movement that cannot be made from here")
def no_way(field: Field, chance: Random) -> Planted | None:
    slots = field.at(*FAR)
    if not slots:
        return None
    slot = chance.choice(slots)
    home = field.score.shapes[slot.moment.shape].name
    text = (
        f"- in: same\n- out: {chance.choice(FAR[slot.moment.shape])}\n"
        f"- free: 30 s\n  to: {home}\n  say: Take your time to come back.\n- in: same\n- out: same"
    )
    return steps(field, [slot], chance, text, 1)


@planter("ways", "two actions on one half breath without `through`")
def too_much(field: Field, chance: Random) -> Planted | None:
    to = chance.choice(["downward dog", "plank", "low plank"])
    back = "" if to == "downward dog" else "- in: plank\n- out: downward dog\n"
    text = f"- in: arms overhead\n- out: {to}\n{back}"
    text += (
        "- in: half lift\n  say: Step to the top of the mat, half lift.\n- out: standing fold\n"
        "- in: arms overhead\n- out: mountain"
    )
    return steps(field, field.at("mountain"), chance, text, 1)


@planter("ways", "down to the floor with no way said")
def down_unsaid(field: Field, chance: Random) -> Planted | None:
    to = chance.choice(["easy seat", "staff", "final rest", "constructive rest"])
    text = (
        f"- free: 20 s\n  to: {to}\n- stay: 1 breath\n"
        "- free: 20 s\n  to: mountain\n  say: Come up to stand, as you like.\n"
        "- in: same\n- out: same"
    )
    return steps(field, field.at("mountain"), chance, text, 0, 1)


@planter("ways", "up from the floor with no way said")
def up_unsaid(field: Field, chance: Random) -> Planted | None:
    text = (
        "- free: 20 s\n  to: easy seat\n  say: Come down to sit.\n- stay: 1 breath\n"
        "- free: 20 s\n  to: mountain\n- in: same\n- out: same"
    )
    return steps(field, field.at("mountain"), chance, text, 4, 5)


@planter("ways", "too many trips between floor and standing")
def trips(field: Field, chance: Random) -> Planted | None:
    text = (
        "- rounds: 9\n  steps:\n    - free: 15 s\n      to: easy seat\n      say: Come down.\n"
        "    - stay: 1 breath\n    - free: 15 s\n      to: mountain\n      say: And up again.\n"
        "    - in: same\n    - out: same"
    )
    return steps(field, field.at("mountain"), chance, text) if is_class(field) else None


@planter("ways", "a prop with no time to fetch it")
def no_time_for_prop(field: Field, chance: Random) -> Planted | None:
    prop = chance.choice(["block", "strap", "bolster"])
    if prop in field.text:
        return None
    text = (
        f"- in: arms overhead\n- out: standing fold\n  with: {prop}\n- in: half lift\n"
        "- out: standing fold\n- in: arms overhead\n- out: mountain"
    )
    return steps(field, field.at("mountain"), chance, text, 1, 2)


# -- breath ---------------------------------------------------------------------------------------


@planter("breath", "two exhales in a row")
def two_exhales(field: Field, chance: Random) -> Planted | None:
    if not field.slots:
        return None
    slot = chance.choice(field.slots)
    text, line = field.put(slot, "- out: same")
    return Planted(text, frozenset({slot.moment.origin.line, line, line + 1}))


@planter("breath", "two inhales in a row")
def two_inhales(field: Field, chance: Random) -> Planted | None:
    moment = pick(
        chance,
        (
            moment
            for before, moment in reached(field)
            if moment.breath is Breath.IN
            and before.breath is Breath.OUT
            and not (moment.side and moment.pass_side is None)
        ),
    )
    if moment is None:
        return None
    line = moment.origin.line
    last, pad = field.end(line), " " * field.depth(line)
    text = field.changed(last + 1, [f"{pad}- in: same", *field.lines[last : last + 1]])
    return Planted(text, frozenset({line, last + 1}))


AGAINST = {
    "mountain": "- in: same\n- out: same\n- in: standing fold\n- out: same\n- in: arms overhead\n"
    "- out: mountain",
    "all-fours": "- in: cat\n- out: all fours",
    "downward-dog": "- in: all fours\n- out: same\n- in: cat\n- out: all fours\n- in: same\n"
    "- out: downward dog",
    "staff": "- in: seated fold\n- out: same\n- in: staff\n- out: same",
}


@planter("breath", "folding on an inhale")
def fold_on_inhale(field: Field, chance: Random) -> Planted | None:
    slots = field.at(*AGAINST)
    if not slots:
        return None
    slot = chance.choice(slots)
    text = AGAINST[slot.moment.shape]
    rows = text.splitlines()
    fault = next(at for at, row in enumerate(rows) if "in: " in row and row.split(": ")[1] in FOLDS)
    return steps(field, [slot], chance, text, fault)


FOLDS = ("standing fold", "cat", "seated fold")


@planter("breath", "bending back on an exhale")
def arch_on_exhale(field: Field, chance: Random) -> Planted | None:
    text = "- in: all fours\n- out: cow\n- in: all fours\n- out: downward dog"
    return steps(field, field.at("downward-dog"), chance, text, 1)


@planter("breath", "twisting on an inhale")
def twist_on_inhale(field: Field, chance: Random) -> Planted | None:
    text = (
        "- each side: yes\n  steps:\n    - in: three-legged dog\n    - out: low lunge\n"
        "      say: Step your <side> foot between your palms.\n    - in: crescent lunge\n"
        "    - out: same\n    - in: crescent twist\n    - out: same\n    - in: crescent lunge\n"
        "    - out: runner's lunge\n    - in: plank\n    - out: downward dog\n    - stay: 1 breath"
    )
    return steps(field, field.at("downward-dog"), chance, text, 7)


@planter("breath", "lowering on an inhale")
def lower_on_inhale(field: Field, chance: Random) -> Planted | None:
    text = (
        "- in: plank\n- out: same\n- in: low plank\n- out: same\n- in: upward dog\n"
        "- out: downward dog"
    )
    return steps(field, field.at("downward-dog"), chance, text, 2)


@planter("breath", "half breaths shorter than 2 s or longer than 8 s")
def odd_half_breath(field: Field, chance: Random) -> Planted | None:
    pace = chance.choice(["1.5 s in, 1.5 s out", "1 s in, 1.8 s out", "9 s in, 9 s out"])
    text = f"- breath: {pace}\n  steps:\n    - in: arms overhead\n    - out: mountain"
    return steps(field, field.at("mountain"), chance, text)


@planter("breath", "an extreme ratio of inhale and exhale")
def odd_ratio(field: Field, chance: Random) -> Planted | None:
    pace = chance.choice(["2 s in, 7 s out", "7 s in, 2 s out", "2.5 s in, 8 s out"])
    text = f"- breath: {pace}\n  steps:\n    - in: arms overhead\n    - out: mountain"
    return steps(field, field.at("mountain"), chance, text)


@planter("breath", "many movements without a settled breath")
def unsettled(field: Field, chance: Random) -> Planted | None:
    text = f"- rounds: {chance.randint(25, 40)}\n  steps:\n    - in: arms overhead\n"
    text += "    - out: mountain"
    slots = field.at("mountain")
    if not slots:
        return None
    slot = chance.choice(slots)
    found = steps(field, [slot], chance, text)
    if found is None:
        return None
    near = range(slot.after - 40, slot.after + 1)  # the row may have begun before
    return Planted(found.text, found.lines | frozenset(near))


FLOW = """flows:
  squall:
    - in: five-pointed star
    - out: goddess
    - in: five-pointed star
    - out: wide-legged fold
    - in: wide-legged half lift
    - out: wide-legged fold
    - in: five-pointed star
    - out: mountain
"""


@planter("breath", "a flow led fast the first time without having been taught")
def untaught(field: Field, chance: Random) -> Planted | None:
    if "wide-legged-fold" in field.shapes or "goddess" in field.shapes or "flows:" in field.text:
        return None
    slots = field.at("mountain")
    form = chance.choice(["breath", "nothing"])
    found = steps(field, slots, chance, f"- flow: squall\n  speak: {form}\n- stay: 1 breath", 0, 1)
    if found is None:
        return None
    head, tail = found.text.split("parts:\n")
    shift = FLOW.count("\n")
    begin = head.count("\n") + 1
    lines = {line + shift for line in found.lines} | set(range(begin, begin + shift))
    return Planted(f"{head}{FLOW}parts:\n{tail}", frozenset(lines))


# -- words ----------------------------------------------------------------------------------------

LONG = (
    "Press down through all four corners of both feet, lengthen the whole of the spine, "
    "and let the shoulders melt far away from the ears as you arrive here."
)


@planter("words", "a cue overlaps the next one")
def too_long(field: Field, chance: Random) -> Planted | None:
    moments = field.score.moments
    found = [
        moment
        for (_, moment), after in zip(reached(field), moments, strict=False)
        if moment.words.form == "full" and not moment.variants and not moment.early
    ]
    found = [
        moment
        for moment in found
        if (at := moments.index(moment)) + 1 < len(moments)
        and moments[at + 1].arriving
        and not moments[at + 1].hold
        and moments[at + 1].words.form != "nothing"
    ]
    moment = pick(chance, found)
    return said(field, moment, LONG) if moment else None


@planter("words", "the breath word comes too late to follow")
def late_breath_word(field: Field, chance: Random) -> Planted | None:
    text = (
        "- in: arms overhead\n  say: Reach long and tall with both your arms as you inhale.\n"
        "  speak: full\n- out: same\n- in: same\n- out: mountain"
    )
    slots = [slot for slot in field.at("mountain") if slot.moment.length <= 5000]
    return steps(field, slots, chance, text, 0, 1)


@planter("words", "the side word comes too late to follow")
def late_side_word(field: Field, chance: Random) -> Planted | None:
    text = (
        "- each side: yes\n  steps:\n    - in: three-legged dog\n    - out: low lunge\n"
        "      say: Now step all the way through with your foot, the right one.\n"
        "      speak: full\n    - in: same\n    - out: same\n    - in: plank\n"
        "    - out: downward dog\n    - stay: 1 breath"
    )
    slots = [slot for slot in field.at("downward-dog") if slot.moment.length <= 5000]
    return steps(field, slots, chance, text, 3, 4)


@planter("words", "too many words in a minute")
def crowded(field: Field, chance: Random) -> Planted | None:
    line = (
        "One and two and three and four and then a breath, and one and two and three and four, "
        "and on we go from here to there and back once more, and now and then a sigh."
    )
    if field.score.length < 360_000:
        return None  # minutes of a few minutes' piece are not compared
    slots = field.at("mountain", "downward-dog")
    if not slots:
        return None
    row = f"- stay: 12 s\n  say: {line}\n  speak: full"
    text, first = field.put(chance.choice(slots), "\n".join([row] * 7))
    return Planted(text, frozenset(range(first - 12, first + 21)))  # the minute may begin before


@planter("words", "no silence in the rest")
def talk_in_rest(field: Field, chance: Random) -> Planted | None:
    found = [number for number, line in enumerate(field.lines, 1) if "speak: nothing" in line]
    stays = [
        start
        for number in found
        for start in range(number, 0, -1)
        if field.lines[start - 1].lstrip().startswith("- stay:")
    ][:1]
    if not stays or not is_class(field):
        return None
    line = stays[0]
    pad = " " * field.depth(line)
    parts = ["feet", "legs", "hips", "belly", "chest", "hands", "arms", "jaw", "eyes", "brow"]
    new = [
        row
        for part in parts * 2
        for row in (f"{pad}- stay: 16 s", f"{pad}  say: Let go of the {part}, all of it.")
    ]
    text = field.changed(line, new, field.end(line))
    return Planted(text, frozenset(range(line - 4, line + len(new))))


@planter("words", "an abrupt end of the rest")
def abrupt_end(field: Field, chance: Random) -> Planted | None:
    lines = field.lines
    last = max((at for at, line in enumerate(lines, 1) if "speak: nothing" in line), default=0)
    if not last or not is_class(field):
        return None
    text = "\n".join(lines[:last]) + "\n"  # the class is over as soon as the rest is
    start = next(at for at in range(last, 0, -1) if lines[at - 1].lstrip().startswith("- stay:"))
    return Planted(text, frozenset(range(start, last + 1)))


@planter("words", "the same written cue again and again")
def worn(field: Field, chance: Random) -> Planted | None:
    words = chance.choice(["Strong arms, soft face.", "Light as foam."])
    text = (
        "- rounds: 14\n  steps:\n    - in: arms overhead\n      speak: full\n"
        f"      say: {words}\n    - out: mountain\n    - stay: 1 breath"
    )
    return steps(field, field.at("mountain"), chance, text)


# -- time -----------------------------------------------------------------------------------------


def with_length(field: Field, length: str) -> tuple[str, int]:
    """The text with a length, and the line of it."""
    at = next(number for number, line in enumerate(field.lines, 1) if line.startswith("kind:"))
    return field.changed(at, [field.lines[at - 1], f"length: {length}"]), at + 1


@planter("time", "the class does not meet its length")
def length_missed(field: Field, chance: Random) -> Planted | None:
    minutes = field.score.length / 60_000
    if not any(hold.stretchable for hold in field.score.holds.values()):
        return None  # then that nothing may stretch is said as well, and rightly
    wanted = chance.choice([min(minutes * 3 + 20, 175), minutes * 0.2 + 0.1])
    text, line = with_length(field, f"{wanted:.1f} min")
    return Planted(text, frozenset({line}))


@planter("time", "nothing may stretch")
def nothing_stretches(field: Field, chance: Random) -> Planted | None:
    if not is_class(field):
        return None
    bare = Field("\n".join(line for line in field.lines if "may stretch" not in line) + "\n")
    minutes = bare.score.length / 60_000 + chance.choice([3, 8, -2])
    text, line = with_length(bare, f"{minutes:.1f} min")
    stays = {at for at, row in enumerate(text.splitlines(), 1) if row.strip().startswith("- ")}
    return Planted(text, frozenset({line, *stays}))


@planter("time", "a part out of proportion")
def out_of_proportion(field: Field, chance: Random) -> Planted | None:
    if not is_class(field) or len(field.score.parts) < 3 or field.score.length > 2_400_000:
        return None  # four times as much is more than a plan may have
    minutes = round(field.score.length / 60_000 * 4)
    slots = [
        slot
        for slot in field.at("mountain", "downward-dog", "staff")
        if 0 < slot.moment.part < len(field.score.parts) - 1
    ]
    if not slots:
        return None
    slot = chance.choice(slots)
    found = steps(field, [slot], chance, f"- stay: {minutes} min\n  say: Move as you like.")
    heads = [at for at, line in enumerate(field.lines, 1) if line.startswith("  - part:")]
    begins = {line for head in heads for line in range(head, head + 5)}
    return found and Planted(found.text, found.lines | frozenset(begins))


# -- load and care, where the fault is plain ------------------------------------------------------


@planter("load", "no rest at the end")
def no_rest(field: Field, chance: Random) -> Planted | None:
    lines = field.lines
    starts = [at for at, line in enumerate(lines, 1) if line.strip().lower() == "- part: rest"]
    if not starts or not is_class(field):
        return None
    return Planted("\n".join(lines[: starts[0] - 1]) + "\n", frozenset(range(1, starts[0])))


@planter("load", "too long on one leg")
def one_leg(field: Field, chance: Random) -> Planted | None:
    text = "- each side: yes\n  steps:\n    - in: tree\n    - stay: 150 s\n    - out: mountain"
    return steps(field, field.at("mountain"), chance, text)


@planter("load", "long on the wrists")
def wrists(field: Field, chance: Random) -> Planted | None:
    text = "- in: plank\n- stay: 170 s\n- out: downward dog"
    return steps(field, field.at("downward-dog"), chance, text)


@planter("load", "a deep fold at once after a deep backbend")
def fold_after_backbend(field: Field, chance: Random) -> Planted | None:
    text = (
        "- in: same\n- out: constructive rest\n  say: Roll down to your back.\n- in: wheel\n"
        "- stay: 4 breaths\n- out: constructive rest\n- free: 4 s\n  to: seated fold\n"
        "  say: Sit up and fold.\n- in: staff\n- out: same"
    )
    return steps(field, field.at("staff"), chance, text)


@planter("care", "a prop used but not listed")
def unlisted_prop(field: Field, chance: Random) -> Planted | None:
    if "strap" in field.text:
        return None
    text = (
        "- free: 20 s\n  say: Fetch a strap, and stand.\n- in: arms overhead\n  with: strap\n"
        "- out: mountain"
    )
    return steps(field, field.at("mountain"), chance, text)
