"""Sound classes made at random, and any plan with its lines and moments side by side."""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from pathlib import Path
from random import Random
from textwrap import indent

from conductor.checks.check import check
from conductor.compiler.compile import compiled
from conductor.findings import Finding
from conductor.plan.reader import read
from conductor.score.model import Moment, Score
from conductor.settings import Settings
from conductor.shapes.catalogue import load
from conductor.shapes.model import Shape
from conductor.sides import Breath
from conductor.timing.cues import cues

PLANS = Path(__file__).parents[3] / "plans"

STANDING = (  # from mountain to mountain, beginning on an inhale and ending on an exhale
    """
    - rounds: {few}
      steps:
        - in: arms overhead
        - out: standing fold
        - in: half lift
        - out: standing fold
        - in: arms overhead
        - out: mountain
    - stay: 1 breath
    """,
    """
    - each side: yes
      steps:
        - in: arms overhead
        - out: standing side bend
        - stay: {few} breaths
        - in: arms overhead
        - out: mountain
    """,
    """
    - each side: yes
      steps:
        - in: tree
        - stay: {some} breaths
          say:
            - first: Foot and leg press against each other.
        - out: mountain
    """,
    """
    - rounds: {few}
      steps:
        - in: chair
        - out: mountain
    - stay: 2 breaths
    """,
    """
    - in: arms overhead
    - out: standing fold
    - stay: {some} breaths
      say: Let the head hang.
    - in: half lift
    - out: standing fold
    - in: arms overhead
    - out: mountain
    """,
)
DOG = (  # from downward dog to downward dog
    """
    - each side: yes
      steps:
        - in: three-legged dog
        - out: low lunge
          say: Step your <side> foot between your palms.
        - in: crescent lunge
        - out: warrior two
        - stay: {some} breaths
          may stretch: yes
        - in: reverse warrior
        - out: side angle
        - in: plank
        - out: low plank
        - in: upward dog
        - out: downward dog
        - stay: 2 breaths
    """,
    """
    - each side: yes
      steps:
        - in: three-legged dog
        - out: runner's lunge
          say: Step your <side> foot between your palms.
        - in: low lunge
        - stay: {few} breaths
        - out: half split
        - in: plank
        - out: downward dog
        - stay: 1 breath
    """,
    """
    - each side: yes
      steps:
        - in: three-legged dog
        - out: knee to nose
        - in: three-legged dog
        - out: downward dog
        - stay: {few} breaths
    """,
    """
    - rounds: {few}
      steps:
        - in: plank
        - out: low plank
        - in: upward dog
        - out: downward dog
    - stay: {some} breaths
      say:
        - first: Press the floor away.
    """,
)
FLOOR = (  # from staff to staff
    """
    - in: staff with arms overhead
    - out: seated fold
    - stay: {some} breaths
      may stretch: yes
    - in: staff
    - out: same
    """,
    """
    - each side: yes
      steps:
        - free: 12 s
          to: half lord of the fishes
          say: Right foot outside the left knee, and sit tall.
        - in: same
        - out: same
          say: And turn.
        - stay: {some} breaths
        - in: staff
        - out: same
    """,
)
CLASS = """plan: 1
title: Made at Random
kind: class
breath: {breath}
first side: {first}
parts:
  - part: Arrive
    steps:
      - come to: easy seat
        over: 2 breaths
        say: Sit tall, and let the breath arrive.
      - stay: 6 breaths
  - part: Warm up
    steps:
      - come to: all fours
        over: 2 breaths
        say: Come to hands and knees.
      - rounds: {some}
        steps:
          - in: cow
          - out: cat
      - in: all fours
      - out: child's pose
      - stay: 3 breaths
      - in: all fours
      - out: downward dog
      - stay: {some} breaths
  - part: Move
    steps:
{first_dogs}      - in: half lift
        say: Step to the top of the mat, half lift.
      - out: standing fold
      - in: arms overhead
      - out: mountain
      - stay: 1 breath
{standing}      - in: arms overhead
      - out: standing fold
      - in: half lift
      - out: downward dog
      - stay: 1 breath
{dogs}      - in: all fours
      - out: child's pose
      - stay: {some} breaths
  - part: Sit
    steps:
      - free: 20 s
        to: staff
        say: Come to sit, both legs long.
      - stay: 2 breaths
{floor}  - part: Rest
    steps:
      - free: 40 s
        to: final rest
        say: Take your time to lie down on your back.
      - stay: 6 min
        may stretch: 5 to 7 min
        speak: nothing
      - bell: 1
"""


