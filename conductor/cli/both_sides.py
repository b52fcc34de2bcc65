"""A voice that can say each cue for the class's side and for its teacher's mirrored one."""

from array import array
from collections.abc import Collection, Mapping

from conductor.cli.mouth import Mouth
from conductor.progress import Progress
from conductor.score.model import Lengths, Saying, Score
from conductor.view.glass import Glass
from conductor.view.mirror import heard, heard_as


class BothSides:
    """A mouth over another: what it is asked to say is the class's, what is heard is the glass's.

    So engine, score and journal know nothing of a mirror, and it can be turned in mid-class.
    """

    def __init__(self, mouth: Mouth, score: Score, glass: Glass) -> None:
        self._mouth = mouth
        self._glass = glass
        self._known: Mapping[str, str] = heard(score)

    @property
    def status(self) -> str:
        """What is the matter, "" when nothing."""
        return self._mouth.status

    @property
    def troubles(self) -> list[str]:
        """Single cues that stay silent, and why."""
        return self._mouth.troubles

    def prepare(self, wanted: Collection[Saying], progress: Progress) -> Lengths:
        """Render both; a cue counts as long as the longer of its two."""
        mirrored = {one: heard_as(one, self._known) for one in wanted}
        found = self._mouth.prepare({*wanted, *mirrored.values()}, progress)
        both = {one: (found[one], found.get(mirrored[one], 0)) for one in wanted if one in found}
        return {**found, **{one: max(lengths) for one, lengths in both.items()}}

    def pcm(self, saying: Saying) -> "array[int] | None":
        """Give the samples of the side that is said now."""
        mirrored = self._glass.now.cues
        return self._mouth.pcm(heard_as(saying, self._known) if mirrored else saying)

    def close(self) -> None:
        """Let go of what is held."""
        self._mouth.close()


def over(mouth: Mouth, score: Score, glass: Glass) -> BothSides:
    """The mouth for both sides; one that is so already stays as it is."""
    return mouth if isinstance(mouth, BothSides) else BothSides(mouth, score, glass)
