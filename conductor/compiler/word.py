"""Word: what is said for each movement, from what the body does, where the plan says nothing."""

import re
from collections.abc import Iterator
from functools import lru_cache

from conductor.body.moves import Action, Do, Way
from conductor.compiler.model import Bit
from conductor.compiler.phrases import (
    BOTH,
    FULL_MS,
    SAME_AGAIN,
    action_of,
    brief,
    clause,
    filled,
    fitting,
    whole,
)
from conductor.compiler.shorts import STEPS, shifts, short
from conductor.score.model import Words
from conductor.shapes.model import Shape
from conductor.sides import Breath, End, Side
from conductor.stance import Base, Foot, Hands, Trunk
from conductor.values import replace

_BREATH_WORD = {Breath.IN: "Inhale", Breath.OUT: "Exhale"}
_SMALL = frozenset({"the", "a", "and", "to", "on", "of", "in", "up", "pose", "with", "foot"})
_ROUND = frozenset({Do.TURN_ROUND, Do.TURN_LONG, Do.TURN_END})
_LEGS = (*STEPS, Do.KNEE_BACK, Do.BEND_KNEE, Do.STRETCH_LEG, Do.OPEN_LEG)
_CARRIED = (
    Do.STAND_UP,
    Do.SIT_DOWN,
    Do.SIT_UP,
    Do.LIE_BACK,
    Do.LOWER_BACK,
    Do.ROLL_TO_BACK,
    Do.ROLL_TO_BELLY,
    Do.KNEEL_UP,
    Do.HANDS_KNEES,
    Do.LIE_ON_BELLY,
)
_Known = dict[tuple[object, ...], Words]
_KINDS = frozenset({"fold", "lunge", "split", "twist"})
_LOW = frozenset({Trunk.FOLDED, Trunk.LATERAL, Trunk.RESTING})
_TELLS = ("lie ", "rise ", "roll ", "come ", "rest ", "walk ")
_KNEES = (Do.KNEE_DOWN, Do.KNEE_UP)


def word(bits: tuple[Bit, ...]) -> tuple[Bit, ...]:
    """Give every movement its generated words, and ask for an early cue where it needs one."""
    worded = []
    known: _Known = {}
    before: Shape | None = None
    side: Side | None = None
    worn = ""
    for bit in bits:
        shape = bit.shape or (bit.cycle[-1] if bit.cycle else None)
        turned = before if bit.turn and not shape else None
        if bit.shape is before and bit.side == side and bit.with_ == worn and _still(bit):
            worded.append(_in_place(bit, before))
        else:
            worded.append(_worded(bit, shape or turned, before, side, known))
        worn = bit.with_ if shape else bit.with_ or worn
        before = shape or before
        side = bit.side or side
    return tuple(worded)


def _still(bit: Bit) -> bool:
    """Whether a step leaves the body as it is."""
    return not (bit.turn or bit.through or bit.cycle or (bit.way and bit.way.actions))


def _breath(bit: Bit) -> Breath:
    return bit.breath if bit.verb in {"in", "out"} else Breath.FREE


def _in_place(bit: Bit, before: Shape | None) -> Bit:
    """Word a shape that is led again: there is nothing to do but breathe."""
    return bit if bit.verb == "stay" else replace(bit, words=_same(before, _breath(bit), ""))


def _worded(
    bit: Bit, shape: Shape | None, before: Shape | None, side: Side | None, known: _Known
) -> Bit:
    if bit.verb == "stay":
        return bit
    breath = _breath(bit)
    if bit.cycle:
        return replace(bit, words=_cycle(bit.cycle, bit.shape))
    if shape is None:
        return replace(bit, words=_same(before, breath, bit.with_))
    heading = bit.stance.heading if bit.stance else bit.heading_in
    found = _once(known, bit, shape, before, breath, heading)
    swaps = side not in {None, bit.side} and bit.side is not None and bit.decided != "stance"
    if swaps and shape.side_part in {"foot", "leg"}:
        swaps = action_of(bit.way or Way(), _LEGS) is not None
    turns = bool(bit.turn) or _turns(bit.way or Way())
    balances = shape.balance and shape is not before
    return replace(bit, words=found, early=swaps or turns or balances)


def _once(
    known: _Known, bit: Bit, shape: Shape, before: Shape | None, breath: Breath, heading: End
) -> Words:
    """Word a movement once, however often it is led; shapes and ways are the same objects then."""
    through = tuple(map(id, bit.through))
    key = (id(shape), bit.side, id(bit.way), breath, id(before), heading, bit.with_, through)
    found = known.get(key)
    if found is None:
        found = known[key] = words(
            shape, bit.side, bit.way or Way(), breath, before, heading, bit.with_, bit.through
        )
    return found


def _turns(way: Way) -> bool:
    """Whether the body turns with its feet where they are, which nobody expects."""
    if way.did(Do.TURN_ROUND):
        return True
    moves = action_of(way, _LEGS) or way.did(Do.HANDS_DOWN)
    return bool(_ROUND & {action.kind for action in way.actions}) and not moves


