"""How near a measured breath comes to the truth: simulated tapping over many seeds.

    python -m tests.soak.breaths [SEEDS]

Each half breath is up to a tenth longer or shorter, evenly spread; one tap in twenty is missed and
one in twenty doubled. Prints one row for each length of sitting, over five rhythms and both ways of
tapping (two keys, or one for both): how many estimates lie within 2 % of the truth, and of what
the same estimate gives where every turn is known; how often the bounds hold the truth.
"""

import sys

from conductor.breathing.measure import measured
from conductor.breathing.robust import estimate
from conductor.sides import Breath
from tests.breathing.tapped import tapped

PAIRS = ((4000, 4000), (4000, 6000), (2000, 3000), (5000, 5000), (3000, 7000))


def main(seeds: int) -> None:
    """Print the table."""
    for minutes in (2, 5, 20):
        truly, breathed, held, worst = [], [], 0, 0.0
        for pair in PAIRS:
            for labels in (True, False):
                for seed in range(seeds if minutes < 20 else max(seeds // 5, 1)):
                    taps, real = tapped(seed, *pair, minutes * 60, labels=labels)
                    reading = measured(taps)
                    for half, truth, breath in zip(
                        (reading.inhale, reading.exhale), pair, (Breath.IN, Breath.OUT), strict=True
                    ):
                        known = estimate([(n * 8000, ms) for n, ms in enumerate(real[breath])])
                        if half is None or known is None:
                            raise SystemExit(f"nothing was found: {pair}, seed {seed}")
                        truly.append(abs(half.ms - truth) / truth)
                        breathed.append(abs(half.ms - known.ms) / known.ms)
                        held += half.low <= truth <= half.high
                        worst = max(worst, truly[-1])
        number = len(truly)
        near = sum(one <= 0.02 for one in truly)
        slips = sum(one <= 0.02 for one in breathed)
        print(
            f"{minutes} min: {near} of {number} within 2 % of the truth (worst {worst:.1%}); "
            f"{slips} within 2 % of what was breathed (worst {max(breathed):.1%}); "
            f"bounds hold {held / number:.1%}"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
