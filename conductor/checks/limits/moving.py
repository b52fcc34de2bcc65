"""Thresholds of sides, ways and breath."""

from conductor.checks.limits.model import COMMON, Limit

RATES = "slow breathing is 4 to 10 a minute (Russo et al., Breathe 2017); the bounds are practice"
RATIO = "1:1 and 3:7 were tested (Mason et al. 2013, eCAM 743504); twice as long is practice"

MOVING: tuple[Limit, ...] = (
    Limit(
        "uneven sides",
        10,
        "% of the longer side",
        "the same length of time on the other side (Light on Yoga p.314); the figure is practice",
    ),
    Limit("passing", 10, "s; a step on the way, no more, when led so briefly", COMMON),
    Limit("movements in half a breath", 3, "shapes, those passed `through` included", COMMON),
    Limit("change of weight", 2, "s at least for each", COMMON),
    Limit("trips to the floor an hour", 8, "an hour", COMMON),
    Limit("trips to the floor at least", 4, "in all", COMMON),
    Limit("fetch a prop", 6, "s", COMMON),
    Limit("shortest half breath", 2, "s", RATES),
    Limit("longest half breath", 8, "s", RATES),
    Limit("longest exhale", 2, "times the inhale", RATIO),
    Limit("longest inhale", 2, "times the exhale", RATIO),
    Limit("movements without a settled breath", 36, "movements", COMMON),
)
