"""Every threshold of the check, in one place, with where it comes from; a plan may set each."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limit:
    """A threshold: its name as a plan writes it under `check`, its value, unit and source."""

    name: str
    value: float
    unit: str
    source: str


LIMITS: tuple[Limit, ...] = ()


def limits(options: Mapping[str, str]) -> Mapping[str, float]:
    """The limits in force: those given, changed by what the plan sets under `check`."""
    values = {limit.name: limit.value for limit in LIMITS}
    for name in values:
        written = options.get(f"check.{name}")
        if written is not None:
            try:
                values[name] = float(written)
            except ValueError:
                continue
    return values
