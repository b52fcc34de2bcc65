"""Classes led virtually, and the journals they leave."""

import json
from collections.abc import Sequence
from pathlib import Path

from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do
from conductor.run.review.model import Review
from conductor.run.review.tally import review
from conductor.run.review.wishes import Reviewed
from conductor.run.runner import line_of
from conductor.score.form import to_json
from conductor.score.model import Score
from conductor.settings import Settings
from tests.support import score_of

PLAN = """\
plan: 1
title: Tide
breath: 4 s in, 4 s out
parts:
  - part: Stand
    steps:
      - come to: mountain
      - in: arms overhead
      - out: standing fold
      - in: plank
      - out: downward dog
      - each side: yes
        steps:
          - in: three-legged dog
          - out: low lunge
          - in: crescent lunge
          - out: warrior two
            turn: long side
          # five and no more
          - stay: 5 breaths   # both sides
          - in: plank
          - out: downward dog
          - stay: 1 breath
  - part: Rest
    steps:
      - in: same
      - out: child's pose
      - stay: 2 breaths
      - free: 20 s
        to: final rest
      - stay: 2 min
"""
TIDE: Score = score_of(PLAN)
STAY = {"right": "1/6:right/5", "left": "1/6:left/5"}
WALL = "2026-01-05T18:00:00+01:00"

Line = dict[str, object]


def opened(score: Score, **more: object) -> Line:
    """The first line of a journal."""
    return {
        "kind": "opened",
        "version": "1",
        "title": score.meta.title,
        "plan": "/plans/tide.yaml",
        "wall": WALL,
        "speed": 1.0,
        "rehearsal": False,
        "must_end": None,
        **more,
    }


class Room:
    """A class led by the real engine in no time; what happened stays in `told`."""

    def __init__(self, score: Score = TIDE, must_end: int | None = None) -> None:
        self.score = score
        self.engine = Engine(score, {}, Settings(), must_end=must_end)
        self.now = 0
        self.told: list[Line] = []
        self.do(Do.BEGIN)

    def do(self, what: Do, ms: int = 0) -> None:
        """Ask for something now; it must be taken."""
        reply = self.engine.command(Command(what, ms), self.now)
        assert reply.done, reply
        self._hear()

    def wait(self, ms: int) -> None:
        """Let time pass."""
        self.now += ms
        self._hear()

    def to(self, moment: str, into: int = 0) -> None:
        """Let time pass until some ms after a moment has been entered."""
        while not any(line.get("moment") == moment for line in self.told if _entered(line)):
            due = self.engine.next_deadline()
            assert due is not None, f"{moment} never came"
            self.now = max(due, self.now)
            self._hear()
        self.wait(into)

    def out(self) -> "Room":
        """Lead to the end."""
        while (due := self.engine.next_deadline()) is not None:
            self.now = max(due, self.now)
            self._hear()
        return self

    def _hear(self) -> None:
        self.told += [line_of(one) for one in self.engine.advance(self.now)]

    @property
    def review(self) -> Review:
        """What is counted of it."""
        return self.reviewed().review

    def reviewed(self, **more: object) -> Reviewed:
        """The same, beside the score."""
        return Reviewed(review(opened(self.score, **more), self.told, self.score), self.score)

    def keep(self, folder: Path, name: str, **more: object) -> Path:
        """Write the journal and the score beside it, as a class does."""
        path = folder / f"{name}.jsonl"
        write(path, [opened(self.score, **more), *self.told])
        path.with_suffix(".score.json").write_text(to_json(self.score), "utf-8")
        return path


def write(path: Path, lines: Sequence[Line]) -> None:
    """Write a journal's lines as they are written in class."""
    text = "".join(json.dumps(line, separators=(",", ":")) + "\n" for line in lines)
    path.write_text(text, "utf-8")


def _entered(line: Line) -> bool:
    return line.get("kind") == "moment"
