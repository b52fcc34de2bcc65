import sys

import pytest

from conductor.voice.manner import Manner, VoiceError
from conductor.voice.pool import NoVoiceError
from conductor.voice.voices import phonemes, voices


def test_the_voices_of_the_machine_are_listed() -> None:
    ids = {voice.id for voice in voices()}
    assert {"gmw/en", "gmw/en-us", "inc/hi"} <= ids


def test_phonemes_come_one_for_each_text() -> None:
    said = phonemes(["hold, 3, 2, 1", "exhale", ""])
    assert [one.split()[-1:] for one in said] == [["wˈɒn"], ["ɛkshˈeɪl"], []]


def test_a_machine_without_a_voice_says_so() -> None:
    with pytest.raises(NoVoiceError):
        voices(command=(sys.executable, "-c", "pass"))


def test_an_impossible_rate_is_refused_before_anything_is_started() -> None:
    with pytest.raises(VoiceError):
        voices(Manner(rate=7), command=("/nowhere",))
