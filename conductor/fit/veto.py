"""What the check has against a fit: nothing that is led may go wrong for the sake of the minute."""

from collections.abc import Mapping

from conductor.checks.check import check, switched
from conductor.checks.needs import bare
from conductor.findings import Weight
from conductor.score.model import Lengths, Score
from conductor.settings import Settings
from conductor.shapes.model import Shape
from conductor.spans import Span
from conductor.timing.cues import cues
from conductor.timing.model import Refit
from conductor.timing.refit import Veto, refit

_HEAVY = (Weight.ERROR, Weight.WARNING)
NOWHERE = Span("", 0, 0)

Wrong = frozenset[tuple[str, str, Span | None]]


class Checked:
    """A refitting that never makes the check warn of what it did not warn of before.

    Nor does it leave bare a shape that something prepared or undid, be that only custom. `lengths`
    and `settings` are those of the class, since words must still fit their breaths.
    """

    def __init__(
        self, shapes: Mapping[str, Shape], lengths: Lengths, settings: Settings, level: str = ""
    ) -> None:
        self._shapes, self._lengths = shapes, lengths
        self._settings, self._level = settings, level
        self._known: tuple[Score, Wrong] | None = None

    def __call__(
        self, score: Score, at: int, left_ms: int, done: int, /, *, passages: bool = True
    ) -> Refit:
        """Fit what is left of a class to a time."""
        return refit(score, at, left_ms, done, passages=passages, veto=self.veto)

    def know(self, score: Score) -> None:
        """Look at a class before it begins, so that its first fit has not to wait for that."""
        if all(moment.shape in self._shapes for moment in score.moments):
            self._known = score, self._wrong(score)

    def veto(self, before: Score, after: Score) -> frozenset[Span]:
        """The places where a class would go wrong that did not; one nowhere if none is known."""
        if any(moment.shape not in self._shapes for moment in after.moments):
            fewer = len({one.drop for one in after.moments}) < len({m.drop for m in before.moments})
            return frozenset({NOWHERE}) if fewer else frozenset()
        if self._known is None or self._known[0] is not before:
            self._known = before, self._wrong(before)
        new = self._wrong(after) - self._known[1]
        return frozenset(span or NOWHERE for _, _, span in new)

    def _wrong(self, score: Score) -> Wrong:
        said, _ = cues(score, self._lengths, self._settings, self._level)
        found = {
            (one.rule, str(one.weight), one.span)
            for one in check(score, said, self._shapes)
            if one.weight in _HEAVY
        }
        return bare(score, self._shapes, switched(score.meta.options)) | found


def watched(shapes: Mapping[str, Shape]) -> Veto:
    """What the check has against leaving something out, before a voice has been measured."""
    return Checked(shapes, {}, Settings()).veto
