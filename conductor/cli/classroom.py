"""A class made ready and led: the one place where score, voice, sound and runner meet."""

import contextlib
import os
import platform
import threading
from array import array
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING

from conductor import __version__, places, store
from conductor.cli.how import How as How  # noqa: PLC0414 -- whoever makes a class needs it
from conductor.cli.led import Led as Led  # noqa: PLC0414 -- what it gives
from conductor.cli.led import Line
from conductor.cli.mouth import Mouth
from conductor.cli.opening import Opened
from conductor.clock import Clock, SystemClock
from conductor.progress import Progress, silent
from conductor.run.ports import Output, OutputStatus
from conductor.run.runner import Runner
from conductor.score.model import Lengths, Saying, Score
from conductor.score.sounds import Bell
from conductor.settings import Settings
from conductor.sound.player import OPENING
from conductor.timing.cues import cues
from conductor.uncollected import settled
from conductor.values import replace
from conductor.voice.manner import VoiceError

if TYPE_CHECKING:  # what only a class that begins needs comes after the first picture
    from conductor.run.journal import FileJournal
    from conductor.view.machine import Fact


@dataclass
class Class:
    """A plan that can be led. Speech is rendered by `prepare`; `begin` gives the running class."""

    opened: Opened
    settings: Settings
    how: How
    mouth: Mouth | None = None
    output: Output | None = None
    clock: Clock = field(default_factory=SystemClock)
    lengths: Lengths = field(default_factory=dict)
    unkept: str = ""  # why there is no journal
    usual: Settings = field(default_factory=Settings)
    as_last_time: str = ""

    def __post_init__(self) -> None:
        self._bells: Mapping[str, array[int]] = {}
        self._lock = threading.Lock()
        self._closed = False
        self._voiceless = False
        self._led: Led | None = None

    @property
    def score(self) -> Score:
        """The compiled plan."""
        assert self.opened.score is not None  # noqa: S101 -- only leadable plans come here
        return self.opened.score

    @property
    def distance_m(self) -> float:
        """From how far away the screen is read."""
        return self.settings.view_distance_m

    @property
    def led(self) -> "Led | None":
        """The class that was begun, None before that."""
        return self._led

    @property
    def findings(self) -> str:
        """What the check has to say, as text."""
        from conductor.plan.show import show  # noqa: PLC0415 -- only where it is shown

        return show(self.opened.findings, self.opened.sources)

    @property
    def voiced(self) -> bool:
        """Whether cues are heard: wanted, and as far as is known with a voice to say them."""
        found = self.mouth is None or not self.mouth.status
        return self._wanted and found and not self._voiceless

    @property
    def _wanted(self) -> bool:
        """Whether cues are to be heard."""
        return self.settings.sound and self.settings.speak and self.how.spoken

    @property
    def goes_on(self) -> str:
        """Id of the moment a class that broke off goes on from; "" for one that begins."""
        return str(self.how.broken.here) if self.how.broken else ""

    def begin_now(self) -> str:
        """What beginning now would change of a class with an end to meet, as it is at this time."""
        from conductor.cli import timely  # noqa: PLC0415 -- only where a class has an end

        if self.how.end is None:
            return ""
        watched = timely.checked(self.opened, self.lengths, self.settings)
        return timely.said_now(self.score, self.how, watched)

    def prepare(self, progress: Progress = silent) -> str:
        """Open the sound, render and measure all speech; what went wrong in words."""
        if self.settings.sound and self.how.spoken:
            self._open_sound()
        trouble = self._speech_by_some_voice(progress)
        if self._wanted:
            return trouble
        return "The voice is off." if self.settings.sound else "Sound is off."

    def _speech_by_some_voice(self, progress: Progress) -> str:
        """Prepare speech; a voice of the settings or the plan that is not there keeps no class.

        One named on the command line is refused: whoever typed it is still there.
        """
        try:
            return self.prepare_speech(progress)
        except VoiceError as error:
            if "voice" in self.how.given or not self.settings.voice:
                raise
            self.settings, self._voiceless = replace(self.settings, voice=""), False
            more = self.prepare_speech(progress)
            told = f"{str(error).rstrip('.')}. The usual voice speaks instead."
            return f"{told} {more}".rstrip()

    def prepare_speech(self, progress: Progress = silent) -> str:
        """Render and measure all speech, with no device; what went wrong in words."""
        self._bells = self._bells or _bells()
        if not self._wanted:
            return ""
        from conductor.engine.phrases import phrases  # noqa: PLC0415 -- only with a voice

        mouth = self._open_voice()
        _, wanted = cues(self.score, {}, self.settings, self.settings.level)
        self.lengths = mouth.prepare(
            wanted | phrases(self.score, self.settings.count_aloud), progress
        )
        _, more = cues(self.score, self.lengths, self.settings, self.settings.level)
        if more - wanted:  # what turned out longer than estimated may have to hurry
            self.lengths = {**self.lengths, **mouth.prepare(more - wanted, silent)}
        troubles = [mouth.status] if mouth.status else mouth.troubles[:3]
        return " ".join(troubles)

    def _open_sound(self) -> None:
        with self._lock:
            if self.output is None and not self._closed:
                from conductor.sound.device import output  # noqa: PLC0415 -- only with sound

                self._bells = _bells()
                self.output = output(self.samples, self.clock, self.settings, self.how.speed)

    def _open_voice(self) -> Mouth:
        if self.mouth is None:
            from conductor.cli.speech import renderer  # noqa: PLC0415 -- only with a voice

            try:
                self.mouth = renderer(self.opened, self.settings)
            except Exception:
                self._voiceless = True
                raise
        if self.how.glass.may_speak:
            from conductor.cli.both_sides import over  # noqa: PLC0415 -- only with a mirror

            self.mouth = over(self.mouth, self.score, self.how.glass)
        return self.mouth

    def samples(self, what: Saying | Bell) -> "array[int] | None":
        """Give what a sound is made of, at the device's rate; None where there is nothing."""
        from conductor.sound.bells import struck  # noqa: PLC0415 -- only with sound
        from conductor.sound.mix import doubled  # noqa: PLC0415 -- only with sound

        if isinstance(what, Bell):
            bell = self._bells.get(what.name)
            return struck(bell, what.strokes) if bell and self.settings.bells else None
        pcm = self.mouth.pcm(what) if self.mouth else None
        return doubled(pcm) if pcm else None

    def machine(self) -> "tuple[Fact, ...]":
        """Sound, sleep and power, for who reads before class."""
        from conductor.cli.machine import machine  # noqa: PLC0415 -- not before a picture

        off = self._why_silent() if self.settings.sound else "off."
        opening = OutputStatus(playing=False, words=off or OPENING)
        status = self.output.status() if self.output else opening
        return machine(status, self.score.length)

    def sound_test(self) -> str:
        """Strike a bell before class; what to listen for, or what is the matter."""
        if not self.settings.sound:
            return "Sound is off."
        self._open_sound()
        test = getattr(self.output, "test", None)
        if test and test():
            return "A bell sounds now. If you hear nothing, look at the volume and the output."
        return self.output.status().words if self.output else "No sound."

    def close(self) -> None:
        """Let go of sound and voice, from any thread; a class that has begun keeps them."""
        with self._lock:
            if self._led is not None:
                return
            self._closed = True
            output, self.output = self.output, None
        for held in (output, self.mouth):
            if held is not None:
                held.close()

    def begin(self) -> Led:
        """Open the journal and the runner, and start leading; a class with an end is fitted."""
        if self._led is None:
            self._led = self._begun()
        return self._led

    def _begun(self) -> Led:
        from conductor.cli import timely  # noqa: PLC0415 -- only once a class begins
        from conductor.engine.engine import Engine  # noqa: PLC0415 -- as above
        from conductor.run.journal import FileJournal  # noqa: PLC0415 -- as the engine
        from conductor.run.quiet import Awake  # noqa: PLC0415 -- as the engine
        from conductor.run.resume import resumed  # noqa: PLC0415 -- as the engine
        from conductor.sound.device import Silent  # noqa: PLC0415 -- knows no library yet

        output = self.output or Silent(self._why_silent())
        broken = self.how.broken
        at = broken.now(datetime.now().astimezone()) if broken else 0
        refitting = timely.checked(self.opened, self.lengths, self.settings)
        naming = timely.named(self.how, at)
        if broken:
            engine = resumed(
                broken,
                self.lengths,
                self._led_with,
                __version__,
                at,
                refitting=refitting,
                naming=naming,
            )
            journal: FileJournal | None = _taken_up(FileJournal(broken.path), at)
            score, before = broken.score, [broken.opened, *broken.told]
        else:
            refitting.know(self.score)
            must_end = timely.left_ms(self.how)
            engine = Engine(
                self.score,
                self.lengths,
                self._led_with,
                must_end=must_end,
                refitting=refitting,
                naming=naming,
            )
            score, before = self.score, [self._opened_line(self.score, must_end)]
            journal = self._journal(self.score, before[0])
        runner = Runner(engine, output, journal or _Nowhere(), self.clock, self.how.speed, at)
        output.timed(runner.line.epoch, runner.line.speed)
        clean = contextlib.ExitStack()
        if journal:
            clean.callback(journal.close)
        clean.enter_context(Awake())
        clean.callback(runner.close)
        if journal and self.how.speed == 1.0 and self.how.rehearsal is None:
            clean.callback(self._remember, runner)
        led = self._led_by(runner, journal, clean, score, before)
        settled()
        runner.start()
        return led

    def _led_by(
        self,
        runner: Runner,
        journal: "FileJournal | None",
        clean: contextlib.ExitStack,
        score: Score,
        before: Sequence[Line],
    ) -> Led:
        if self.how.rehearsal is None:
            return Led(runner, journal, clean, score, before)
        from conductor.cli.rehearsing import Rehearsed  # noqa: PLC0415 -- only to rehearse

        return Rehearsed(runner, journal, clean, score, before, self.opened.sources)

    def _remember(self, runner: Runner) -> None:
        """Keep what the class was led with, for the next time; one never begun tells nothing."""
        from conductor.cli.recall import remember  # noqa: PLC0415 -- only after a class

        last = runner.snapshot()
        if last.begun or last.index:
            in_it = {name: getattr(last, name) for name in ("level", "voice_db", "bells_db")}
            remember(self.opened.path, replace(self.settings, **in_it), self.usual)

    @property
    def _led_with(self) -> Settings:
        """Settings in class time: a finger is no faster because the class is."""
        speed = 1.0 if self.how.rehearsal is not None else self.how.speed  # which may yet change
        return replace(self.settings, twice_ms=round(self.settings.twice_ms * speed))

    def _why_silent(self) -> str:
        if not self.settings.sound:
            return ""
        return "" if self.how.spoken else "At this speed voice and bells are text."

    @property
    def _plays(self) -> bool:
        """Whether there is a device that cues are heard through, or one being opened."""
        status = self.output.status() if self.output else None
        return status is not None and (status.playing or status.words == OPENING)

    def _opened_line(self, score: Score, must_end: int | None) -> dict[str, object]:
        """The journal's first line: which class this is, and how it is led."""
        from conductor.cli.recall import led_with  # noqa: PLC0415 -- as the engine
        from conductor.score.form import name as score_name  # noqa: PLC0415 -- as the engine

        return {
            "kind": "opened",
            "score": score_name(score),
            "title": score.meta.title,
            "plan": str(self.opened.path.resolve()),
            "pid": os.getpid(),
            "version": __version__,
            "python": platform.python_version(),
            "wall": datetime.now().astimezone().isoformat(),
            "speed": self.how.speed,
            "must_end": must_end,
            "led_with": led_with(self.settings),
            "voiced": self.voiced and self._plays,
            "rehearsal": self.how.rehearsal is not None or self.how.speed != 1.0,
        }

    def _journal(self, score: Score, opened: dict[str, object]) -> "FileJournal | None":
        if not self.how.journal:
            return None
        from conductor.run.journal import FileJournal  # noqa: PLC0415 -- as the engine
        from conductor.score.form import to_json  # noqa: PLC0415 -- as the engine

        now = datetime.fromisoformat(str(opened["wall"]))
        stem = f"{now:%Y-%m-%dT%H-%M-%S}-{opened['score']}"
        try:
            folder = store.journals()
            (folder / f"{stem}.score.json").write_text(to_json(score), "utf-8")
            journal = FileJournal(folder / f"{stem}.jsonl")
        except OSError as error:
            self.unkept = f"No journal: {error.strerror}."
            return None
        journal.write(opened)
        return journal


def _taken_up(journal: "FileJournal", now: int) -> "FileJournal":
    """Say in the journal of a class that broke off that it is led by this process now."""
    journal.write({"now": now, "kind": "taken up", "pid": os.getpid(), "version": __version__})
    return journal


def _bells() -> "Mapping[str, array[int]]":
    from conductor.sound.bells import load  # noqa: PLC0415 -- only with sound

    return load(places.shipped("sounds"))


class _Nowhere:
    """A journal that keeps nothing."""

    def write(self, line: dict[str, object]) -> None:
        """Let it go."""
