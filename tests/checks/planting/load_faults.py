"""Faults of load and care, where they are plain."""

from random import Random

from tests.checks.planting.sound import Field
from tests.checks.planting.sowing import (
    Planted,
    a_table,
    is_class,
    steps,
)

PLANTERS, planter = a_table()


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
