"""Thresholds of load, words, sight, time and care."""

from conductor.checks.limits.model import Limit

WHOLE: tuple[Limit, ...] = ()
