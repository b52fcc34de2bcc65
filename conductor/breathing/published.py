"""What has been published on how fast people breathe, each with its source; breaths a minute.

Some of the sentences were read as others quote them; the sources below are the papers themselves.
"""

from conductor.values import Struct


class Published(Struct, frozen=True):
    """A published range or rate: from `low` to `high` breaths a minute, what of, and where."""

    name: str
    low: float
    high: float
    source: str


USUAL = Published(
    "usual for adults at rest", 10, 20, "Russo et al., Breathe 2017;13:298-309 (a review)"
)
SLOW = Published(
    "slow breathing, as in practice", 4, 10, "Russo et al., Breathe 2017;13:298-309 (a review)"
)
SIX = Published(
    "close to six a minute, at which the baroreflex was more sensitive in 23 adults",
    5.5,
    6.5,
    "Bernardi et al., BMJ 2001;323:1446-9; what counts as close is our own choice",
)


def standing(breath_ms: int) -> tuple[str, ...]:
    """How a whole breath of that length stands to what has been published, a line each."""
    rate = 60_000 / max(breath_ms, 1)
    lines = [_line(one) for one in (SLOW, USUAL, SIX) if one.low <= rate <= one.high]
    if rate > USUAL.high:
        lines = [f"faster than the {USUAL.low:g} to {USUAL.high:g} a minute {_told(USUAL)}"]
    elif rate < SLOW.low:
        lines = [f"slower than the {SLOW.low:g} to {SLOW.high:g} a minute of {_told(SLOW)}"]
    return tuple(lines)


def _line(one: Published) -> str:
    if one is SIX:
        return _told(one)
    return f"{one.low:g} to {one.high:g} a minute: {_told(one)}"


def _told(one: Published) -> str:
    return f"{one.name} ({one.source})"
