"""Mirror: in a passage led the other way round, every written side is exchanged."""

from conductor.compiler.model import Bit
from conductor.values import replace


def mirror(bits: tuple[Bit, ...]) -> tuple[Bit, ...]:
    """Read right for left and left for right where the passage is led on the left."""
    return tuple(_mirrored(bit) if bit.side_text else bit for bit in bits)


def _mirrored(bit: Bit) -> Bit:
    assert bit.side_text is not None  # noqa: S101 -- only such are asked for
    return replace(bit, side_written=bit.side_text.other if bit.mirrored else bit.side_text)
