"""One voice at several paces: cues that must hurry are rendered a little faster than the others."""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterable

from conductor.progress import Progress, silent
from conductor.score.model import Lengths, Saying
from conductor.voice.manner import RATES_WPM
from conductor.voice.render import Renderer


class Paces:
    """A renderer for each pace, made when it is first wanted; together they are one voice.

    `at` makes the renderer of a rate (words a minute). A pace beyond what the voice can do is
    taken as the fastest there is. Recordings cannot hurry: a faster renderer has none.
    """

    rate_hz = Renderer.rate_hz

    def __init__(self, usual: Renderer, at: Callable[[int], Renderer]) -> None:
        self._usual = usual
        self._at = at
        self._faster: dict[int, Renderer] = {}

    @property
    def status(self) -> str:
        """What is the matter with the voice; "" while there is one."""
        return self._usual.status

    @property
    def troubles(self) -> list[str]:
        """Single cues that stay silent, and why."""
        return [*self._usual.troubles, *(one for f in self._faster.values() for one in f.troubles)]

    def check(self) -> None:
        """Refuse a voice that is not there."""
        self._usual.check()

    def prepare(self, wanted: Iterable[Saying], progress: Progress = silent) -> Lengths:
        """Render what is missing and measure all of it (ms), each saying at its pace."""
        sayings = list(dict.fromkeys(wanted))
        paces: dict[int, list[Saying]] = {}
        for saying in sayings:
            paces.setdefault(saying.hurry, []).append(saying)
        lengths: dict[Saying, int] = {}
        before = 0
        for hurry, some in sorted(paces.items()):

            def told(done: int, total: int, before: int = before) -> None:
                del total
                progress(min(before + done, len(sayings)), len(sayings))

            lengths.update(self._renderer(hurry).prepare(some, told))
            before += len(some)
        progress(len(sayings), len(sayings))
        return lengths

    def pcm(self, saying: Saying) -> array[int] | None:
        """Its samples, or None when it was not rendered."""
        return self._renderer(saying.hurry).pcm(saying)

    def close(self) -> None:
        """Let go of what is held in memory."""
        for renderer in (self._usual, *self._faster.values()):
            renderer.close()

    def _renderer(self, hurry: int) -> Renderer:
        if not hurry:
            return self._usual
        if hurry not in self._faster:
            rate = self._usual.manner.rate * (100 + hurry) // 100
            self._faster[hurry] = self._at(min(rate, RATES_WPM[-1]))
        return self._faster[hurry]
