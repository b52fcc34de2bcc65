"""Thresholds of sides, ways and breath."""

from conductor.checks.limits.model import Limit

MOVING: tuple[Limit, ...] = ()
