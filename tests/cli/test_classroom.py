from array import array
from collections.abc import Collection, Sequence
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from conductor import places
from conductor.cli.classroom import Class
from conductor.cli.how import How
from conductor.cli.opening import opened
from conductor.cli.recall import recalled
from conductor.engine.model import Command, Do
from conductor.progress import Progress
from conductor.run.ports import OutputStatus
from conductor.run.resume import Broken
from conductor.score.model import Lengths, Saying
from conductor.score.sounds import Sound
from conductor.settings import Settings
from conductor.values import replace
from conductor.view.glass import Glass
from conductor.voice.manner import VoiceError


class Mouth:
    """A voice that says nothing, and whether it was let go."""

    def __init__(self, status: str = "") -> None:
        self.status = status
        self.troubles: list[str] = []
        self.closed = 0

    def prepare(self, wanted: Collection[Saying], progress: Progress) -> Lengths:
        progress(len(wanted), len(wanted))
        return dict.fromkeys(wanted, 500)

    def pcm(self, saying: Saying) -> "array[int] | None":
        del saying
        return None

    def close(self) -> None:
        self.closed += 1


class Sink:
    """A sound output, and whether it was closed."""

    def __init__(self) -> None:
        self.closed = 0

    def want(self, sounds: Sequence[Sound], now: int) -> None:
        pass

    def timed(self, epoch: float, speed: float) -> None:
        pass

    def status(self) -> OutputStatus:
        return OutputStatus(playing=True)

    def close(self) -> None:
        self.closed += 1


def ready(mouth: Mouth | None = None, speed: float = 1.0, **settings: bool) -> Class:
    found = opened(places.plan("salutation-a"))
    how = How(speed=speed, journal=False)
    return Class(found, Settings(**settings), how, mouth or Mouth(), Sink())  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("status", "speed", "settings", "voiced"),
    [
        ("", 1.0, {}, True),
        ("", 60.0, {}, False),
        ("", 1.0, {"speak": False}, False),
        ("", 1.0, {"sound": False}, False),
        ("there is no voice here", 1.0, {}, False),
    ],
)
def test_whether_cues_are_heard_is_asked_of_the_class(
    status: str, speed: float, settings: dict[str, bool], voiced: bool
) -> None:
    assert ready(Mouth(status), speed, **settings).voiced is voiced


def test_what_is_the_matter_with_the_voice_is_told() -> None:
    assert ready(Mouth("there is no voice here")).prepare() == "there is no voice here"


@pytest.mark.parametrize("given", [frozenset(), frozenset({"voice"})])
def test_a_voice_of_the_settings_that_is_not_there_keeps_no_class_from_beginning(
    monkeypatch: pytest.MonkeyPatch, given: frozenset[str]
) -> None:
    def found(_: object, settings: Settings) -> Mouth:
        if settings.voice:
            raise VoiceError(f"there is no voice {settings.voice!r}", "Nearest: nob.")
        return Mouth()

    monkeypatch.setattr("conductor.cli.speech.renderer", found)
    made = ready()
    made.mouth, made.settings = None, replace(made.settings, voice="nobody")
    made.how = replace(made.how, given=given)
    if given:
        with pytest.raises(VoiceError):
            made.prepare()
        return
    told = made.prepare()
    assert told == "there is no voice 'nobody'. Nearest: nob. The usual voice speaks instead."
    assert made.voiced


def test_a_class_left_before_it_begins_lets_go_of_sound_and_voice_once() -> None:
    mouth = Mouth()
    made = ready(mouth)
    sink = made.output
    made.close()
    made.close()
    assert isinstance(sink, Sink)
    assert (sink.closed, made.output) == (1, None)
    assert mouth.closed >= 1
    assert made.prepare() == ""
    assert made.output is None  # a voice still getting ready opens no sound again


def test_a_class_that_has_begun_keeps_its_sound_until_it_is_over() -> None:
    made = ready()
    led = made.begin()
    made.close()
    assert isinstance(made.output, Sink)
    assert made.output.closed == 0
    led.post(Command(Do.END))
    assert led.wait(10)
    assert [one.kind for one in led.news(0)][-1] == "finished"
    assert led.news(0) == []
    led.close()
    assert made.output.closed == 1


