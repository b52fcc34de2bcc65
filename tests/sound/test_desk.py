import math
from array import array

from conductor.score.model import Saying
from conductor.score.sounds import Bell, Sound, SoundId
from conductor.settings import BELLS_DBS, VOICE_DBS
from conductor.sound.desk import VOICE_DB, Desk, gain_of
from conductor.sound.mix import UNITY
from conductor.values import replace

ASKED: list[Saying | Bell] = []


def library(what: Saying | Bell) -> "array[int] | None":
    ASKED.append(what)
    return array("h", [1000] * 10)


def sound(start: int, what: Saying | Bell, name: str = "") -> Sound:
    return Sound(SoundId(name or str(start), 0, "voice"), start, what, start + 100)


def frames(
    desk: Desk, sounds: list[Sound], now: int, begun: frozenset[object] = frozenset()
) -> list[int]:
    return [event.start for event in desk.events(sounds, now, lambda ms: ms * 10, begun)]


def test_samples_are_looked_up_once_while_they_are_wanted() -> None:
    ASKED.clear()
    desk, word = Desk(library), Saying("a")
    for now in (0, 10, 20):
        frames(desk, [sound(50, word), sound(70, word)], now)
    assert len(ASKED) == 1
    frames(desk, [], 30)
    frames(desk, [sound(90, word)], 30)
    assert len(ASKED) == 2


def test_words_are_voice_and_bells_are_not() -> None:
    desk = Desk(library)
    words, bell = desk.events([sound(1, Saying("a")), sound(2, Bell("b"))], 0, lambda ms: ms)
    assert (words.voice, bell.voice) == (True, False)
    assert bell.gain == UNITY > words.gain


def test_what_is_stale_is_refused_for_good_unless_it_has_begun() -> None:
    desk, begun, late = Desk(library), sound(0, Saying("a"), "begun"), sound(0, Saying("b"))
    assert frames(desk, [begun, late], 101, frozenset({begun.id})) == [0]
    assert frames(desk, [late], 50) == []


def test_what_was_missed_while_there_was_no_device_stays_unsaid() -> None:
    desk = Desk(library)
    desk.miss(60)
    assert frames(desk, [sound(59, Bell("b")), sound(60, Bell("b"))], 60) == [600]


def test_a_volume_is_the_gain_of_what_sounds() -> None:
    desk, words = Desk(library), replace(sound(1, Saying("a")), db=-6)
    (event,) = desk.events([words], 0, lambda ms: ms)
    assert event.gain == gain_of(-6 + VOICE_DB)
    assert abs(20 * math.log10(gain_of(-6) / UNITY) + 6) < 0.01


def test_no_volume_can_clip() -> None:
    assert gain_of(VOICE_DBS[1] + VOICE_DB) < UNITY
    assert gain_of(BELLS_DBS[1]) == UNITY == gain_of(40)