def words(
    shape: Shape,
    side: Side | None,
    way: Way,
    breath: Breath,
    before: Shape | None = None,
    heading: End = End.FRONT,
    with_: str = "",
    through: tuple[Shape, ...] = (),
) -> Words:
    """Word one movement: verb, part of the body, direction, shape; whole and in brief."""
    breath_word = _BREATH_WORD.get(breath, "")
    if shape is before and not way.actions and with_:
        return Words(_lower(with_), _lower(with_), breath_word)
    leads = _leads(shape, side, way, before, heading)
    name = "" if shape is before else shape.name
    said = _through(leads, shape, way, through) if through else _joined(leads, name, with_)
    in_brief = short(shape, side, way, before, heading, _turns(way))
    if shape is before and way.did(Do.TURN_LONG):
        in_brief = "face the long side"
    if with_:
        in_brief = fitting((f"{in_brief}, {with_}", f"{shape.name}, {with_}"), FULL_MS)
    return Words(_lower(said or shape.name), _lower(in_brief), breath_word)


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:] if text[1:2].islower() else text


@lru_cache(maxsize=4096)
def _stems(text: str) -> frozenset[str]:
    plain = {re.sub(r"[^a-z'-]", "", part) for part in text.lower().split()}
    return frozenset({part.rstrip("s") for part in plain} - _SMALL - {""})


def _says(lead: str, name: str) -> bool:
    """Whether the phrase says the shape's name already, in part."""
    if "hands and knees" in lead and name == "all fours":
        return True
    return bool(_stems(lead) & _stems(name))


def _joined(leads: tuple[str, ...], name: str, with_: str) -> str:
    """Put phrase, shape and arms together without saying a thing twice or too much at once."""
    end = f", {with_}" if with_ else ""
    return fitting((f"{choice}{end}" for choice in _phrases(leads, name)), FULL_MS)


def _phrases(leads: tuple[str, ...], name: str) -> Iterator[str]:
    """What may be said, from the longest on."""
    if not leads or not name:
        yield leads[0] if leads else name
        return
    yield from (lead if _says(lead, name) else f"{lead}, {name}" for lead in leads)
    kind = name.rsplit(" ", maxsplit=1)[-1]
    if kind in _KINDS:
        yield f"{leads[0]}, {kind}"
    yield from leads


def _leads(
    shape: Shape, side: Side | None, way: Way, before: Shape | None, heading: End
) -> tuple[str, ...]:
    """Find the phrase that leads, and shorter ones: a turn, a leg, the weight, the shape's own."""
    legs = action_of(way, _LEGS)
    turn = _turn(shape, way, heading, before, stepping=legs is not None)
    if turn:
        return turn
    entry = _entry(shape, side, way, before)
    if before is None and not way.actions:
        told = entry and ("<" in shape.enter or not shape.sided)
        return entry if told else (_first(shape, side),)
    if "<" in shape.enter:
        return entry
    carried = _carried(shape, way, entry[0] if entry else "")
    if carried:
        return (carried,)
    if legs and (legs.side or not entry or legs.kind in {Do.STEP_BACK, Do.STEP_FORWARD}):
        return _stepped(legs, way)
    if side and shifts(shape, way):
        return f"press into the {side} hand", f"{side} hand"
    plain = _plain(way)
    return entry or ((plain,) if plain else ())


def _turn(
    shape: Shape, way: Way, heading: End, before: Shape | None, *, stepping: bool
) -> tuple[str, ...]:
    facing = (f"turn to face the {heading}", f"face the {heading}")
    if way.did(Do.TURN_ROUND):
        return (f"{facing[0]} of the mat",) if shape is before else facing
    if stepping:
        return ()
    if way.did(Do.TURN_LONG):
        open_ = Foot.BACK in {shape.place.own, shape.place.other} or _balancing(shape)
        return (("open" if open_ else "turn") + " to the long side",)
    square = way.did(Do.TURN_END) and not way.did(Do.HANDS_DOWN) and not _balancing(shape)
    return facing if square else ()


def _balancing(shape: Shape) -> bool:
    return shape.place.base in {Base.FOOT, Base.FOOT_HAND}


def _entry(shape: Shape, side: Side | None, way: Way, before: Shape | None) -> tuple[str, ...]:
    """The catalogue's phrase as it is said from here, whole and only what tells most."""
    if before is None:
        phrase = shape.enter.replace("come back to", "come to")
    elif "<" in shape.enter:
        phrase = shape.enter
    else:
        phrase = _from(shape, side, way, before) or shape.enter
    if side and before is not None and not before.sided:
        phrase = re.sub(r"\bfront (?=knee|leg|foot)", f"{side} ", phrase)
    parts = (phrase,) if "<side>" in phrase and "<other>" in phrase else (phrase, clause(phrase))
    return tuple(dict.fromkeys(filled(part, side) for part in parts)) if phrase else ()


