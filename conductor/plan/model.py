"""The typed plan: what the reader gives and the compiler takes. Every text knows its place."""

from collections.abc import Mapping

from conductor.spans import Span
from conductor.values import Struct, field

LEFT_OUT = "left out"
"""The value of `may drop` where a passage is left out already."""


class Text(Struct, frozen=True):
    """A scalar as written, cleaned of control characters, and where it stands."""

    value: str
    span: Span


class Amount(Struct, frozen=True):
    """How long: half breaths when `halves` is not 0, else milliseconds."""

    span: Span
    halves: int = 0
    ms: int = 0


class Stretch(Struct, frozen=True):
    """`may stretch`: the bounds as written; both None means `yes`, from half to double.

    `never` is `no`: an outer `may stretch` does not hold here. On a stay its bounds are then the
    stay itself.
    """

    span: Span
    least: Amount | None = None
    most: Amount | None = None
    never: bool = False


class Tempo(Struct, frozen=True):
    """`breath`: milliseconds of the inhale and of the exhale.

    `least` and `most` are milliseconds of a whole breath (`breath may stretch`), 0 when it is as
    written and nothing else.
    """

    span: Span
    inhale: int
    exhale: int
    least: int = 0
    most: int = 0


class Limits(Struct, frozen=True):
    """`breath may stretch`: the shortest and the longest breath, in milliseconds."""

    span: Span
    least: int
    most: int


class Share(Struct, frozen=True):
    """`share`: how much of the class a part wishes for, in hundredths of a percent."""

    span: Span
    of: int


class Line(Struct, frozen=True):
    """One line of a stay's words: anchored `first`, `last`, or "" for one line a breath."""

    anchor: str
    text: Text


class Only(Struct, frozen=True):
    """`only`: when a step is led. `what` is round, last round, first side or second side."""

    span: Span
    what: str
    number: int = 0


class Way(Struct, frozen=True):
    """Another way of a step: words, a shape, or steps of the same length."""

    span: Span
    text: Text | None = None
    shape: Text | None = None
    say: Text | None = None
    steps: "tuple[Step, ...]" = ()


class Mods(Struct, frozen=True):
    """The modifiers a step or a block may carry; absent ones are None or empty.

    `speak` is a tuple of forms by round ("full", "short", "breath", "nothing"); the last one goes
    on. `turn` is other end, long side, front or back. `settle` and `over` are half breaths. `ways`
    are other ways by their name: ease, more, or, and those of `variants`. `may_drop` is "yes", or
    "left out" where that is so already.
    """

    say: tuple[Line, ...] = ()
    short: Text | None = None
    say_again: Text | None = None
    side: Text | None = None
    with_: Text | None = None
    through: tuple[Text, ...] = ()
    turn: Text | None = None
    over: Amount | None = None
    settle: Amount | None = None
    ways: tuple[tuple[str, Way], ...] = ()
    note: Text | None = None
    breath: Tempo | None = None
    speak: tuple[str, ...] = ()
    may_stretch: Stretch | None = None
    may_drop: Text | None = None
    least: Amount | None = None
    only: Only | None = None


class Move(Struct, frozen=True):
    """`come to`, `in` or `out`: a movement. `shape` None is `same`: half a breath in place.

    A `come to` takes one breath, with no breath told, unless `over` says otherwise.
    """

    verb: str  # "come to", "in", "out"
    shape: Text | None
    span: Span
    mods: Mods = Mods()


class Stay(Struct, frozen=True):
    """`stay`: breaths or time in the shape reached."""

    amount: Amount
    span: Span
    mods: Mods = Mods()


class Free(Struct, frozen=True):
    """`free`: time at one's own breath; `of` cycles through shapes, `to` arrives in one."""

    amount: Amount
    span: Span
    of: tuple[Text, ...] = ()
    to: Text | None = None
    mods: Mods = Mods()


class Say(Struct, frozen=True):
    """`say` as a step of its own: words within the present shape."""

    lines: tuple[Line, ...]
    span: Span
    mods: Mods = Mods()


class Bell(Struct, frozen=True):
    """`bell`: that many strokes within the present shape."""

    strokes: int
    span: Span


class Block(Struct, frozen=True):
    """Steps together: a flow by name (`flow`), rounds, both sides, or only shared modifiers.

    `flow` set means the steps are those of that flow. `alternate` changes sides each round.
    """

    span: Span
    steps: "tuple[Step, ...]" = ()
    flow: Text | None = None
    rounds: int = 1
    least_rounds: int = 0  # 0: no fewer than written
    most_rounds: int = 0  # 0: no more than written
    each_side: bool = False
    alternate: bool = False
    between: "tuple[Step, ...]" = ()
    mods: Mods = Mods()


Step = Move | Stay | Free | Say | Bell | Block


class Flow(Struct, frozen=True):
    """A named passage written once and used many times; mods of the flow hold for every call."""

    name: Text
    steps: tuple[Step, ...]
    mods: Mods = Mods()


class PartOf(Struct, frozen=True):
    """A named stretch of the class, with defaults for its steps."""

    name: Text
    steps: tuple[Step, ...]
    mods: Mods = Mods()
    length: Amount | None = None
    share: Share | None = None


class OwnShape(Struct, frozen=True):
    """A shape of the teacher's own, as written: field name to text."""

    name: Text
    fields: Mapping[str, Text] = field(default_factory=dict)


class Plan(Struct, frozen=True):
    """A whole plan. `options` keeps settings a plan may make (voice, check), flat and as text."""

    file: str
    title: Text
    parts: tuple[PartOf, ...]
    flows: Mapping[str, Flow] = field(default_factory=dict)
    shapes: Mapping[str, OwnShape] = field(default_factory=dict)
    kind: str = "class"
    for_: Text | None = None
    length: Amount | None = None
    breath: Tempo | None = None
    first_side: Text | None = None
    speak: tuple[str, ...] = ()
    props: tuple[Text, ...] = ()
    options: Mapping[str, Text] = field(default_factory=dict)
