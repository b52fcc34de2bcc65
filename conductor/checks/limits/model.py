"""What a threshold is."""

from conductor.values import Struct

COMMON = "common practice"  # the source of what the trade does and no publication says


class Limit(Struct, frozen=True):
    """A threshold: its name as a plan writes it under `check`, its value, unit and source."""

    name: str
    value: float
    unit: str
    source: str


def number(written: str) -> float | None:
    """Read a threshold as people write it: 9, 9.5, 10 %, 8 s; None when it is no number."""
    words = written.replace("%", " ").split()
    try:
        return float(words[0]) if words else None
    except ValueError:
        return None
