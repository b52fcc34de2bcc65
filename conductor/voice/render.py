"""All speech of a class, rendered before it begins; in class a cue is a buffer from the cache."""

from __future__ import annotations

import hashlib
import shutil
import sys
import tempfile
import threading
import weakref
from array import array
from collections import OrderedDict
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from functools import lru_cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from conductor.progress import Progress, silent
from conductor.run.ports import Voice
from conductor.score.model import Lengths, Saying
from conductor.voice import pcm
from conductor.voice.cache import Cache, key_of, no_room
from conductor.voice.loudness import TARGET_LUFS
from conductor.voice.manner import RATES_WPM, Manner
from conductor.voice.natural import installed_model
from conductor.voice.pool import Bench, Done, Job, NoVoiceError, Pool
from conductor.voice.process import COMMAND, ChildGoneError
from conductor.voice.recordings import Recordings
from conductor.voice.text import spoken

PATIENCE_S = 10.0
_SECOND_CHILD_FROM = 12  # fewer cues are done before a second child is up
_IN_MEMORY = 8  # what may sound in the next seconds; an hour of cues is 50 MB
_PACE_TOLERANCE = 0.05
_PACE_TRIES = 3


class Renderer(Voice):
    """Renders what is missing, measures all of it, hands out samples at `rate_hz`.

    `status` is "" while there is a voice, else what is the matter; `troubles` are single cues
    that stay silent, and why. `cache` is a folder of its own. Raises VoiceError for a rate or
    engine that cannot be had; `prepare` and `check` raise it for an unknown voice.
    """

    rate_hz = pcm.RATE_HZ

    def __init__(
        self,
        cache: Path,
        lexicon: Mapping[str, str],
        manner: Manner | None = None,
        *,
        recordings: Path | None = None,
        patience_s: float = PATIENCE_S,
        command: Sequence[str] = COMMAND,
    ) -> None:
        self.manner = manner or Manner()
        self.manner.check()
        self.status = ""
        self.troubles: list[str] = []
        self.delivered_wpm: float | None = None
        self._lexicon = dict(lexicon)
        self._patience_s, self._command = patience_s, command
        self._cache = self._made(cache)
        self._recordings = Recordings(recordings) if recordings else None
        self.troubles += self._recordings.troubles if self._recordings else []
        self._unusable: set[Path] = set()
        self._facts = _manner_facts(self.manner)
        self._spoken: dict[Saying, str] = {}
        self._loaded: OrderedDict[str, array[int]] = OrderedDict()
        self._lock = threading.Lock()

    def check(self) -> None:
        """Refuse a voice that is not there, by asking for it; VoiceError says what is near."""
        bench = self._bench(self.manner.rate)
        try:
            bench.ask(do="voices")
        except (NoVoiceError, ChildGoneError) as error:
            self.status = str(error)
        finally:
            bench.close()

    def prepare(self, wanted: Iterable[Saying], progress: Progress = silent) -> Lengths:
        """Render what is missing and measure all of it (ms); absent ones could not be rendered."""
        self.status = ""
        sayings = list(dict.fromkeys(wanted))
        lengths: dict[str, int] = {}
        taken = [job for job in map(self._job, sayings) if job and job.source]
        missing = [*self._missing(taken, lengths), *self._missing(self._texts(sayings), lengths)]
        total = len(lengths) + len(missing)
        progress(total - len(missing), total)
        if missing:
            self._all(taken, sayings, lengths, _Count(progress, total - len(missing), total))
            self._cache.prune()
        jobs = ((saying, self._job(saying)) for saying in sayings)
        return {saying: lengths[job.key] for saying, job in jobs if job and job.key in lengths}

    def pcm(self, saying: Saying) -> array[int] | None:
        """Its samples, or None when it was not rendered or there is nothing to pronounce."""
        job = self._job(saying)
        if job is None:
            return None
        with self._lock:
            samples = self._loaded.pop(job.key, None) or self._cache.load(job.key)
            if samples:
                self._loaded[job.key] = samples
                if len(self._loaded) > _IN_MEMORY:
                    self._loaded.popitem(last=False)
        return samples

    def close(self) -> None:
        """Nothing runs between two calls of `prepare`; what is held in memory is let go."""
        with self._lock:
            self._loaded.clear()

    def _all(
        self, taken: list[Job], sayings: list[Saying], lengths: dict[str, int], count: _Count
    ) -> None:
        try:
            self._work([self._bench(None)], self._missing(taken, lengths), lengths, count)
            texts = self._missing(self._texts(sayings), lengths)  # with those whose take failed
            if texts:
                self._work(self._benches(len(texts)), texts, lengths, count)
        except (NoVoiceError, ChildGoneError) as error:
            rest = sum(job.key not in lengths for job in self._texts(sayings))
            self.status = f"{error}; {rest} cues are shown and not spoken"

    def _work(
        self, benches: list[Bench], jobs: list[Job], lengths: dict[str, int], count: _Count
    ) -> None:
        def each(done: Done) -> None:
            self._take(done, lengths)
            count.one()

        try:
            Pool(benches).work(jobs, each)
        finally:
            for bench in benches:
                bench.close()

    def _take(self, done: Done, lengths: dict[str, int]) -> None:
        trouble, full = done.trouble, done.full
        if done.part is not None:
            try:
                lengths[done.job.key] = pcm.length_ms(self._cache.keep(done.part, done.job.key))
            except (OSError, pcm.DamagedError) as error:
                trouble, full = str(error), no_room(error)
                with suppress(OSError):
                    done.part.unlink(missing_ok=True)
        if full:
            raise NoVoiceError(f"the disk of {self._cache.folder} is full")
        if trouble and done.job.source:
            self._unusable.add(done.job.source)
            self.troubles.append(f"{done.job.source}: {trouble}; the rendered voice speaks instead")
        elif trouble:
            self.troubles.append(f'"{done.job.text}" stays silent: {trouble}')

    def _texts(self, sayings: Iterable[Saying]) -> list[Job]:
        jobs = (self._job(saying) for saying in sayings)
        return [job for job in jobs if job and not job.source]

    def _missing(self, jobs: Iterable[Job], lengths: dict[str, int]) -> list[Job]:
        missing = {}
        for job in jobs:
            if job.key in lengths:
                continue
            samples = self._cache.load(job.key)
            if samples is None:
                missing[job.key] = job
            else:
                lengths[job.key] = pcm.length_ms(samples)
                self._cache.used(job.key)
        return list(missing.values())

    def _job(self, saying: Saying) -> Job | None:
        volume = self.manner.volume
        source = self._recordings.of(saying.text) if self._recordings else None
        if source and source not in self._unusable:
            return Job(key_of("take", _digest(source), volume), saying.text, source, volume)
        text = self._spoken.get(saying)
        if text is None:
            text = self._spoken[saying] = spoken(saying, self._lexicon)
        return Job(key_of("render", text, *self._facts), text, None, volume) if text else None

    def _benches(self, jobs: int) -> list[Bench]:
        rate = self._pace()
        two = jobs >= _SECOND_CHILD_FROM and self.manner.engine != "natural"
        return [self._bench(rate) for _ in range(2 if two else 1)]

    def _pace(self) -> int:
        """The rate to set so that the one asked for is heard, measured once and noted."""
        key = key_of("pace", *self._facts)
        noted = self._cache.note(key)
        if noted is None:
            noted = self._measured()
            self._cache.keep_note(key, noted)
        self.delivered_wpm = noted["delivered"] or None
        return int(noted["used"])

    def _measured(self) -> dict[str, float]:
        """A process for each try: a change of rate within one is not dependable."""
        asked = used = self.manner.rate
        tries: list[tuple[float, int]] = []
        for _ in range(_PACE_TRIES):
            bench = self._bench(used)
            try:
                answer = bench.ask(do="measure")
            except ChildGoneError:
                continue
            finally:
                bench.close()
            if not answer["ok"]:
                continue
            delivered = answer["delivered"]
            tries.append((delivered, used))
            if abs(delivered - asked) <= _PACE_TOLERANCE * asked:
                break
            used = min(max(round(used * asked / delivered), RATES_WPM[0]), RATES_WPM[-1])
        if not tries:
            return {"delivered": 0, "used": asked}
        heard, used = min(tries, key=lambda one: abs(one[0] - asked))
        return {"delivered": heard, "used": used}

    def _bench(self, rate: int | None) -> Bench:
        start = self.manner.start(rate, self._cache.folder) if rate else None
        return Bench(start, self._cache.part, self._patience_s, self._command)

    def _made(self, folder: Path) -> Cache:
        try:
            return Cache(folder)
        except OSError as error:
            self.troubles.append(
                f"speech cannot be kept in {folder} ({error.strerror}); it is rendered each time"
            )
            spare = tempfile.mkdtemp(prefix="voice-")
            weakref.finalize(self, shutil.rmtree, spare, ignore_errors=True)
            return Cache(Path(spare))


class _Count:
    """How many are done, told after each."""

    def __init__(self, progress: Progress, done: int, total: int) -> None:
        self._progress, self._done, self._total = progress, done, total

    def one(self) -> None:
        self._done += 1
        self._progress(min(self._done, self._total), self._total)


def _manner_facts(manner: Manner) -> tuple[object, ...]:
    """All that a rendered file depends on besides its text."""
    asked = (manner.engine, manner.voice, manner.rate, manner.volume)
    if manner.engine == "natural":
        model = manner.model or installed_model()
        return (*asked, TARGET_LUFS, _version("piper-tts"), _digest(model) if model else "")
    return (*asked, TARGET_LUFS, sys.platform, _version("pyttsx3"), _version("espeakng-loader"))


def _version(package: str) -> str:
    try:
        return version(package)
    except PackageNotFoundError:
        return ""


@lru_cache(maxsize=1024)
def _digest(file: Path) -> str:
    """The hash of a file's content; "" when it cannot be read."""
    try:
        with file.open("rb") as opened:
            return hashlib.file_digest(opened, "sha256").hexdigest()
    except OSError:
        return ""
