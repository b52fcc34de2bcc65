"""A small class as the compiler makes it, and snapshots of it, for the front ends to show."""

from functools import cache

from conductor.engine.model import Do, Reply, Snapshot, State
from conductor.score.model import Score
from conductor.values import replace
from tests.support import score_of

PLAN = """\
plan: 1
title: Tide Table
for: mixed level
props: [two blocks]
breath: 4 s in, 4 s out
parts:
  - part: Arrive
    steps:
      - free: 8 s
        to: mountain
      - in: arms overhead
      - out: standing fold
      - in: plank
      - out: downward dog
  - part: Stand
    steps:
      - each side: yes
        steps:
          - in: crescent lunge
            ease: back knee down
            note: look for the back heels
          - out: warrior two
            with: arms wide
            turn: long side
          - stay: 5 breaths
            may stretch: 3 to 8 breaths
            say:
              - first: Sink the hips.
          - in: plank
          - out: downward dog
  - part: Rest
    steps:
      - free: 40 s
        of: [cow, cat]
      - free: 8 s
        to: child's pose
      - free: 20 s
        to: final rest
      - stay: 5 min
        may stretch: 4 to 10 min
"""


@cache
def build() -> Score:
    """Arms up, fold; a lunge and warrior two stayed in on the right, then on the left; rest."""
    return score_of(PLAN)


def snap(index: int, into: int = 0, state: State = State.LEADING, **more: object) -> Snapshot:
    """The class at moment `index`, `into` ms after it was entered, begun at now = 1000."""
    score = build()
    here = score.moments[index]
    entered = 1000 + here.start
    values: dict[str, object] = {
        "state": state,
        "now": entered + into,
        "score": score,
        "index": index,
        "entered": entered,
        "leaves": entered + here.length,
        "pace": 1000,
        "pass_no": 1,
        "held": 0,
        "ends_at": 1000 + score.length,
        "planned_end": 1000 + score.length,
        "offers": frozenset({Do.STOP, Do.SILENCE, Do.HOLD, Do.NEXT, Do.BACK, Do.END, Do.LEVEL}),
        "begun": 1000,
    }
    return Snapshot(**{**values, **more})  # type: ignore[arg-type]


def refusing(snapshot: Snapshot, words: str) -> Snapshot:
    return replace(snapshot, reply=Reply(False, words))
