"""Faults of what is said."""

from random import Random

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
