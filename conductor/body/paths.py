"""The shortest way through stances in between, for hints."""

from collections import deque
from collections.abc import Mapping

from conductor.body.ways import way
from conductor.stance import Stance


def _search(
    before: Stance, after: Stance, candidates: Mapping[str, Stance], effort: int
) -> tuple[str, ...] | None:
    todo: deque[tuple[Stance, tuple[str, ...]]] = deque([(before, ())])
    left = dict(candidates)
    while todo:
        here, trail = todo.popleft()
        last = way(here, after)
        if last.possible and last.effort <= effort:
            return trail
        for name, stance in list(left.items()):
            found = way(here, stance)
            if found.possible and found.effort <= effort:
                del left[name]
                todo.append((stance, (*trail, name)))
    return None


def shortest(before: Stance, after: Stance, candidates: Mapping[str, Stance]) -> tuple[str, ...]:
    """Names of the stances to pass, fewest first and each step within half a breath if that can be.

    Empty when the way is open without one, and when there is none.
    """
    for effort in (1, 2):
        trail = _search(before, after, candidates, effort)
        if trail is not None:
            return trail
    return ()
