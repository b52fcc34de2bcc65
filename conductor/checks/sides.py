"""Sides: led alike, named right, and home again at the end."""

from conductor.checks.case import Check
from conductor.checks.sides_led import LED
from conductor.checks.sides_uneven import UNEVEN
from conductor.checks.sides_words import SAID

SIDES: tuple[Check, ...] = (*LED, *UNEVEN, *SAID)
