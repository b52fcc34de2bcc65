"""Words: what is said fits the breath it belongs to, and leaves silence."""

from conductor.checks.case import Check

WORDS: tuple[Check, ...] = ()
