"""A class being led, as the front ends see it."""

import contextlib
import queue
from collections.abc import Sequence
from typing import TYPE_CHECKING

from conductor import store
from conductor.engine.model import Command, Happening, Snapshot
from conductor.run.runner import Runner, line_of
from conductor.score.model import Score
from conductor.sound.player import OPENING
from conductor.values import replace

if TYPE_CHECKING:  # what only a class that begins needs comes after the first picture
    from conductor.run.journal import FileJournal
    from conductor.view.after import After

Line = dict[str, object]
UNREAD = 100  # turns of the runner whose news are kept while nobody reads them


class Led:
    """A class being led, as the front ends see it: the runner and everything that hangs on it."""

    def __init__(
        self,
        runner: Runner,
        journal: "FileJournal | None",
        clean: contextlib.ExitStack,
        score: Score,
        before: Sequence[Line],
    ) -> None:
        self._runner = runner
        self._score = score
        self._journal = journal
        self._clean = clean
        self._before = before  # the line it was opened with, and those before it broke off
        self._happened: list[Happening] = []
        self._news: queue.SimpleQueue[tuple[Happening, ...]] = queue.SimpleQueue()
        runner.listen(self._heard)

    def _heard(self, happened: tuple[Happening, ...], snapshot: Snapshot) -> None:
        del snapshot
        self._happened += happened
        while self._news.qsize() >= UNREAD:  # the screens never read them
            self._news.get_nowait()
        self._news.put(happened)

    def snapshot(self) -> Snapshot:
        """The newest picture."""
        return self._runner.snapshot()

    def now(self) -> int:
        """The class's clock, ms."""
        return self._runner.now()

    def post(self, command: Command) -> None:
        """Hand in a command."""
        self._runner.post(command)

    def trouble(self) -> str:
        """What is the matter with sound or journal; "" when all is well."""
        sound = self._runner.sound().words
        opening = sound == OPENING  # at every start, and over in a moment
        kept = self._journal.trouble if self._journal else ""
        return ("" if opening else sound) or kept or self._runner.trouble

    def after(self) -> "After":
        """How it went, beside the classes of the same plan that were kept."""
        from conductor.run.review.kept import earlier  # noqa: PLC0415 -- only once it is over
        from conductor.run.review.tally import review  # noqa: PLC0415 -- as above
        from conductor.run.review.wishes import Reviewed  # noqa: PLC0415 -- as above
        from conductor.run.review.words import after  # noqa: PLC0415 -- as above

        lines: list[Line] = [*self._before, *map(line_of, self._happened)]
        now = Reviewed(review(lines[0], lines[1:], self._score), self._score)
        try:
            others = earlier(store.journals(), now.review)
        except OSError:  # this class can be told of without them
            others = ()
        return replace(after(now, others), kept=self._journal is not None)

    def news(self, seconds: float) -> Sequence[Happening]:
        """Wait until something happened, at most so long; what is new since last asked."""
        told: list[Happening] = []
        with contextlib.suppress(queue.Empty):
            told += self._news.get(timeout=seconds)
            while True:
                told += self._news.get_nowait()
        return told

    def wait(self, seconds: float) -> bool:
        """Wait until the class is over."""
        return self._runner.wait(seconds)

    def close(self) -> None:
        """Shut down in order."""
        self._clean.close()
