"""Sight: where the teacher cannot see the screen."""

from conductor.checks.case import Check

SIGHT: tuple[Check, ...] = ()
