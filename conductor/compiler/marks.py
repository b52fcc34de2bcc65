"""Words and bells that stand between steps find the step they fall into."""

from conductor.compiler.model import Bit
from conductor.plan.model import Line
from conductor.sides import Breath
from conductor.spans import Span
from conductor.values import Struct, replace

RING_MS = 4_000  # what one stroke of a bell takes when nothing follows it


class Mark(Struct, frozen=True):
    """Words or bells between steps, before it is known which step they fall into."""

    span: Span
    lines: tuple[Line, ...] = ()
    strokes: int = 0
    part: int = 0


def attached(items: list[Bit | Mark]) -> tuple[Bit, ...]:
    """Give words and bells between steps to the step they fall into.

    Words before a stay or a breath in place begin it; before a movement, or at the end, they
    close the step before. Bells ring as the next step begins; a last one rings out by itself, in
    the part it stands in.
    """
    bits: list[Bit] = []
    waiting: list[Mark] = []
    for item in items:
        if isinstance(item, Mark):
            waiting.append(item)
            continue
        bit = item
        for mark in waiting:
            bit = replace(bit, bells=bit.bells + mark.strokes)
            if bit.shape is None and mark.lines:
                bit = replace(bit, extra=bit.extra + _anchored(mark.lines, "first"))
            elif mark.lines and bits:
                bits[-1] = replace(bits[-1], extra=bits[-1].extra + _anchored(mark.lines, "last"))
            elif mark.lines:
                bit = replace(bit, extra=bit.extra + _anchored(mark.lines, "first"))
        waiting.clear()
        bits.append(bit)
    for mark in waiting:
        bits = _closed(bits, mark)
    return tuple(bits)


def _anchored(lines: tuple[Line, ...], anchor: str) -> tuple[Line, ...]:
    return tuple(Line(line.anchor or anchor, line.text) for line in lines)


def _closed(bits: list[Bit], mark: Mark) -> list[Bit]:
    if not bits:
        return bits
    last = bits[-1]
    if mark.lines:
        return [*bits[:-1], replace(last, extra=last.extra + _anchored(mark.lines, "last"))]
    ring = Bit(
        path=f"{last.path}/bell",
        twin=f"{last.twin}/bell",
        verb="free",
        breath=Breath.FREE,
        span=mark.span,
        part=mark.part,
        ms=RING_MS * mark.strokes,
        inhale=last.inhale,
        exhale=last.exhale,
        form="nothing",
        bells=mark.strokes,
        bell="end",
    )
    return [*bits, ring]
