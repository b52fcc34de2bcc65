"""Ways: every movement can be made from where the class is, in its half breath."""

from conductor.checks.case import Check

WAYS: tuple[Check, ...] = ()
