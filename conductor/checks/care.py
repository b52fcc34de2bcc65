"""Care: cautions for whom the class is meant, gentler ways, props."""

from conductor.checks.care_props import PROPS
from conductor.checks.care_ways import WAYS
from conductor.checks.case import Check

CARE: tuple[Check, ...] = (*WAYS, *PROPS)
