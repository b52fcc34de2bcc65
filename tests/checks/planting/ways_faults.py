"""Faults of the ways between shapes."""

from random import Random

from tests.checks.planting.sound import Field
from tests.checks.planting.sowing import (
    Planted,
    a_table,
    is_class,
    steps,
)

PLANTERS, planter = a_table()


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