def _some(chance: Random, blocks: tuple[str, ...], least: int, most: int) -> str:
    chosen = chance.sample(blocks, chance.randint(least, min(most, len(blocks))))
    text = ""
    for block in chosen:
        lines = [line[4:] for line in block.strip("\n").splitlines()]
        body = "\n".join(lines).rstrip() + "\n"
        text += body.replace("{few}", str(chance.randint(2, 3))).replace(
            "{some}", str(chance.randint(3, 5))
        )
    return indent(text, " " * 6)


def made(chance: Random) -> str:
    """A whole sound class, put together at random from passages that fit each other."""
    return CLASS.format(
        breath=chance.choice(["4 s in, 4 s out", "4 s in, 5 s out", "5 s in, 5 s out"]),
        first=chance.choice(["right", "left"]),
        some=chance.randint(3, 5),
        first_dogs=_some(chance, DOG, 0, 1),
        standing=_some(chance, STANDING, 2, 5),
        dogs=_some(chance, DOG, 1, 4),
        floor=_some(chance, FLOOR, 1, 2),
    )


def shipped() -> tuple[str, ...]:
    """The plans that come with the program, without a length, so that there is room to plant."""
    texts = [path.read_text("utf-8") for path in sorted(PLANS.glob("*.yaml"))]
    return tuple(
        "".join(line for line in text.splitlines(True) if not line.startswith("length:"))
        for text in texts
    )


@dataclass(frozen=True)
class Slot:
    """A place to put steps in: after line `after` (from 1), indented by `depth` blanks."""

    after: int
    depth: int
    moment: Moment


@dataclass(frozen=True)
class Field:
    """A plan to plant in: its text with what the compiler and the check make of it."""

    text: str

    @cached_property
    def lines(self) -> list[str]:
        return self.text.splitlines()

    @cached_property
    def _made(self) -> tuple[Score | None, tuple[Finding, ...], dict[str, Shape]]:
        plan, findings = read(self.text, "plan.yaml")
        if plan is None:
            return None, findings, {}
        done = compiled(plan, load())
        findings += done.findings
        if done.score is None:
            return None, findings, {}
        spoken, _ = cues(done.score, {}, Settings())
        findings += check(done.score, spoken, done.shapes)
        return done.score, findings, dict(done.shapes)

    @property
    def score(self) -> Score:
        score = self._made[0]
        assert score is not None, self._made[1]
        return score

    @property
    def findings(self) -> tuple[Finding, ...]:
        return self._made[1]

    @property
    def shapes(self) -> dict[str, Shape]:
        return self._made[2]

    def depth(self, line: int) -> int:
        """The indentation of a line (from 1)."""
        text = self.lines[line - 1]
        return len(text) - len(text.lstrip())

    def end(self, line: int) -> int:
        """The last line of the step that begins on a line."""
        depth, last = self.depth(line), line
        for number in range(line + 1, len(self.lines) + 1):
            text = self.lines[number - 1].strip()
            if text and self.depth(number) <= depth:
                break
            if text:
                last = number
        return last

    def step(self, line: int) -> list[str]:
        """The lines of the step that begins on a line."""
        return self.lines[line - 1 : self.end(line)]

    @cached_property
    def slots(self) -> list[Slot]:
        """Places where an exhale has ended, outside passages, led once, before an inhale."""
        moments = self.score.moments
        led: dict[int, int] = {}
        for before, moment in zip((None, *moments), moments, strict=False):
            if before is None or before.origin != moment.origin:
                led[moment.origin.line] = led.get(moment.origin.line, 0) + 1
        found = []
        for moment, after in pairwise(moments):
            line = moment.origin.line
            if (
                moment.breath is Breath.OUT
                and after.breath is Breath.IN
                and moment.origin != after.origin
                and moment.pass_side is None
                and led[line] == 1
                and "- " in self.lines[line - 1]
            ):
                found.append(Slot(self.end(line), self.depth(line), moment))
        return found

    def at(self, *shapes: str) -> list[Slot]:
        """Places to plant in one of these shapes."""
        return [slot for slot in self.slots if slot.moment.shape in shapes]

    def put(self, slot: Slot, steps: str) -> tuple[str, int]:
        """The text with steps put in, and the line of the first of them."""
        lines = self.lines.copy()
        lines[slot.after : slot.after] = indent(steps.strip("\n"), " " * slot.depth).splitlines()
        return "\n".join(lines) + "\n", slot.after + 1

    def changed(self, line: int, new: list[str], until: int | None = None) -> str:
        """The text with the lines from `line` to `until` replaced."""
        lines = self.lines.copy()
        lines[line - 1 : until or line] = new
        return "\n".join(lines) + "\n"
