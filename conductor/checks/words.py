"""Words: what is said fits the breath it belongs to, and leaves silence."""

from conductor.checks.case import Check
from conductor.checks.words_amount import AMOUNT
from conductor.checks.words_time import TIMED

WORDS: tuple[Check, ...] = (*TIMED, *AMOUNT)
