"""Every rule there is, from the rooms that enforce them, with the thresholds each goes by."""

from collections.abc import Callable, Iterator
from dis import get_instructions
from types import CodeType, FunctionType

from conductor.checks.check import CHECKS
from conductor.checks.limits import LIMITS
from conductor.checks.limits.model import Limit
from conductor.cli.checking import CHECKING
from conductor.cli.opening import OPENING
from conductor.compiler.place import PLACE
from conductor.compiler.rules import COMPILER
from conductor.findings import Weight
from conductor.plan.rules import LANGUAGE
from conductor.rules import Rule

_ALL: tuple[Rule, ...] = (
    *CHECKING,
    *OPENING,
    *LANGUAGE,
    *COMPILER,
    *PLACE,
    *(check.rule for check in CHECKS),
)
RULES: tuple[Rule, ...] = tuple({rule.name: rule for rule in _ALL}.values())
"""Each rule once: two rooms may enforce one, such as that settings are known ones."""

_FINDS = {check.rule.name: check.find for check in CHECKS}
_ROOM = "conductor.checks"


def may_be_off(name: str) -> bool:
    """Whether a plan may switch the rule off: it says what would go wrong, not what cannot be."""
    return any(
        check.rule.name == name
        and check.rule.weight is not Weight.ERROR
        and check.rule.family != "settings"
        for check in CHECKS
    )


def limits_of(name: str) -> tuple[Limit, ...]:
    """The thresholds that a rule's code names, so that no list of them can grow stale."""
    find = _FINDS.get(name)
    named = set(_texts(find, set())) if find else set()
    named |= {first + last for first in named for last in named if last.startswith(" ")}
    return tuple(limit for limit in LIMITS if limit.name in named)


def _texts(function: Callable[..., object], seen: set[str]) -> Iterator[str]:
    """Every text that stands in a function, and in those of its room that it calls."""
    if not isinstance(function, FunctionType) or function.__module__ + function.__name__ in seen:
        return
    seen.add(function.__module__ + function.__name__)
    codes = [function.__code__]
    for code in codes:
        codes += [one for one in code.co_consts if isinstance(one, CodeType)]
        yield from (one for one in code.co_consts if isinstance(one, str))
        loaded = (one.argval for one in get_instructions(code) if one.opname == "LOAD_GLOBAL")
        for name in loaded:
            called = function.__globals__.get(name)
            if getattr(called, "__module__", "").startswith(_ROOM) and callable(called):
                yield from _texts(called, seen)
