"""What a threshold is."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limit:
    """A threshold: its name as a plan writes it under `check`, its value, unit and source."""

    name: str
    value: float
    unit: str
    source: str
