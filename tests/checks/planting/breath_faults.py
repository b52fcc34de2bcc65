"""Faults of the breath."""

from random import Random

from conductor.sides import Breath
from tests.checks.planting.sound import Field
from tests.checks.planting.sowing import (
    Planted,
    a_table,
    pick,
    reached,
    steps,
)

PLANTERS, planter = a_table()


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
