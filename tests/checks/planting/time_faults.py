"""Faults of time."""

from random import Random

from tests.checks.planting.sound import Field
from tests.checks.planting.sowing import (
    Planted,
    a_table,
    is_class,
    steps,
)

PLANTERS, planter = a_table()


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
