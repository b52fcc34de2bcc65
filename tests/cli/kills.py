"""Classes killed as they run, and what their journals then say; used here and by a long run."""

import os
import random
import re
import signal
import subprocess
import sys
from datetime import datetime, timedelta
from pathlib import Path
from typing import NamedTuple

from conductor import __version__
from conductor.engine.model import Command, Do, State
from conductor.plain import moment_line
from conductor.run.resume import Broken, latest, resumed
from conductor.settings import Settings
from conductor.sides import Breath

PLAN = """plan: 1
title: Breakwater
kind: piece
breath: 0.6 s in, 0.7 s out
parts:
  - part: Swell
    steps:
      - come to: mountain
      - rounds: 20
        steps:
          - in: arms overhead
          - out: standing fold
          - in: half lift
          - out: downward dog
          - stay: 2 breaths
          - in: half lift
          - out: standing fold
          - in: arms overhead
          - out: mountain
"""
PATIENCE_S = 60
CLOSE = timedelta(seconds=2)  # on a busy machine the line that it begins is read late
_MOMENT = re.compile(r"\[[\d:]+\] ((?:Inhale|Exhale|Own breath): .*)")
COMMANDS = ("", "", "next", "slower", "one breath more", "hold", "stop", "back", "again")


class Killed(NamedTuple):
    """A class that was killed: its home, what was read of it, and when it began and was killed."""

    home: Path
    printed: list[str]
    began: datetime
    wall: datetime

    @property
    def journals(self) -> Path:
        return self.home / "state" / "conductor" / "journals"


def environment(home: Path) -> dict[str, str]:
    kinds = ("state", "cache", "config")
    return {**os.environ, **{f"XDG_{kind.upper()}_HOME": str(home / kind) for kind in kinds}}


def killed(home: Path, seed: int, before: Killed | None = None, longest_s: float = 4.0) -> Killed:
    """Lead a class and kill it without warning at a random moment; a command or two before.

    With a class killed `before`, that one is gone on with.
    """
    chance = random.Random(seed)  # noqa: S311 -- told apart by a seed
    plan = home / "breakwater.yaml"
    plan.write_text(PLAN, "utf-8")
    asked = ["--resume"] if before else [str(plan)]
    with subprocess.Popen(
        [sys.executable, "-m", "conductor", "lead", *asked, "--plain", "--silent"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env=environment(home),
        text=True,
    ) as process:
        one = _led_and_killed(process, home, chance, longest_s)
    return one._replace(began=before.began) if before else one


def _led_and_killed(
    process: subprocess.Popen[str], home: Path, chance: random.Random, longest_s: float
) -> Killed:
    """Read until its first moment, type a command or two, and kill it."""
    assert process.stdout
    assert process.stdin
    printed = []
    began = datetime.now().astimezone()
    for line in process.stdout:
        printed.append(line.rstrip())
        if "The class begins" in line:
            began = datetime.now().astimezone()
        if "Part: " in line or "take it up" in line:
            break
    for _ in range(chance.randrange(3)):
        _wait(process, chance.uniform(0, longest_s / 3))
        process.stdin.write(f"{chance.choice(COMMANDS)}\n")
        process.stdin.flush()
    _wait(process, chance.uniform(0, longest_s / 3))
    process.send_signal(signal.SIGKILL)
    wall = datetime.now().astimezone()
    printed += [line.rstrip() for line in process.stdout]
    process.wait(PATIENCE_S)
    return Killed(home, printed, began, wall)


def _wait(process: subprocess.Popen[str], seconds: float) -> None:
    """Let it run for a while."""
    try:
        process.wait(seconds)
    except subprocess.TimeoutExpired:
        return
    raise AssertionError("the class ended by itself")


def faults(one: Killed) -> list[str]:
    """All that is not as it should be in a class that was killed, when it is taken up again."""
    broken = latest(one.journals)
    return [*_journal(broken), *_shown(broken, one), *_taken_up(broken, one)]


def _journal(broken: Broken) -> list[str]:
    """Each line but a torn last one can be read, and time only goes on."""
    raw = broken.path.read_bytes()
    whole = raw[: raw.rfind(b"\n") + 1].splitlines()
    if len(whole) > 1 + len(broken.told):
        return [f"{len(whole)} lines stand in the journal, {1 + len(broken.told)} can be read"]
    times = [line["now"] for line in broken.told if "now" in line]
    return (
        []
        if times == sorted(times, key=lambda now: int(str(now)))
        else ["time goes back in the journal"]
    )


def _shown(broken: Broken, one: Killed) -> list[str]:
    """Whatever was shown stands in the journal: the last moment shown is one of its last two."""
    shown = [found[1] for line in one.printed if (found := _MOMENT.match(line))]
    led = [str(line["moment"]) for line in broken.told if line["kind"] == "moment"]
    last = [moment_line(broken.score, moment) for moment in led[-2:]]
    if shown and shown[-1] not in last:
        return [f"shown last: {shown[-1]!r}, last in the journal: {last}"]
    return [] if len(led) >= len(shown) else [f"{len(shown)} moments shown, {len(led)} kept"]


def _taken_up(broken: Broken, one: Killed) -> list[str]:
    """It stands where it was, with its true time, and goes on from the start of a half breath."""
    at = broken.now(one.wall)
    here = [line for line in broken.told if line["kind"] in {"moment", "state"}][-1]["moment"]
    engine = resumed(broken, {}, Settings(sound=False), __version__, at)
    stopped = engine.snapshot(at)
    moment = stopped.score.moments[stopped.index]
    found = []
    if (moment.id, stopped.state) != (here, State.STOPPED):
        found.append(f"{stopped.state} at {moment.id}; the journal ends at {here}")
    elapsed = timedelta(milliseconds=at - stopped.begun)
    off = abs(elapsed - (one.wall - one.began))
    if off > CLOSE:
        found.append(f"{elapsed} into the class, off by {off}")
    if not engine.command(Command(Do.GO_ON), at).done:
        return [*found, "go on is refused"]
    entered = engine.snapshot(at).entered
    engine.advance(entered)
    led = engine.snapshot(entered)
    new = led.score.moments[led.index]
    whole = -(-new.length * led.pace // 1000)
    left = (led.leaves or 0) - entered  # time at one's own breath goes on from where it was
    if led.index > stopped.index or (left != whole and new.breath is not Breath.FREE):
        found.append(f"goes on at {new.id} with {left} ms of {whole}")
    if not led.score.shapes[new.shape].landing:
        found.append(f"goes on in {new.shape}, which is no shape to land in")
    return found
