from conductor.engine.anchor import Anchor
from conductor.engine.course import course
from conductor.engine.model import Do
from conductor.engine.sounds import Stretch, place
from conductor.score.sounds import Bell, SoundId
from conductor.settings import STALE_MS, Settings
from conductor.values import replace
from tests.engine.make import Class, cue_all, small


def test_before_the_class_and_without_sound_nothing_is_wanted() -> None:
    assert Class().heard() == []
    led = Class(pick=Settings(sound=False))
    led.begin()
    assert led.heard(60_000) == []


def test_without_bells_only_words_are_wanted_and_without_speech_only_bells() -> None:
    for pick, wanted in ((Settings(bells=False), "end"), (Settings(speak=False), "bell")):
        led = Class(pick=pick)
        led.begin()
        led.to("rest.0")
        led.wait(27_000)
        assert led.heard() == [wanted]


def test_a_sound_names_its_moment_pass_and_slot_and_when_it_is_stale() -> None:
    led = Class()
    led.begin()
    sound = led.engine.upcoming(led.now + 5000, 4000)[0]
    assert sound.id == SoundId("arms", 1, "main")
    assert (sound.start, sound.stale_after) == (10_600, 10_600 + STALE_MS)


def test_bells_stand_at_the_start_of_their_moment() -> None:
    led = Class()
    led.begin()
    led.to("rest.0")
    bells = [s for s in led.engine.upcoming(led.now, 60_000) if isinstance(s.what, Bell)]
    assert [(one.start - led.now, one.what) for one in bells] == [(30_000, Bell("bell", 3))]


def test_what_is_sounding_stays_wanted_until_it_is_over() -> None:
    led = Class()
    led.begin()
    led.to("arms")
    assert led.heard(0) == ["arms"]
    led.wait(2000)
    assert led.heard(0) == []


def test_asking_for_sounds_changes_nothing() -> None:
    led = Class()
    led.begin()
    far = led.engine.upcoming(led.now + 60_000, 4000)
    assert led.engine.upcoming(led.now + 60_000, 4000) == far
    assert led.here == "stand"
    assert led.wait(0) == []


def test_a_moment_entered_again_has_new_sounds() -> None:
    led = Class()
    led.begin()
    led.to("fold")
    first = led.look().pass_no
    led.do(Do.BACK)
    led.do(Do.BACK)
    ids = [sound.id for sound in led.engine.upcoming(led.now, 4000)]
    assert ids[0] == SoundId("stand", led.look().pass_no, "main")
    assert led.look().pass_no > first


def test_a_cue_that_began_keeps_its_start_when_the_pace_changes() -> None:
    led = Class()
    led.begin()
    led.to("stand")
    led.wait(7700)
    before = led.engine.upcoming(led.now, 0)
    led.do(Do.SLOWER)
    assert led.engine.upcoming(led.now, 0) == before
    led.wait(0)
    assert "cue" not in [one.kind for one in led.wait(299)]


def test_what_the_window_cuts_is_said_one_after_the_other_and_dropped_when_too_late() -> None:
    given = small()
    cues, _ = cue_all(given, {}, Settings())
    index = next(i for i, m in enumerate(given.moments) if m.id == "leg right")
    mine = [replace(cue, length=2500) for cue in cues if cue.moment == index]
    mine.append(replace(mine[0], slot="more", start=mine[0].start + 100))
    where = course(given, mine)
    enters = 100_000
    anchor = Anchor(enters, given.moments[index].start)
    window = enters - 3000
    placed, dropped = place(where, Stretch(anchor, index, None, window, 1), {})
    assert [(p.sound.id.slot, p.sound.start) for p in placed if p.form] == [
        ("ahead", window),
        ("more", window + 2500),
    ]
    assert [(one.kind, one.words) for one in dropped] == [("dropped", "Inhale")]


def test_the_words_of_the_latest_cue_stay_as_long_as_they_matter() -> None:
    led = Class()
    led.begin()
    led.to("fold")
    led.wait(3000)
    assert led.look().saying == "fold"
    led.wait(600)
    assert led.look().saying == "flat"
    led.to("warrior right")
    led.wait(3999)
    assert led.look().saying == "warrior right"
    led.wait(1)
    assert led.look().saying == ""
