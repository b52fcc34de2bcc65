"""Lead a day of classes on a set clock, with random commands, faults, kills and sizes of screen.

    python -m tests.soak.day [--hours 24] [--seed 1]

Held after every turn of the runner: the position lies in the score, time adds up, moments follow
each other without a gap, stays of both sides that are still to come are equal, no stale or doubled
cue is wanted, a stopped class is silent, every picture fits its screen, and memory stays flat.
"""

import argparse
import gc
import json
import random
import sys
import time
from collections import Counter
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from pathlib import Path

import psutil

from conductor.cli.opening import opened
from conductor.clock import SetClock
from conductor.engine.anchor import paced
from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, Snapshot, State
from conductor.places import plan
from conductor.run.ports import OutputStatus
from conductor.run.resume import Broken, resumed
from conductor.run.runner import Runner
from conductor.score.model import Score
from conductor.score.sounds import Sound
from conductor.screens.board import board, stopped
from conductor.settings import STALE_MS, Settings
from conductor.view.letters import cells
from conductor.view.look import look

PLANS = ("short-tide", "lighthouse-morning", "harbour-hour")
SIZES = ((80, 24), (120, 40), (200, 60), (60, 80), (40, 15), (133, 37))
HOUR_MS = 3_600_000
EVERY_MS = 12_000  # a command comes as often as this, on average
CALM = [do for do in Do if do not in {Do.END, Do.SLEPT, Do.BEGIN}]
WALL = datetime(2026, 1, 5, 18, 0, tzinfo=UTC)
DONE = {"command", "slept", "taken up"}
LAST = 12  # deeds shown of a class in which something did not hold
GROWTH_MB = 8.0  # from the third hour on; a class keeps some of its own while it is led


class WrongError(AssertionError):
    """Something that must hold did not."""


class Output:
    """An output that keeps what is wanted, and fails now and then."""

    def __init__(self, chance: random.Random) -> None:
        self.wanted: Sequence[Sound] = ()
        self._chance = chance

    def want(self, sounds: Sequence[Sound], now: int) -> None:
        del now
        self.wanted = sounds
        if self._chance.random() < 0.001:
            raise OSError("the device is gone")

    def timed(self, epoch: float, speed: float) -> None:
        """Nothing is heard at any speed."""

    def status(self) -> OutputStatus:
        return OutputStatus(playing=True)

    def close(self) -> None:
        return


class Kept(list[dict[str, object]]):
    """A journal in memory, its lines as a file would give them back."""

    def write(self, line: dict[str, object]) -> None:
        self.append(json.loads(json.dumps(line)))


class Day:
    """One class after the other, and what was counted."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)  # noqa: S311 -- told apart by a seed
        self.scores = [score for name in PLANS if (score := opened(plan(name)).score)]
        self.counted: Counter[str] = Counter()
        self.now = 0

    @property
    def last(self) -> list[str]:
        """What was last done to the class that is led."""
        done = [line for line in self.one.journal if line["kind"] in DONE]
        return [json.dumps(line) for line in done[-LAST:]]

    def lead(self) -> None:
        """Lead one class to its end."""
        chance = self.chance
        score = chance.choice(self.scores)
        settings = Settings(level=chance.choice(["", "ease", "more"]))
        late = chance.random() < 0.3
        must_end = round(score.length * chance.uniform(0.85, 1.1)) if late else None
        one = Class(score, settings, must_end, chance)
        self.one = one
        one.post(Command(Do.BEGIN))
        while one.snapshot.state is not State.FINISHED:
            self.turn(one)
        self.counted["classes"] += 1

    def turn(self, one: "Class") -> None:
        """Let a little time pass, do something to the class now and then, and look at it."""
        chance, before = self.chance, one.clock.now()
        passed = chance.choice([250, 250, 250, 40])
        one.pass_time(passed)
        if chance.random() < passed / EVERY_MS:
            do = chance.choice(CALM)
            self.counted[f"command: {do}"] += 1
            one.post(Command(do, word=chance.choice(["", "ease", "more", ">"])))
        if chance.random() < passed / HOUR_MS:
            one.post(Command(Do.END))
        one.turn()
        self._trouble(one)
        if chance.random() < 0.02:
            picture(one.snapshot, one.runner.now(), chance.choice(SIZES))
            self.counted["pictures"] += 1
        self.counted["turns"] += 1
        self.now += one.clock.now() - before

    def _trouble(self, one: "Class") -> None:
        chance = self.chance.random()
        if chance < 0.00005:
            one.clock.sleep(self.chance.randrange(1_000, 3_600_000))
            self.counted["sleeps"] += 1
        elif chance < 0.0001:
            one.clock.forward(self.chance.randrange(2_500, 20_000))
            self.counted["stalls"] += 1
        elif chance < 0.0002 and one.snapshot.state not in {State.READY, State.FINISHED}:
            one.kill()
            self.counted["kills"] += 1


class Class:
    """A class being led, and how it stood before the last turn."""

    def __init__(
        self, score: Score, settings: Settings, must_end: int | None, chance: random.Random
    ) -> None:
        self.clock = SetClock()
        self.output = Output(chance)
        self.journal = Kept()
        self.written, self.settings, self.must_end = score, settings, must_end
        engine = Engine(score, {}, settings, must_end=must_end)
        self.runner = Runner(engine, self.output, self.journal, self.clock)
        self.begun: set[str] = set()
        self.unequal = unequal(score, self.begun)
        self.queue: list[Command | None] = []

    @property
    def snapshot(self) -> Snapshot:
        return self.runner.snapshot()

    def post(self, command: Command) -> None:
        self.queue.append(command)

    def pass_time(self, ms: int) -> None:
        self.clock.forward(ms)

    def turn(self) -> None:
        """One turn as the runner's thread makes it, and all that must hold after it."""
        commands, self.queue = self.queue, []
        before, asked = self.snapshot, bool(commands)
        while True:  # as the thread does: a fault is told, and the class goes on
            try:
                self.runner.turn(commands)
                break
            except OSError:
                commands = []
        held(self, before, asked)

    def kill(self) -> None:
        """The process dies; the class is taken up from its journal."""
        at = self.runner.now() + 5_000
        broken = Broken(Path(), self.written, "day", self.must_end, WALL, 1.0, tuple(self.journal))
        if not any(line["kind"] == "moment" for line in self.journal):
            return
        here, now = broken.here, broken.now(WALL + timedelta(milliseconds=at))
        engine = resumed(broken, {}, self.settings, "day", now)
        self.runner = Runner(engine, self.output, self.journal, self.clock, at=now)
        stood = self.snapshot.score.moments[self.snapshot.index].id
        if (stood, self.snapshot.state) != (here, State.STOPPED):
            raise WrongError(f"taken up at {stood}, was at {here}")
        self.post(Command(Do.GO_ON))


