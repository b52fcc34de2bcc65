"""How score time maps to now: one fixed point and a pace."""

from conductor.values import Struct


def paced(ms: int, pace: int) -> int:
    """How long `ms` of the score take at a pace per mille, rounded up to whole ms."""
    return -(-ms * pace // 1000)


class Anchor(Struct, frozen=True):
    """The score stands at `score` when it is `now`; both ms, `pace` per mille.

    `now_at` rounds up and `score_at` down, so `s <= score_at(t)` exactly when `now_at(s) <= t`:
    asking either way round never disagrees about what is due.
    """

    now: int
    score: int
    pace: int = 1000

    def now_at(self, score: int) -> int:
        """The now at which the score stands there; also before the fixed point."""
        return self.now + paced(score - self.score, self.pace)

    def score_at(self, now: int) -> int:
        """Where the score stands at that now."""
        return self.score + (now - self.now) * 1000 // self.pace
