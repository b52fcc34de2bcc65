"""Children at work: jobs shared out, each with a time limit and one more try in a fresh process."""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from typing import Any

from conductor.voice.manner import VoiceError
from conductor.voice.process import COMMAND, Child, ChildGoneError

_PER_LETTER_S = 0.02
_GIVE_UP_AFTER = 5  # failures in a row: it is the engine then, not the cue


class NoVoiceError(Exception):
    """No speech can be had at all; the words say why."""


@dataclass(frozen=True, slots=True)
class Job:
    """One text to render, or one recording to take in, under a key."""

    key: str
    text: str
    source: Path | None = None
    volume: float = 1.0

    def question(self, part: Path, even_odd: bool) -> dict[str, Any]:
        """What the child is asked."""
        told: dict[str, Any]
        if self.source is not None:
            told = {"do": "take", "source": str(self.source)}
        else:
            told = {"do": "render", "text": self.text, "even_odd": even_odd}
        return {**told, "part": str(part), "volume": self.volume}


@dataclass(frozen=True, slots=True)
class Done:
    """What became of a job: `part` holds it, or `trouble` says why not. `full`: no room on disk."""

    job: Job
    part: Path | None = None
    trouble: str = ""
    full: bool = False


class Bench:
    """One child and its work, remade whenever the child dies, hangs or renders oddly.

    `start` says which engine to load; None for work that needs none.
    """

    def __init__(
        self,
        start: Mapping[str, object] | None,
        part: Callable[[], Path],
        patience_s: float,
        command: Sequence[str] = COMMAND,
    ) -> None:
        self._start, self._part = start, part
        self._patience_s, self._command = patience_s, command
        self._child: Child | None = None
        self._ended = False

    def ask(self, limit_s: float | None = None, **question: Any) -> Mapping[str, Any]:
        """The answer of a child that was started; ChildGoneError, VoiceError or NoVoiceError."""
        child = self._child or self._started()
        try:
            return child.ask(limit_s or self._patience_s, **question)
        except ChildGoneError:
            self._child = None
            raise

    def do(self, job: Job) -> Done:
        """Try, and once more in a fresh process."""
        first = self._try(job, even_odd=False)
        if first.part is not None or first.full:
            return first
        self.close()
        return self._try(job, even_odd=True)

    def close(self) -> None:
        """End the child; another is started when there is more to do."""
        child, self._child = self._child, None
        if child is not None:
            child.close()

    def kill(self) -> None:
        """End the child now, from any thread, and start no other."""
        self._ended = True
        child, self._child = self._child, None
        if child is not None:
            child.kill()

    def _try(self, job: Job, *, even_odd: bool) -> Done:
        part = self._part()
        limit_s = self._patience_s + len(job.text) * _PER_LETTER_S
        try:
            answer = self.ask(limit_s, **job.question(part, even_odd))
        except ChildGoneError as error:
            answer = {"ok": False, "words": f"the voice process: {error}"}
        if answer["ok"]:
            return Done(job, part)
        with suppress(OSError):
            part.unlink(missing_ok=True)
        return Done(job, None, str(answer["words"]), answer.get("kind") == "full")

    def _started(self) -> Child:
        """A child ready to work; one that dies while it starts is started once more."""
        try:
            try:
                return self._start_once()
            except ChildGoneError:
                return self._start_once()
        except ChildGoneError as error:
            self._child = None
            raise NoVoiceError(f"the voice process does not start: {error}") from error
        except OSError as error:
            raise NoVoiceError(f"the voice process cannot be started: {error}") from error

    def _start_once(self) -> Child:
        child = self._child = Child(self._command)
        if self._ended:
            self.kill()
        if self._start is None:
            return child
        answer = child.ask(self._patience_s, do="start", **self._start)
        if answer["ok"]:
            return child
        self.close()
        raise self._refused(answer)

    def _refused(self, answer: Mapping[str, Any]) -> VoiceError | NoVoiceError:
        if answer["kind"] == "unknown voice":
            near = f"Nearest: {', '.join(answer['near'])}." if answer["near"] else ""
            return VoiceError(f"there is no voice {answer['words']!r}", near)
        if self._start is not None and self._start["engine"] == "natural":
            return VoiceError(str(answer["words"]).rstrip("."))  # it was asked for by name
        return NoVoiceError(str(answer["words"]))


class Pool:
    """Several benches on one list of jobs, first wanted first done."""

    def __init__(self, benches: Sequence[Bench]) -> None:
        self._benches = benches
        self._jobs: deque[Job] = deque()
        self._results: SimpleQueue[Done | BaseException | None] = SimpleQueue()

    def work(self, jobs: Iterable[Job], each: Callable[[Done], None]) -> None:
        """Call `each` (here, in this thread) with every result; raise what ends all of it."""
        self._jobs.extend(jobs)
        threads = [
            threading.Thread(target=self._run, args=(bench,), name="voice-bench", daemon=True)
            for bench in self._benches
        ]
        for thread in threads:
            thread.start()
        try:
            self._gather(len(threads), each)
        except BaseException:
            self._jobs.clear()
            for bench in self._benches:
                bench.kill()
            raise
        finally:
            for thread in threads:
                thread.join()
            self._drop_rest()

    def _drop_rest(self) -> None:
        while not self._results.empty():
            left = self._results.get()
            if isinstance(left, Done) and left.part is not None:
                left.part.unlink(missing_ok=True)

    def _gather(self, running: int, each: Callable[[Done], None]) -> None:
        failures = 0
        while running:
            result = self._results.get()
            if result is None:
                running -= 1
            elif isinstance(result, BaseException):
                raise result
            else:
                each(result)
                failed = result.part is None and result.job.source is None
                failures = failures + 1 if failed else 0
                if failures >= _GIVE_UP_AFTER:
                    raise NoVoiceError(f"the voice keeps failing: {result.trouble}")

    def _run(self, bench: Bench) -> None:
        try:
            while self._jobs:
                with suppress(IndexError):
                    self._results.put(bench.do(self._jobs.popleft()))
        except BaseException as error:  # noqa: BLE001 - raised again where it is gathered
            self._results.put(error)
        finally:
            self._results.put(None)
