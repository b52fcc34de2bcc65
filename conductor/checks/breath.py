"""Breath: it alternates, suits the movement, and can be breathed."""

from conductor.checks.case import Check

BREATH: tuple[Check, ...] = ()
