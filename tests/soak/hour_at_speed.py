"""The hour's plan sixty times as fast in a real terminal, from the first key to its exit code.

`python tests/soak/hour_at_speed.py [--speed 60] [--plan PLAN]`. tmux draws 120x40; the class is
opened and begun by keys and led to its end. Held are: the exit code 0, no exception, every moment
of the score entered once and in order, each at its time. The journal gives each moment's time in
the class; when its line was there tells how late in real time it came, the earliest of all counting
as not late.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench import common
from tests.soak.tail import Tail, lateness

SESSION = "class"
SIGNS = ("Traceback", "Error", "The screen closed")


class Tmux:
    """A program in a terminal of a tmux server of its own."""

    def __init__(self, folder: Path, command: str, env: dict[str, str]) -> None:
        self._base = ["tmux", "-S", str(folder / "tmux"), "-f", "/dev/null"]
        size = ["-x", str(common.WIDTH), "-y", str(common.HEIGHT)]
        self._env = {**env, "TERM": "xterm-256color"}
        self._run("new-session", "-d", "-s", SESSION, *size, command)

    def press(self, key: str) -> None:
        """Type a key by tmux's name."""
        self._run("send-keys", "-t", SESSION, key)

    def press_until(self, key: str, true: Callable[[], bool], limit: float = 60) -> bool:
        """Type a key again and again until it is so."""

        def asked() -> bool:
            if true():
                return True
            self.press(key)
            return False

        return common.until(asked, limit, every=0.5)

    def screen(self) -> str:
        """What it shows."""
        return self._run("capture-pane", "-p", "-t", SESSION)

    def close(self) -> None:
        """End the server."""
        self._run("kill-server")

    def _run(self, *words: str) -> str:
        done = subprocess.run(
            [*self._base, *words],
            env=self._env,
            cwd=common.ROOT,
            capture_output=True,
            text=True,
            check=False,
        )
        return done.stdout


def led(env: dict[str, str], wanted: argparse.Namespace) -> tuple[list[list[str]], bool]:
    """Lead it; the rows of the table, and whether all that is held was so."""
    folder = Path(env["HOME"])
    code = folder / "exit"
    words = " ".join(common.class_command(wanted.plan, "--speed", str(wanted.speed)))
    terminal = Tmux(folder, f"{words}; echo $? > {code}; sleep 2", env)
    try:
        opened = terminal.press_until("Enter", lambda: bool(common.journals(env)))
        assert opened, terminal.screen()
        journal = common.journals(env)[0]
        tail = Tail(journal)
        time.sleep(1)
        terminal.press("Space")
        limit = 90 * 60 / wanted.speed + 60
        finished = tail.wait("finished", limit=limit)
        shown = ""
        if finished:
            common.until(lambda: "Enter" in terminal.screen() or code.exists(), 10, 0.3)
            shown = terminal.screen()
            terminal.press_until("q", code.exists)
        status = code.read_text().strip() if code.exists() else "none"
        signs = [sign for sign in SIGNS if sign in shown + terminal.screen()]
        return judged(tail, journal, wanted.speed, status, signs)
    finally:
        terminal.close()


def judged(
    tail: Tail, journal: Path, speed: float, status: str, signs: list[str]
) -> tuple[list[list[str]], bool]:
    """What came of it."""
    score = json.loads(journal.with_suffix(".score.json").read_text())
    moments = tail.of("moment")
    wanted = [moment["id"] for moment in score["moments"]]
    whole = [line.data["moment"] for line in moments] == wanted
    late = lateness(moments, speed)
    ends = tail.of("finished")
    length = score["moments"][-1]["start"] + score["moments"][-1]["length"]
    over = ends[0].now - moments[0].now - length if ends else None
    real = (ends[0].at - moments[0].at) / 1000 if ends else float("nan")
    slept = len(tail.of("slept")) + len(tail.of("dropped"))
    held = status == "0" and whole and not signs and late.off_score == 0 and over == 0
    rows = [
        ["moments entered, of the score's", f"{len(moments)} of {len(wanted)}"],
        ["in the score's order, each once", "yes" if whole else "NO"],
        ["greatest difference from the score, class ms", f"{late.off_score}"],
        ["the end against the score, class ms", f"{over}"],
        ["stalls noticed and cues dropped", f"{slept}"],
        ["late in real ms: median, p99, greatest", spread(late.at(0.5), late.at(0.99), late.at(1))],
        [
            "the same in class ms",
            spread(*(speed * late.at(share) for share in (0.5, 0.99, 1)), form=".0f"),
        ],
        [
            "real seconds from first moment to end (planned)",
            f"{real:.2f} ({length / speed / 1e3:.2f})",
        ],
        ["exit code", status],
        ["signs of an exception", ", ".join(signs) or "none"],
    ]
    return rows, held


def spread(*values: float, form: str = ".2f") -> str:
    """Figures in a row."""
    return ", ".join(f"{value:{form}}" for value in values)


def main() -> None:
    """Lead and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--speed", type=float, default=60)
    parser.add_argument("--plan", default="plans/harbour-hour.yaml")
    wanted = parser.parse_args()
    with common.home() as env:
        rows, held = led(env, wanted)
    print(f"{wanted.plan} at {wanted.speed:g} times the speed in tmux. {common.machine()}.\n")
    print(common.table(["what", "found"], rows))
    sys.exit(0 if held else "something that is held was not so")


if __name__ == "__main__":
    main()
