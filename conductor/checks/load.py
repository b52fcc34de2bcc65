"""Load: warm before deep, undone after, and rested at the end."""

from conductor.checks.case import Check
from conductor.checks.load_frame import FRAME
from conductor.checks.load_seconds import SECONDS
from conductor.checks.load_undo import UNDO
from conductor.checks.load_warm import WARM

LOAD: tuple[Check, ...] = (*WARM, *UNDO, *SECONDS, *FRAME)
