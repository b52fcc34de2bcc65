"""Word: what is said for each movement, from what the body does, where the plan says nothing."""

import re

from conductor.body.moves import Action, Do, Way
from conductor.compiler.model import Bit
from conductor.compiler.phrases import BOTH, SAME_AGAIN, brief, filled, whole
from conductor.copies import changed
from conductor.score.model import Words
from conductor.shapes.model import Shape
from conductor.sides import Breath, End, Side
from conductor.stance import Base, Foot, Hands, Trunk

LONGEST = 7
"""Words in a whole phrase: with the breath word it is about as long as half a breath of 4 s."""

_BREATH_WORD = {Breath.IN: "Inhale", Breath.OUT: "Exhale"}
_SMALL = frozenset({"the", "a", "and", "to", "on", "of", "in", "up", "pose", "with"})
_ROUND = frozenset({Do.TURN_ROUND, Do.TURN_LONG, Do.TURN_END})
_STEPS = (Do.STEP_FORWARD, Do.STEP_BACK, Do.KNEE_FORWARD, Do.LIFT_LEG, Do.LOWER_LEG, Do.LOWER_FOOT)
_LEGS = (*_STEPS, Do.KNEE_BACK, Do.BEND_KNEE, Do.STRETCH_LEG, Do.OPEN_LEG)
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
_TELLS = ("lie ", "rise ", "roll ", "come ", "rest ", "walk ")
_KNEES = (Do.KNEE_DOWN, Do.KNEE_UP)


def word(bits: tuple[Bit, ...]) -> tuple[Bit, ...]:
    """Give every movement its generated words, and ask for an early cue where it needs one."""
    worded = []
    known: _Known = {}
    before: Shape | None = None
    side: Side | None = None
    for bit in bits:
        shape = bit.shape or (bit.cycle[-1] if bit.cycle else None)
        turned = before if bit.turn and not shape else None
        worded.append(_worded(bit, shape or turned, before, side, known))
        before = shape or before
        side = bit.side or side
    return tuple(worded)


def _worded(
    bit: Bit, shape: Shape | None, before: Shape | None, side: Side | None, known: _Known
) -> Bit:
    if bit.verb == "stay":
        return bit
    breath = bit.breath if bit.verb in {"in", "out"} else Breath.FREE
    if bit.cycle:
        return changed(bit, words=_cycle(bit.cycle, bit.shape))
    if shape is None:
        return changed(bit, words=_same(before, breath, bit.with_))
    heading = bit.stance.heading if bit.stance else bit.heading_in
    found = _once(known, bit, shape, before, breath, heading)
    swaps = side not in {None, bit.side} and bit.side is not None and bit.decided != "stance"
    turns = bool(bit.turn) or _turns(bit.way or Way())
    balances = shape.balance and shape is not before
    return changed(bit, words=found, early=swaps or turns or balances)


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
    moves = _action(way, _LEGS) or way.did(Do.HANDS_DOWN)
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
    lead = _lead(shape, side, way, before, heading)
    name = "" if shape is before else shape.name
    full = _through(lead, shape, way, through) if through else _joined(lead, name, with_)
    short = _short(shape, side, way, heading)
    if shape is before and way.did(Do.TURN_LONG):
        short = "face the long side"
    return Words(_lower(full or shape.name), _lower(short), breath_word)


def _count(text: str) -> int:
    return len(text.split())


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:] if text[1:2].islower() else text


def _stems(text: str) -> set[str]:
    plain = {re.sub(r"[^a-z'-]", "", part) for part in text.lower().split()}
    return {part.rstrip("s") for part in plain} - _SMALL - {""}


def _says(lead: str, name: str) -> bool:
    """Whether the phrase says the shape's name already, in part."""
    if "hands and knees" in lead and name == "all fours":
        return True
    return bool(_stems(lead) & _stems(name))


def _joined(lead: str, name: str, with_: str) -> str:
    """Put phrase, shape and arms together without saying a thing twice or too much at once."""
    if not lead or not name:
        parts = [lead or name]
    elif _says(lead, name):
        parts = [lead]
    else:
        parts = [lead, name]
    if len(parts) == 2 and sum(map(_count, parts)) > LONGEST:
        first = lead.split(",", maxsplit=1)[0]
        parts = [first, name] if _count(first) + _count(name) <= LONGEST else [lead]
    if with_:
        parts = [*parts, with_]
    return ", ".join(parts)


def _action(way: Way, kinds: tuple[Do, ...]) -> Action | None:
    """Find the first of these kinds of action in the order given."""
    for kind in kinds:
        for action in way.actions:
            if action.kind is kind:
                return action
    return None


def _lead(shape: Shape, side: Side | None, way: Way, before: Shape | None, heading: End) -> str:
    """Find the phrase that leads: a turn, a leg that moves, the weight, or the shape's own."""
    legs = _action(way, _LEGS)
    turn = _turn(shape, way, heading, before, stepping=legs is not None)
    if turn:
        return turn
    entry = _entry(shape, side, before)
    if "<" in shape.enter or (before is None and not way.actions):
        return entry or _first(shape, side)
    carried = _carried(shape, way, entry)
    if carried:
        return carried
    if legs and (legs.side or not entry or legs.kind in {Do.STEP_BACK, Do.STEP_FORWARD}):
        return _stepped(legs, way)
    hand = _hand(shape, side, way)
    if hand or entry:
        return hand or entry
    return _plain(way)


