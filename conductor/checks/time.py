"""Time: the class ends on its minute, in proportion."""

from conductor.checks.case import Check

TIME: tuple[Check, ...] = ()
