"""Estimates that a few wrong values cannot spoil: pairwise means, deviations, pairwise slopes."""

from collections.abc import Sequence
from math import sqrt

from conductor.breathing.model import Estimate

SURE = 1.96  # of the normal distribution: 19 times in 20
LEAST = 6  # values below which no interval of that certainty exists (1/2 to the 5th is 3 %)
NORMAL = 1.4826  # makes the median deviation of normal values their standard deviation
MINUTE_MS = 60_000
MOST = 400  # values looked at, the latest ones: pairs grow with the square


def median(values: Sequence[float]) -> float:
    """The middle value, or the mean of the two in the middle."""
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


def estimate(measured: Sequence[tuple[int, int]]) -> Estimate | None:
    """What (at, ms) pairs tell of the usual length; None where they are too few to be sure of.

    The middle is the median of all pairwise means (Hodges and Lehmann 1963): nearly as exact as
    the mean, and no worse than the median while under a quarter of the values are wrong. Its
    interval are order statistics of those means (after Wilcoxon 1945), so no chance is involved.
    The drift is the median of all pairwise slopes (Theil 1950, Sen 1968).
    """
    if len(measured) < LEAST:
        return None
    measured = measured[-MOST:]
    values = [ms for _, ms in measured]
    means = sorted((a + b) / 2 for n, a in enumerate(values) for b in values[n:])
    low, high = _wilcoxon(len(values))
    middle = median(means)
    slope, least, most = _slope(measured)
    return Estimate(
        ms=round(middle),
        low=round(means[low]),
        high=round(means[high]),
        spread=round(NORMAL * median([abs(ms - middle) for ms in values])),
        drift=round(slope),
        drift_low=round(least),
        drift_high=round(most),
        count=len(values),
    )


def _wilcoxon(count: int) -> tuple[int, int]:
    """Which of the ordered pairwise means bound the middle."""
    pairs = count * (count + 1) // 2
    reach = SURE * sqrt(count * (count + 1) * (2 * count + 1) / 24)
    low = max(int(pairs / 2 - reach), 0)
    return low, pairs - 1 - low


def _slope(measured: Sequence[tuple[int, int]]) -> tuple[float, float, float]:
    """The change in a minute, and its bounds by Kendall's statistic."""
    slopes = sorted(
        (ms - before) * MINUTE_MS / (at - earlier)
        for n, (at, ms) in enumerate(measured)
        for earlier, before in measured[:n]
        if at > earlier
    )
    if not slopes:
        return 0.0, 0.0, 0.0
    count = len(measured)
    reach = SURE * sqrt(count * (count - 1) * (2 * count + 5) / 18)
    low = min(max(int((len(slopes) - reach) / 2), 0), len(slopes) - 1)
    return median(slopes), slopes[low], slopes[len(slopes) - 1 - low]
