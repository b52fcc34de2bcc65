"""Every threshold of the check, in one place, with where it comes from; a plan may set each."""

from collections.abc import Mapping

from conductor.checks.limits.model import Limit, number
from conductor.checks.limits.moving import MOVING
from conductor.checks.limits.whole import WHOLE

LIMITS: tuple[Limit, ...] = (*MOVING, *WHOLE)


def limits(options: Mapping[str, str]) -> Mapping[str, float]:
    """The limits in force: those given, changed by what the plan sets under `check`."""
    read = {limit.name: number(options.get(f"check.{limit.name}", "")) for limit in LIMITS}
    return {limit.name: _or(read[limit.name], limit.value) for limit in LIMITS}


def _or(read: float | None, usual: float) -> float:
    return usual if read is None else read
