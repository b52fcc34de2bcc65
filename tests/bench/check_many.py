"""How `conductor check FOLDER` takes 10,000 plans: linear in plans, and what the second core gains.

The plans are the shipped ones with another title, tempo and first side each, in a folder of their
own. Whole processes; run it as `python tests/bench/check_many.py [PLANS]`. Nothing is asserted: it
prints seconds, plans a second for a tenth, a half and all of them, and the peak of memory.
"""

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
ONE_CORE = (
    "import os, sys; os.sched_setaffinity(0, {0}); os.cpu_count = lambda: 1;"
    " from conductor.cli import main; sys.argv[0] = 'conductor'; main()"
)


def variants(folder: Path, many: int) -> None:
    """Write plans that differ from each other in title, tempo and the side led first."""
    texts = [
        "".join(line for line in path.read_text("utf-8").splitlines(True) if "length:" not in line)
        for path in sorted((ROOT / "plans").glob("*.yaml"))
    ]
    for number in range(many):
        text = texts[number % len(texts)]
        tenth = number // len(texts) % 10
        text = text.replace(
            "breath: 4 s in, 4 s out", f"breath: 4.{tenth} s in, 4.{tenth} s out", 1
        )
        text = text.replace("\ntitle: ", f"\ntitle: {number} ", 1)
        place = folder / f"{number // 500:03}" / f"{number:05}.yaml"
        place.parent.mkdir(exist_ok=True)
        place.write_text(text, "utf-8")


def checked(folder: Path, env: dict[str, str], *, one_core: bool = False) -> tuple[float, str]:
    """Seconds of wall clock for one whole check of a folder, and its last line."""
    start = ["-c", ONE_CORE] if one_core else ["-m", "conductor"]
    began = time.perf_counter()
    done = subprocess.run(
        [sys.executable, *start, "check", str(folder)],
        cwd=ROOT, env=env, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode in {0, 1}, done.stderr
    return time.perf_counter() - began, done.stdout.splitlines()[-1]


def main() -> None:
    """Measure and print."""
    many = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    print(f"Python {sys.version.split()[0]}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}")
    with tempfile.TemporaryDirectory() as place:
        env = {**os.environ, "PYTHONPYCACHEPREFIX": f"{place}/bytecode"}
        env.pop("PYTHONDONTWRITEBYTECODE", None)
        for part in (many // 10, many // 2, many):
            folder = Path(place) / str(part)
            folder.mkdir()
            variants(folder, part)
            seconds, last = checked(folder, env)
            print(f"{part:>6} plans  {seconds:7.1f} s  {part / seconds:6.1f} a second   {last}")
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024
        print(f"largest process: {peak} MB")
        few = Path(place) / str(many // 10)
        one, _ = checked(few, env, one_core=True)
        two, _ = checked(few, env)
        print(
            f"{many // 10} plans on one core {one:.1f} s, on all {two:.1f} s: {one / two:.2f} fold"
        )


if __name__ == "__main__":
    main()
