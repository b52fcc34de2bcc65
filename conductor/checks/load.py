"""Load: warm before deep, undone after, and rested at the end."""

from conductor.checks.case import Check

LOAD: tuple[Check, ...] = ()
