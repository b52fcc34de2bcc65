"""Faults of sides and of the end of the mat."""

from itertools import pairwise
from random import Random

from conductor.sides import Side
from conductor.stance import Foot
from tests.checks.planting.sound import Field
from tests.checks.planting.sowing import (
    Planted,
    a_table,
    is_class,
    pick,
    reached,
    said,
    steps,
)

PLANTERS, planter = a_table()

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
