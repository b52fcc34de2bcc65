import math
import wave
from array import array
from pathlib import Path

from conductor.score.model import Saying
from conductor.score.sounds import Bell, Sound, SoundId
from conductor.sound.desk import Desk
from conductor.sound.mix import RATE, Mixer
from conductor.sound.offline import frame_of, rendered, write_wav

BELL = Bell("b")


def library(what: Saying | Bell) -> "array[int] | None":
    if what == BELL:
        return array("h", [round(9000 * math.sin(k / 9)) for k in range(4 * RATE)])
    assert isinstance(what, Saying)
    ms = int(what.text)
    return array("h", [round(20_000 * math.sin(k / 30)) for k in range(ms * 441 // 10)])


def sound(start: int, what: Saying | Bell) -> Sound:
    return Sound(SoundId(f"{start}", 0, "v"), start, what, start + 1500)


CLASS = [
    sound(500, BELL),
    sound(1250, Saying("2500")),
    sound(3333, Saying("700")),  # before the one before has ended
    sound(9000, Saying("1000")),
    sound(9500, BELL),
]
LENGTH = 14_300


def live() -> "array[int]":
    """As in class: all that is wanted for the next 4 s declared each 250 ms, blocks of 200 ms."""
    desk, mixer, out = Desk(library), Mixer(), array("h")
    while mixer.frame < frame_of(LENGTH):
        now = round(mixer.frame / 44.1)
        wanted = [s for s in CLASS if now - 5000 < s.start < now + 4000]
        mixer.want(desk.events(wanted, now, frame_of, mixer.begun))
        for frames in (8820, 2205):
            out += mixer.render(frames)
    return out[: frame_of(LENGTH)]


def test_the_file_holds_what_is_heard_in_class() -> None:
    blocks = list(rendered(reversed(CLASS), library, LENGTH))
    total = array("h")
    for block in blocks:
        total += block
    assert total == live()
    assert any(total)


def test_the_file_is_a_wav_of_the_class_s_length(tmp_path: Path) -> None:
    path, seen = tmp_path / "class.wav", []
    write_wav(path, CLASS, library, LENGTH, lambda done, total: seen.append((done, total)))
    with wave.open(str(path)) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, RATE)
        assert file.getnframes() == frame_of(LENGTH)
        assert array("h", file.readframes(file.getnframes())) == live()
    assert seen[-1] == (LENGTH, LENGTH)
    assert len(seen) == 15


def test_a_long_class_holds_only_what_sounds_or_soon_will() -> None:
    sounds = [sound(k, Saying("300")) for k in range(0, 600_000, 1000)]
    asked = 0

    def counting(what: Saying | Bell) -> "array[int] | None":
        nonlocal asked
        asked += 1
        return library(what)

    stream = rendered(sounds, counting, 600_000)
    next(stream)
    assert asked <= 4
    assert sum(1 for _ in stream) == 599


def test_what_has_ended_is_forgotten() -> None:
    asked = []

    def noting(what: Saying | Bell) -> "array[int] | None":
        asked.append(what)
        return library(what)

    for _ in rendered([sound(0, Saying("300")), sound(20_000, Saying("300"))], noting, 25_000):
        pass
    assert len(asked) == 2