def unequal(score: Score, begun: set[str]) -> set[str]:
    """Stays that are not as long as one of their mates, where neither was ever begun.

    What was begun may have been changed for one side alone: its mate was led, and cannot follow.
    """
    ahead = {name: hold for name, hold in score.holds.items() if name not in begun}
    return {
        name
        for name, hold in ahead.items()
        for mate in hold.mates
        if mate in ahead and ahead[mate].amount != hold.amount
    }


def held(one: Class, before: Snapshot, asked: bool) -> None:
    """Raise what does not hold after a turn."""
    now, shot = one.runner.now(), one.snapshot
    moments = shot.score.moments
    if shot.now != now or not 0 <= shot.index < len(moments):
        raise WrongError(f"at {shot.now}, moment {shot.index} of {len(moments)}")
    if moments[0].start or any(a.end != b.start for a, b in pairwise(moments)):
        raise WrongError("moments leave a gap")
    if shot.state is State.LEADING:
        _adds_up(shot, now)
        followed = before.state is State.LEADING and shot.index == before.index + 1
        if not asked and followed and abs(shot.entered - (before.leaves or 0)) > 1:
            raise WrongError(f"a gap of {shot.entered - (before.leaves or 0)} ms")
    one.begun.add(moments[shot.index].hold)
    if wrong := unequal(shot.score, one.begun) - one.unequal:
        raise WrongError(f"sides differ: {sorted(wrong)}")
    _sounds(one, shot, now)


def _adds_up(shot: Snapshot, now: int) -> None:
    """The moment that runs has its length, and the end is what is left of the score."""
    moment = shot.score.moments[shot.index]
    leaves = shot.leaves or 0
    if not shot.entered <= now <= leaves:
        raise WrongError(f"{now} lies outside of {shot.entered} to {leaves}")
    if abs(leaves - shot.entered - paced(moment.length, shot.pace)) > 1:
        raise WrongError(f"{moment.id} lasts {leaves - shot.entered} ms")
    left = paced(shot.score.length - moment.end, shot.pace)
    if abs(shot.ends_at - leaves - left) > 1:
        raise WrongError(f"ends at {shot.ends_at}, by its moments at {leaves + left}")


def _sounds(one: Class, shot: Snapshot, now: int) -> None:
    """What is wanted is wanted once, belongs to what is to come, and is nothing when stopped."""
    wanted = one.output.wanted
    if shot.state in {State.STOPPED, State.READY} and wanted:
        raise WrongError(f"{len(wanted)} sounds are wanted while {shot.state}")
    if len({sound.id for sound in wanted}) != len(wanted):
        raise WrongError("a sound is wanted twice")
    index = {moment.id: at for at, moment in enumerate(shot.score.moments)}
    for sound in wanted:
        if sound.start > now and index.get(sound.id.moment, 0) < shot.index:
            raise WrongError(f"{sound.what} of {sound.id.moment} is still to come")
        if sound.stale_after - sound.start > STALE_MS:
            raise WrongError(f"{sound.what} is never stale")


def picture(shot: Snapshot, now: int, size: tuple[int, int]) -> None:
    """Draw the class at a size; no row may be wider than it, and the rows no more than its."""
    width, height = size
    view = look(shot, now)
    rows = board(view, width, height).rows
    if shot.state is State.STOPPED:
        rows = stopped(view, "18:42", width, height)
    broad = [sum(cells(run.text) for run in row) for row in rows]
    if len(rows) > height or any(one > width for one in broad):
        raise WrongError(f"{len(rows)} rows of {max(broad)} at {width} x {height}")


def main() -> int:
    """Lead the day and print what was counted."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--hours", type=float, default=24)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    day, began = Day(asked.seed), time.monotonic()
    process, memory = psutil.Process(), []
    while day.now < asked.hours * HOUR_MS:
        try:
            day.lead()
        except WrongError as wrong:
            print(f"seed {asked.seed}, after {day.now / HOUR_MS:.2f} h: {wrong}")
            for line in day.last:
                print(f"    {line}")
            return 1
        gc.collect()
        memory.append((day.now / HOUR_MS, process.memory_info().rss / 1e6))
    for name, number in sorted(day.counted.items()):
        print(f"{number:>9,}  {name}")
    later = [mb for hour, mb in memory if hour >= min(3.0, asked.hours / 2)]
    growth = later[-1] - later[0]
    print(f"{day.now / HOUR_MS:.1f} hours in {time.monotonic() - began:.0f} s, all held")
    print(f"memory {later[0]:.1f} MB, at the end {later[-1]:.1f} MB: {growth:+.1f} MB")
    return 0 if growth <= GROWTH_MB else 1


if __name__ == "__main__":
    sys.exit(main())