def _turn(shape: Shape, way: Way, heading: End, before: Shape | None, *, stepping: bool) -> str:
    if way.did(Do.TURN_ROUND):
        return f"turn to face the {heading}" + (" of the mat" if shape is before else "")
    if stepping:
        return ""
    if way.did(Do.TURN_LONG):
        open_ = Foot.BACK in {shape.place.own, shape.place.other} or _balancing(shape)
        return ("open" if open_ else "turn") + " to the long side"
    square = way.did(Do.TURN_END) and not way.did(Do.HANDS_DOWN) and not _balancing(shape)
    return f"turn to face the {heading}" if square else ""


def _balancing(shape: Shape) -> bool:
    return shape.place.base in {Base.FOOT, Base.FOOT_HAND}


def _entry(shape: Shape, side: Side | None, before: Shape | None) -> str:
    """The catalogue's phrase, with the side named where nothing told yet which leg is in front."""
    phrase = filled(shape.enter, side)
    if side and before is not None and not before.sided:
        phrase = re.sub(r"\bfront (?=knee|leg|foot)", f"{side} ", phrase)
    if shape.enter.endswith("turn") and side and shape.side_part in {"foot", "leg"}:
        return f"turn toward the {side} leg"
    return phrase


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
    action = _action(way, _CARRIED)
    if action is None:
        return ""
    by_itself = entry.startswith(_TELLS) or " down" in entry
    chest = action.kind is Do.LIE_ON_BELLY and shape.place.hands is Hands.FLOOR
    return "" if entry and (by_itself or chest) else BOTH[action.kind]


def _stepped(action: Action, way: Way) -> str:
    if action.kind is Do.STEP_BACK and way.did(Do.HANDS_DOWN):
        return f"hands down, {brief(action)}"
    return whole(action)


def _hand(shape: Shape, side: Side | None, way: Way) -> str:
    """Name the hand that carries, where it is the only one."""
    shifts = way.did(Do.HAND_UP) or way.did(Do.SWITCH_HANDS)
    if side and shifts and shape.place.base is Base.HAND_FEET:
        return f"press into the {side} hand"
    return ""


def _plain(way: Way) -> str:
    """Word what is left: a knee, the hands, the trunk."""
    action = _action(way, (*_KNEES, Do.FOLD, Do.RISE, Do.HANDS_DOWN)) or next(
        (action for action in reversed(way.actions) if whole(action)), None
    )
    return whole(action) if action else ""


def _through(lead: str, shape: Shape, way: Way, through: tuple[Shape, ...]) -> str:
    """Word a movement that passes other shapes on its way."""
    passed = " and ".join(each.name for each in through)
    legs = _action(way, _LEGS)
    if legs is None:
        return f"through {passed}, {shape.name}"
    whole_way = f"{lead} through {passed}, {shape.name}"
    return whole_way if _count(whole_way) <= LONGEST else f"through {passed}, {brief(legs)}"


def _short(shape: Shape, side: Side | None, way: Way, heading: End) -> str:
    """Word it in two to four words."""
    if way.did(Do.TURN_ROUND):
        return f"turn to the {heading}"
    legs = _action(way, _STEPS)
    if "<" in shape.enter and side and (legs or not _turns(way)):
        return _short_sided(shape, side)
    if legs and legs.side:
        return _short_step(shape, side, legs)
    if legs and legs.kind in {Do.STEP_BACK, Do.STEP_FORWARD}:
        return _if_fits(f"{brief(legs)}, {shape.name}", brief(legs))
    if side and _hand(shape, side, way):
        return _if_fits(f"{side} hand, {shape.name}", shape.name)
    knee = _action(way, _KNEES) if not shape.enter else None
    if knee:
        return _if_fits(f"{brief(knee)}, {shape.name}", shape.name)
    return _if_fits(shape.name, shape.enter.split(",", maxsplit=1)[0] or shape.name)


def _if_fits(text: str, otherwise: str) -> str:
    return text if _count(text) <= 4 else otherwise


def _short_sided(shape: Shape, side: Side) -> str:
    clauses = [clause.strip() for clause in shape.enter.split(",")]
    written = next(part for part in clauses if "<" in part)
    clause = filled(written, side)
    if _count(clause) <= 4:
        return _if_fits(f"{clause}, {shape.name}", clause)
    part = f"{side} {shape.side_part}, {shape.name}"
    named = shape.side_part and "<side>" in written
    return _if_fits(part, shape.name) if named else shape.name


def _short_step(shape: Shape, side: Side | None, legs: Action) -> str:
    ends = {shape.place.own, shape.place.other}
    if len(ends) == 1 and legs.kind in {Do.STEP_BACK, Do.STEP_FORWARD}:
        return _if_fits(f"{BOTH[legs.kind]}, {shape.name}", BOTH[legs.kind])
    fits = _if_fits(f"{brief(legs)}, {shape.name}", "")
    if not fits and legs.side is side and shape.side_part in {"foot", "leg"}:
        fits = _if_fits(f"{side} {shape.side_part}, {shape.name}", "")
    return fits or brief(legs)


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
