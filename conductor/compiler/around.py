"""What surrounds a step as the plan is unfolded: everything it inherits."""

from conductor.plan.model import Amount, Mods, Stretch, Tempo
from conductor.sides import Side
from conductor.spans import Span
from conductor.values import Struct, replace


class Here(Struct, frozen=True):
    """What surrounds a step: everything it inherits."""

    path: str
    twin: str
    part: int
    inhale: int
    exhale: int
    tempo: Span | None = None  # where the breath is written, if that may stretch
    speak: tuple[str, ...] = ()
    round: tuple[int, int] = (1, 1)
    in_rounds: bool = False
    most_rounds: int = 0  # how many there might have been
    pass_side: Side | None = None
    pass_no: int = 0  # 1 or 2 in the order led, 0 outside
    pass_key: str = ""
    mate_key: str = ""
    drop: str = ""
    stretch: Stretch | None = None
    settle: Amount | None = None

    @property
    def mirrored(self) -> bool:
        """Whether the passage is led the other way round than written."""
        return self.pass_side is Side.LEFT

    def down(self, name: str) -> "Here":
        """Go one step down the source path."""
        return replace(self, path=f"{self.path}/{name}", twin=f"{self.twin}/{name}")

    def breathing(self, tempo: Tempo) -> "Here":
        """Take on a breath."""
        where = tempo.span if tempo.most else None
        return replace(self, inhale=tempo.inhale, exhale=tempo.exhale, tempo=where)

    def under(self, mods: Mods) -> "Here":
        """Take on what a block, a flow or a part says for all its steps."""
        here = self
        if mods.breath:
            here = here.breathing(mods.breath)
        if mods.speak:
            here = replace(here, speak=mods.speak)
        if mods.settle:
            here = replace(here, settle=mods.settle)
        if mods.may_stretch:
            stretch = None if mods.may_stretch.never else mods.may_stretch
            here = replace(here, stretch=stretch)
        if mods.may_drop and not here.drop:
            here = replace(here, drop=here.twin)
        if mods.side:
            here = replace(here, pass_side=side_of(mods.side.value, here.pass_side))
        return here


def side_of(word: str, passing: Side | None) -> Side:
    """Read a block's side as written for the right: in a mirrored pass it is exchanged."""
    if word == "other":
        return (passing or Side.RIGHT).other
    written = Side(word)
    return written.other if passing is Side.LEFT else written
