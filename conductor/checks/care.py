"""Care: cautions for whom the class is meant, gentler ways, props."""

from conductor.checks.case import Check

CARE: tuple[Check, ...] = ()
