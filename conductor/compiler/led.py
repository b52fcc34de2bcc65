"""Words of the plan as they are led: for the side and the end of the mat of this pass."""

from conductor.compiler import exchange
from conductor.compiler.model import Bit
from conductor.compiler.rules import found
from conductor.findings import Finding
from conductor.plan.model import Text
from conductor.sides import End, Side
from conductor.spans import Span
from conductor.values import replace


class Reader:
    """Reads words as led, and remembers the end each line was first led toward.

    `<side>` is the side of the pass; outside of one it is the side written for the step, else the
    one decided for its shape.
    """

    def __init__(self) -> None:
        self.toward: dict[Span, End] = {}
        self.findings: dict[Span, Finding] = {}

    def read(self, text: Text, bit: Bit) -> tuple[str, tuple[str, str] | None]:
        """Give the words as led, and both readings where they differ."""
        led, unclear = exchange.sides(text.value)
        if unclear and bit.pass_key and text.span not in self.findings:
            words = f"it is unclear whether “{unclear[0]}” is a side here"
            hint = "write <side> or <other> where a side is meant"
            self.findings[text.span] = found("unclear-side", words, text.span, hint)
        unknown = exchange.unknown_marks(text.value) if "<" in text.value else ()
        if unknown and text.span not in self.findings:
            words = f"there is no mark <{unknown[0]}>; it would be said as it stands"
            hint = "the marks are <side>, <other> and <end>"
            self.findings[text.span] = found("unknown-mark", words, text.span, hint)
        led = led if bit.mirrored else text.value
        if bit.heading_in is not self.toward.setdefault(text.span, bit.heading_in):
            led = exchange.ends(led)
        side = bit.pass_side or bit.side_written or bit.side or Side.RIGHT
        end = bit.stance.heading if bit.stance else bit.heading_in
        led = exchange.placed(led, side, side.other, end)
        return led, ((text.value, led) if led != text.value else None)


def beside(bits: tuple[Bit, ...]) -> tuple[tuple[Bit, ...], tuple[Finding, ...]]:
    """Read what stands beside a movement, `with` and `note`, before the movement is worded."""
    reader = Reader()
    led = []
    for bit in bits:
        with_, note = bit.mods.with_, bit.mods.note
        if with_ is note is None:
            led.append(bit)
            continue
        if with_ is not None:
            bit = replace(bit, with_=reader.read(with_, bit)[0])  # noqa: PLW2901
        if note is not None:
            bit = replace(bit, note=reader.read(note, bit)[0])  # noqa: PLW2901
        led.append(bit)
    return tuple(led), tuple(reader.findings.values())
