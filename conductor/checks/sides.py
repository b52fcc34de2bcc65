"""Sides: led alike, named right, and home again at the end."""

from conductor.checks.case import Check

SIDES: tuple[Check, ...] = ()
