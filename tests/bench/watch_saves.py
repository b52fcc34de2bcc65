"""From a save to the block that `conductor watch --plain` prints, against a check started anew.

Run it as `python -m tests.bench.watch_saves [SAVES]`; the saves come a second apart.
"""

import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable
from pathlib import Path

from tests.bench.compile_ratio import ROOT

APART_S = 0.9


def block(lines: Iterable[str]) -> None:
    """Wait for the end of a block."""
    for line in lines:
        if line.startswith("Waiting"):
            return


def main() -> None:
    """Measure and print."""
    saves = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    source = (ROOT / "plans/harbour-hour.yaml").read_text("utf-8")
    command = [sys.executable, "-m", "conductor"]
    seen, anew = [], []
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plan.yaml"
        file.write_text(source, "utf-8")
        watch = subprocess.Popen(
            [*command, "watch", "--plain", str(file)], stdout=subprocess.PIPE, text=True
        )
        assert watch.stdout is not None
        block(watch.stdout)
        for number in range(saves):
            time.sleep(APART_S)
            began = time.monotonic()
            file.write_text(source.replace("Harbour Hour", f"Hour {number}", 1), "utf-8")
            block(watch.stdout)
            seen.append(time.monotonic() - began)
            began = time.monotonic()
            subprocess.run([*command, "check", str(file)], check=True, capture_output=True)
            anew.append(time.monotonic() - began)
        watch.kill()
        watch.wait()
    for name, took in (("watch", seen), ("check anew", anew)):
        print(f"{name:<10} median {statistics.median(took):.2f} s, greatest {max(took):.2f}")


if __name__ == "__main__":
    main()