def _from(shape: Shape, side: Side | None, way: Way, before: Shape) -> str:
    """Word what is done from this shape, where the catalogue's phrase speaks from another."""
    here, there = before.place, shape.place
    if shape.enter.endswith("turn") and side and shape.side_part in {"foot", "leg"}:
        return f"turn to the {side}"
    if there.trunk is Trunk.FLAT and there.base in {Base.HANDS_FEET, Base.FOREARMS_FEET}:
        return _to_plank(way, before, there.base)
    if way.did(Do.RISE):
        return _rising(shape.enter, here.trunk, legs=action_of(way, _LEGS) is not None)
    if there.trunk is Trunk.RESTING and there.base is Base.BACK and "over" not in shape.enter:
        if here.base is Base.SHOULDERS:
            return "roll down"
        if way.did(Do.LOWER_HIPS):
            return BOTH[Do.LOWER_HIPS]
    grounded = there.base in {Base.BACK, Base.SEAT} and there.trunk in {
        Trunk.RESTING,
        Trunk.UPRIGHT,
    }
    return BOTH[Do.LOWER_LEG] if grounded and None in way.did(Do.LOWER_LEG) else ""


def _to_plank(way: Way, before: Shape, base: Base) -> str:
    here = before.place
    if here.base is base and here.trunk is Trunk.INVERTED:
        return "shift forward"
    if here.base is Base.HAND_FEET:
        return "both hands down"
    return BOTH[Do.KNEE_UP] if None in way.did(Do.KNEE_UP) else ""


def _rising(enter: str, trunk: Trunk, *, legs: bool) -> str:
    """Begin with the way up: out of a twist, or out of a fold into a seat."""
    if trunk is Trunk.TURNED:
        return re.sub(r"^(?:rise|sit tall|stand tall)\b", "unwind", enter) or "unwind"
    if trunk not in _LOW or "sit tall" not in enter:
        return ""
    risen = enter.replace("sit tall", "rise tall")
    return risen if legs else next(part for part in risen.split(", ") if "rise" in part)


def _first(shape: Shape, side: Side | None) -> str:
    """Word a shape that is taken with nothing known before it."""
    if side is None or not shape.side_part:
        return f"come to {shape.name}"
    return f"come to {shape.name}, {_own_part(shape, side)}"


def _own_part(shape: Shape, side: Side) -> str:
    """Say which is which by the shape's convention ("right foot in front")."""
    part = f"{side} {shape.side_part}"
    means = shape.side_means.split()[0]
    return {"front": f"{part} in front", "raised": f"{part} raised"}.get(means, part)


def _carried(shape: Shape, way: Way, entry: str) -> str:
    """Word a change of what carries the weight, unless the shape's own phrase tells it."""
    action = action_of(way, _CARRIED)
    if action is None:
        return ""
    back = entry.startswith("come back")
    by_itself = (entry.startswith(_TELLS) and not back) or " down" in entry
    chest = action.kind is Do.LIE_ON_BELLY and shape.place.hands is Hands.FLOOR
    return "" if entry and (by_itself or chest) else BOTH[action.kind]


def _stepped(action: Action, way: Way) -> tuple[str, ...]:
    if action.kind is Do.STEP_BACK and way.did(Do.HANDS_DOWN):
        return f"hands down, {brief(action)}", whole(action), brief(action)
    return whole(action), brief(action)


def _plain(way: Way) -> str:
    """Word what is left: a knee, the hands, the trunk."""
    action = action_of(way, (*_KNEES, Do.FOLD, Do.RISE, Do.HANDS_DOWN)) or next(
        (action for action in reversed(way.actions) if whole(action)), None
    )
    return whole(action) if action else ""


def _through(leads: tuple[str, ...], shape: Shape, way: Way, through: tuple[Shape, ...]) -> str:
    """Word a movement that passes other shapes on its way; where it is going matters most."""
    passed = " and ".join(each.name for each in through)
    legs = action_of(way, _LEGS)
    if legs is None:
        return f"through {passed}, {shape.name}"
    choices = [f"{lead} through {passed}, {shape.name}" for lead in leads]
    return fitting([*choices, f"{brief(legs)}, {shape.name}"], FULL_MS)


def _cycle(cycle: tuple[Shape, ...], last: Shape | None) -> Words:
    """Word free time that goes to and fro between shapes."""
    names = [shape.name for shape in cycle]
    list_ = ", ".join(names[:-1]) + f" and {names[-1]}" if len(names) > 1 else names[0]
    full = f"move between {list_}" if len(names) > 1 else f"stay with {list_}"
    return Words(f"{full}, then {last.name}" if last else full, list_)


def _same(shape: Shape | None, breath: Breath, with_: str) -> Words:
    """Word half a breath in place; nothing is asked of a body at rest."""
    breath_word = _BREATH_WORD.get(breath, "")
    if with_:
        return Words(_lower(with_), _lower(with_), breath_word)
    if shape is None or shape.level == 0 or shape.place.trunk is Trunk.RESTING:
        return Words(breath=breath_word)
    phrase = SAME_AGAIN.get(breath.value, "")
    return Words(phrase, phrase, breath_word)
