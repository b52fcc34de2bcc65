"""Every threshold of the check, in one place, with where it comes from; a plan may set each."""

from collections.abc import Mapping

from conductor.checks.limits.model import Limit
from conductor.checks.limits.moving import MOVING
from conductor.checks.limits.whole import WHOLE

LIMITS: tuple[Limit, ...] = (*MOVING, *WHOLE)


def limits(options: Mapping[str, str]) -> Mapping[str, float]:
    """The limits in force: those given, changed by what the plan sets under `check`."""
    values = {limit.name: limit.value for limit in LIMITS}
    for name in values:
        written = options.get(f"check.{name}")
        if written is not None:
            try:
                values[name] = float(written)
            except ValueError:
                continue
    return values
