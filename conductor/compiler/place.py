"""Place: the stance followed from step to step, and the side of every shape that has two."""

from collections.abc import Callable

from conductor.body.ways import Way, sides_allowed, turned, way
from conductor.compiler.model import Bit
from conductor.findings import Finding, Weight
from conductor.rules import Rule
from conductor.shapes.model import Shape
from conductor.sides import End, Side
from conductor.stance import Foot, Frame, Stance
from conductor.values import Struct, field, replace

PLACE: tuple[Rule, ...] = (
    Rule(
        "side-against-pass",
        Weight.WARNING,
        "sides",
        "A passage led on one side does not slip to the other because of where the feet are.",
        "One side would be led twice and the other never.",
        bad="- in: downward dog\n- each side: yes\n  steps:\n    - out: low lunge\n"
        "    - in: crescent lunge",
        good="- in: downward dog\n- each side: yes\n  steps:\n    - out: low lunge\n"
        "    - in: plank\n    - out: downward dog",
    ),
    Rule(
        "side-open",
        Weight.REMARK,
        "sides",
        "Where a shape has two sides, something says which: the plan, the stance or the passage.",
        "The right is led when nothing does, and the left is easily forgotten.",
        bad="- in: arms overhead\n- out: tree",
        good="- in: arms overhead\n- out: tree\n  side: right",
    ),
    Rule(
        "turn-already",
        Weight.REMARK,
        "sides",
        "A turn to an end of the mat is written where the class faces the other end.",
        "A turn that turns nobody hides a turn forgotten before it.",
        bad="- come to: mountain\n- in: arms overhead\n  turn: front",
        good="- come to: mountain\n- in: arms overhead",
    ),
)

_WEIGHTS = {rule.name: rule.weight for rule in PLACE}
_NO_WAY = Way()
_UNHURRIED = frozenset({"come to", "free"})


class _State(Struct):
    """What is known on the way through the class."""

    stance: Stance | None = None
    shape: Shape | None = None
    side: Side | None = None
    decided: str = ""
    pass_key: str = ""
    fresh: bool = False  # no side was decided yet in this pass
    strayed: bool = False  # this pass was led to the other side on purpose, by a word or a turn
    long: bool = False  # facing the long side by `turn` in a shape that does not ask for it
    findings: dict[tuple[str, object], Finding] = field(default_factory=dict)

    @property
    def heading(self) -> End:
        return self.stance.heading if self.stance else End.FRONT

    def note(self, rule: str, bit: Bit, words: str, hint: str) -> None:
        """Keep a finding, once for each place."""
        finding = Finding(rule, _WEIGHTS[rule], words, bit.span, hint)
        self.findings.setdefault((rule, bit.span), finding)


def place(
    bits: tuple[Bit, ...], before: Stance | None = None
) -> tuple[tuple[Bit, ...], tuple[Finding, ...]]:
    """Give every step its stance, its side, what decided the side, and the way that leads there."""
    state = _State(stance=before)
    return tuple(_placed(bit, state) for bit in bits), tuple(state.findings.values())


def _placed(bit: Bit, state: _State) -> Bit:
    heading_in = state.heading
    if bit.pass_key != state.pass_key:
        state.pass_key, state.strayed, state.fresh = bit.pass_key, False, True
    shapes = _shapes(bit, state)
    found: Way | None = None
    if shapes:
        turns = _turn_at(bit, state, shapes)
        for index, shape in enumerate(shapes):
            moved = _move(bit, state, shape, bit.turn if index == turns else "")
            found = found.then(moved) if found else moved
    return replace(
        bit,
        side=state.side,
        decided=state.decided,
        stance=state.stance,
        way=found or _NO_WAY,
        heading_in=heading_in,
    )


def _shapes(bit: Bit, state: _State) -> tuple[Shape, ...]:
    """List the shapes taken in this step in order; a turn alone takes the same one again."""
    last = bit.shape or (state.shape if bit.turn else None)
    return (*bit.through, *bit.cycle, *((last,) if last else ()))


def _turn_at(bit: Bit, state: _State, shapes: tuple[Shape, ...]) -> int:
    """Find which of the shapes is reached by the turn: the last, unless nobody can turn there."""
    if not bit.turn or len(shapes) == 1 or state.stance is None:
        return len(shapes) - 1
    trial = _State(stance=state.stance, shape=state.shape, side=state.side, strayed=True)
    ways = [_move(bit, trial, shape, "") for shape in shapes[:-1]]
    ways.append(_move(bit, trial, shapes[-1], bit.turn))
    return len(shapes) - 1 if ways[-1].possible else 0


def _heading(bit: Bit, state: _State, turn: str) -> End:
    if turn == "other end":
        return state.heading.other
    if turn not in {"front", "back"}:
        return state.heading
    wanted = End(turn)
    if state.stance and wanted is state.heading and state.stance.frame is Frame.END:
        words = f"the class faces the {turn} already"
        state.note("turn-already", bit, words, "leave the turn out, or write `turn: other end`")
    return wanted