def test_a_class_that_broke_off_counts_what_was_led_before(tmp_path: Path) -> None:
    made, wall = ready(), datetime.now().astimezone()
    first, second = (one.id for one in made.score.moments[:2])
    told: tuple[dict[str, object], ...] = (
        {"kind": "moment", "moment": first, "now": 3000, "start": 0, "index": 0},
        {"kind": "moment", "moment": second, "now": 7000, "start": 4000, "index": 1},
        {"kind": "cue", "words": "Fold.", "now": 8000},
    )
    broken = Broken(tmp_path / "it.jsonl", made.score, "another", None, wall, 1.0, told)
    resumed = Class(made.opened, made.settings, How(broken=broken), Mouth(), Sink())
    assert resumed.goes_on == second
    led = resumed.begin()
    led.post(Command(Do.END))
    assert led.wait(10)
    page = led.after()
    led.close()
    of = len(made.score.moments)
    assert f"{of - 2} moments of {of} not reached." in page.first[0][1]


def test_a_class_from_its_beginning_goes_on_from_nowhere() -> None:
    assert ready().goes_on == ""


@pytest.mark.parametrize(("speed", "kept"), [(1.0, {"voice_db": 3}), (2.0, {})])
def test_what_was_changed_in_class_is_kept_for_the_next_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, speed: float, kept: dict[str, object]
) -> None:
    for name in ("XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.setenv(name, str(tmp_path / name))
    one = ready(speed=speed)
    one.how = How(speed=speed)
    led = one.begin()
    led.post(Command(Do.BEGIN))
    led.post(Command(Do.NEXT_PART))
    led.post(Command(Do.VOICE_LOUDER))
    while not (led.snapshot().voice_db and led.snapshot().begun + led.snapshot().index):
        led.news(1)
    led.close()
    assert recalled(one.opened.path) == kept


def ending(minutes: float, plan: str = "lighthouse-morning") -> Class:
    """A class that has to be over in so many minutes."""
    end = datetime.now().astimezone() + timedelta(minutes=minutes)
    how = How(end=end, journal=False)
    return Class(opened(places.plan(plan)), Settings(), how, Mouth(), Sink())


def test_a_class_says_what_beginning_now_would_change() -> None:
    late = ending(25)
    said = late.begin_now()
    assert said.startswith("Begin now: 5 min less. ")
    assert "shorter" in said
    early = ending(32).begin_now()
    assert early.startswith("Begin now: ")
    assert "longer" in early
    assert ending(0.01).begin_now() == "The time it should end at has passed."
    assert ready().begin_now() == ""


def test_a_class_with_an_end_is_fitted_as_it_begins_and_not_before() -> None:
    late = ending(25)
    led = late.begin()
    try:
        before = led.snapshot()
        assert before.score.length == late.score.length
        assert before.begin_now.startswith("Begin now: 5 min less. ")
        led.post(Command(Do.BEGIN))
        for _ in range(20):
            led.news(1)
            after = led.snapshot()
            if after.score.length != late.score.length:
                break
        assert abs(after.ends_at - after.planned_end) < 1000
        assert after.reply is not None
        assert after.reply.words.startswith("The class begins: ")
    finally:
        led.close()


class Speaking(Mouth):
    """A voice that keeps what it was asked to render and to say; the left takes it longer."""

    def __init__(self) -> None:
        super().__init__()
        self.said: list[str] = []

    def prepare(self, wanted: Collection[Saying], progress: Progress) -> Lengths:
        return {one: 500 + 30 * ("left" in one.text) for one in wanted}

    def pcm(self, saying: Saying) -> "array[int] | None":
        self.said.append(saying.text)
        return None


def test_a_mirrored_voice_says_the_teachers_side_and_the_score_stays_the_classs() -> None:
    mouth, glass = Speaking(), Glass("cues")
    made = ready(mouth)
    made.how = replace(made.how, glass=glass)
    score = made.score
    made.prepare_speech()
    made.prepare_speech()
    right = Saying("Step the right foot back.")
    made.samples(right)
    glass.turn()
    made.samples(right)
    assert mouth.said == ["Step the left foot back.", "Step the right foot back."]
    assert made.score == score
    sided = [one for one in made.lengths if "right" in one.text or "left" in one.text]
    assert all(made.lengths[one] == 530 for one in sided)


def test_no_mirrored_cue_is_rendered_where_none_was_wished_for() -> None:
    plain, mirrored = ready(Speaking()), ready(Speaking())
    mirrored.how = replace(mirrored.how, glass=Glass("both"))
    for made in (plain, mirrored):
        made.prepare_speech()
    assert set(plain.lengths) <= set(mirrored.lengths)
    assert Glass().may_speak is False
