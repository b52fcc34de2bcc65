"""Kill classes without warning, 200 times at random moments, and take each up again.

Each class is killed several times over: begun and killed, gone on with and killed again.

    python -m tests.soak.kills [--kills 200] [--chain 5] [--at-once 6]
"""

import argparse
import shutil
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from tests.cli.kills import faults, killed


def chain(home: Path, seed: int, length: int) -> list[list[str]]:
    """Kill one class so many times; the faults found after each."""
    home.mkdir()
    found = []
    before = None
    for number in range(length):
        before = killed(home, seed * 100 + number, before)
        told = faults(before)
        found.append(told)
        if told:
            journal = next(before.journals.glob("*.jsonl"))
            shutil.copy(journal, f"class-{seed}-{number}.jsonl")
    return found


def main() -> int:
    """Run it and print what was found."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--chain", type=int, default=5)
    parser.add_argument("--at-once", type=int, default=6)
    asked = parser.parse_args()
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(asked.at_once) as pool:
        seeds = range(asked.kills // asked.chain)
        chains = list(
            pool.map(lambda seed: chain(Path(folder) / str(seed), seed, asked.chain), seeds)
        )
    deaths = [found for one in chains for found in one]
    wrong = [found for found in deaths if found]
    for found in wrong:
        print("; ".join(found))
    minutes = (time.monotonic() - began) / 60
    print(f"{len(deaths)} kills, {len(deaths) - len(wrong)} taken up rightly, {minutes:.1f} min")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