def _move(bit: Bit, state: _State, shape: Shape, turn: str) -> Way:
    """Take a shape: decide its side, find its stance, and remember both."""
    heading = _heading(bit, state, turn)
    rounds = state.stance is not None and heading is not state.heading
    state.strayed |= rounds
    start = turned(state.stance) if rounds and state.stance else state.stance
    together = Foot.BACK not in {shape.place.own, shape.place.other}
    own_frame = shape.place.frame is Frame.END
    if turn:
        state.long = turn == "long side" and own_frame
    state.long = state.long and (together or turn == "long side")
    frame = Frame.LONG if state.long else None
    default = bit.pass_side or Side.RIGHT

    def at(side: Side) -> Stance:
        feet = side if _side_names_feet(shape) else _front(start) or side
        stance = shape.place.at(feet, heading, frame)
        keep = start is not None and start.frame is stance.frame is Frame.LONG and together
        return replace(stance, wall=start.wall) if keep and start else stance

    side, decided = default, ""
    if shape.sided:
        side, decided = _side(bit, state, shape, at)
    after = at(side)
    found = way(state.stance, after) if state.stance else Way()
    if after.right is after.left:
        state.strayed = False
    state.stance, state.shape = after, shape
    state.side, state.decided = (side, decided) if shape.sided else (None, "")
    return found


def _side_names_feet(shape: Shape) -> bool:
    """Whether the side says which foot is in front.

    It does not in a shape without sides, nor with the feet wide where the side names a bent leg or
    an arm: there the feet stay as they stand.
    """
    wide = shape.place.own is Foot.TOP and shape.place.other is Foot.BACK
    if not shape.sided:
        return not wide
    return not (wide and shape.place.frame is Frame.LONG and "front" not in shape.side_means)


def _front(start: Stance | None) -> Side | None:
    """The foot in front, or the one that would be when stepping apart toward the wall faced."""
    if start is None:
        return None
    if {start.right, start.left} == {Foot.TOP, Foot.BACK}:
        return start.front
    if start.wall is None:
        return None
    opens_left = start.wall is Side.LEFT
    return Side.RIGHT if opens_left == (start.heading is End.FRONT) else Side.LEFT


def _side(bit: Bit, state: _State, shape: Shape, at: Callable[[Side], Stance]) -> tuple[Side, str]:
    """Decide a side: the written one, the only one the stance allows, the pass's."""
    fresh, state.fresh = state.fresh and bit.pass_side is not None, False
    if bit.side_written:
        state.strayed |= bit.pass_side not in {None, bit.side_written}
        if shape is bit.shape or (
            state.stance and way(state.stance, at(bit.side_written)).possible
        ):
            return bit.side_written, "written"
    if bit.side_other and shape is bit.shape:
        state.strayed = True
        return (bit.pass_side or Side.RIGHT).other, "written"
    if fresh and _unhurried(bit):
        return _passing(bit, state, shape)
    side = _only(state.stance, at, fresh) if state.stance else None
    if side is None:
        return _passing(bit, state, shape)
    if fresh:
        _against(bit, state, shape, side)
    return side, "stance"


def _only(stance: Stance, at: Callable[[Side], Stance], fresh: bool) -> Side | None:
    """Find the only side the stance allows.

    Within a passage a change of legs that costs more than half a breath is not meant, whatever
    the shapes name their sides by; where a passage begins it is: there the other side begins.
    """
    allowed = sides_allowed(stance, at)
    if len(allowed) == 2 and not fresh:
        allowed = frozenset(side for side in allowed if way(stance, at(side)).effort < 2) or allowed
    return next(iter(allowed)) if len(allowed) == 1 else None


def _unhurried(bit: Bit) -> bool:
    """Whether there is time to change the feet, so that the stance does not bind."""
    return bit.verb in _UNHURRIED or bit.mods.over is not None


def _passing(bit: Bit, state: _State, shape: Shape) -> tuple[Side, str]:
    if bit.pass_side:
        return bit.pass_side, "pass"
    words = f"{shape.name} has two sides and nothing says which: the right is led"
    state.note("side-open", bit, words, "write `side: right`, or `each side: yes` around it")
    return Side.RIGHT, ""


def _against(bit: Bit, state: _State, shape: Shape, side: Side) -> None:
    if bit.pass_side is None or side is bit.pass_side or state.strayed:
        return
    words = (
        f"on the {bit.pass_side} side of this passage, {shape.name} comes out on the {side}:"
        " from here the feet allow no other"
    )
    hint = (
        f"end the {bit.pass_side.other} side with the feet together (downward dog, mountain), write"
        " `turn: other end` to face the other way, or write the side"
    )
    state.note("side-against-pass", bit, words, hint)
