"""Every rule there is, from the rooms that enforce them."""

from conductor.checks.check import CHECKS
from conductor.cli.opening import OPENING
from conductor.compiler.place import PLACE
from conductor.compiler.rules import COMPILER
from conductor.plan.rules import LANGUAGE
from conductor.rules import Rule

RULES: tuple[Rule, ...] = (
    *OPENING,
    *LANGUAGE,
    *COMPILER,
    *PLACE,
    *(check.rule for check in CHECKS),
)
