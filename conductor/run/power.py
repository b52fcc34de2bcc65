"""What the machine runs on, as far as it tells."""

from conductor.values import Struct


class Power(Struct, frozen=True):
    """Whether it is plugged in; what is left in the battery, `left_s` None when not reckoned."""

    plugged: bool
    percent: int
    left_s: int | None = None


def power() -> Power | None:
    """Look at the battery; None where there is none, or none that can be read."""
    try:
        import psutil  # noqa: PLC0415 -- 10 ms, and only the page before class wants it

        found = psutil.sensors_battery()
    except (ImportError, AttributeError, OSError, ValueError, RuntimeError):
        return None
    if found is None:
        return None
    left = found.secsleft
    known = isinstance(left, int) and left >= 0  # the library has marks below 0 for not known
    plugged = found.power_plugged is not False
    return Power(plugged, round(found.percent), left if known and not plugged else None)
