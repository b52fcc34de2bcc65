"""The renderer with the real engine, and with a child that misbehaves."""

from __future__ import annotations

import errno
import math
import os
import signal
import struct
import sys
import threading
import wave
from pathlib import Path

import pytest

from conductor.score.model import Lengths, Saying
from conductor.voice import render
from conductor.voice.loudness import TARGET_LUFS, loudness, peak
from conductor.voice.manner import Manner, VoiceError
from conductor.voice.render import Renderer

FAKE = (sys.executable, str(Path(__file__).with_name("fake_child.py")))
CUES = [
    Saying(text)
    for text in (
        "Inhale, reach the arms overhead.",
        "Exhale, fold forward.",
        "Inhale, half lift.",
        "Exhale, step the left foot back to low lunge.",
        "Inhale, rise to crescent lunge.",
        "Exhale, open to Vīrabhadrāsana.",
        "Sink the hips, reach through both hands.",
        "Last breath.",
        "Inhale",
        "Exhale",
        "Exhale, low plank.",
        "Inhale, upward dog.",
        "Exhale, downward dog, press the hands.",
        "And now the other side.",
        "Take your time to lie down on your back.",
        "Stand tall. Let the breath arrive.",
        "Step to the top of the mat, half lift.",
        "Five breaths here.",
        "Soften the jaw, the eyes, the hands.",
        "Slowly open your eyes.",
    )
]
LEXICON = {"vīrabhadrāsana": "veerabhadraasana"}


class Told:
    """What progress was told."""

    def __init__(self) -> None:
        self.calls: list[tuple[int, int]] = []

    def __call__(self, done: int, total: int) -> None:
        self.calls.append((done, total))


def never(done: int, total: int) -> None:
    assert done == total, "nothing was to be rendered"


def children() -> list[int]:
    """The rendering processes of this one."""
    found = []
    for entry in Path("/proc").iterdir():
        try:
            if (
                entry.name.isdigit()
                and b"conductor.voice.child" in (entry / "cmdline").read_bytes()
            ):
                parent = (entry / "stat").read_text().rpartition(")")[2].split()[1]
                found += [int(entry.name)] if int(parent) == os.getpid() else []
        except OSError:
            continue
    return found


@pytest.fixture(scope="module")
def rendered(tmp_path_factory: pytest.TempPathFactory) -> tuple[Renderer, Lengths, Told]:
    renderer = Renderer(tmp_path_factory.mktemp("voice"), LEXICON)
    told = Told()
    return renderer, renderer.prepare([*CUES, CUES[0], Saying("...")], told), told


def test_every_cue_is_rendered_and_told(rendered: tuple[Renderer, Lengths, Told]) -> None:
    renderer, lengths, told = rendered
    assert set(lengths) == set(CUES)
    assert told.calls == [(done, 20) for done in range(21)]
    assert (renderer.troubles, renderer.status) == ([], "")
    assert not children()


def test_lengths_are_what_a_speaker_would_need(rendered: tuple[Renderer, Lengths, Told]) -> None:
    _, lengths, _ = rendered
    for saying, length in lengths.items():
        words = len(saying.text.split())
        assert words * 60_000 / 150 * 0.6 < length < words * 60_000 / 150 * 2.2, saying.text


def test_the_pace_heard_is_the_pace_asked(rendered: tuple[Renderer, Lengths, Told]) -> None:
    renderer, lengths, _ = rendered
    words = sum(len(saying.text.split()) for saying in lengths)
    assert words * 60_000 / sum(lengths.values()) == pytest.approx(150, rel=0.05)
    assert renderer.delivered_wpm == pytest.approx(150, rel=0.05)


def test_samples_are_as_long_as_told_trimmed_and_equally_loud(
    rendered: tuple[Renderer, Lengths, Told],
) -> None:
    renderer, lengths, _ = rendered
    for saying, length in lengths.items():
        samples = renderer.pcm(saying)
        assert samples is not None
        assert math.ceil(len(samples) * 1000 / renderer.rate_hz) == length
        assert max(map(abs, samples[:330])) > 40, "speech begins within 15 ms"
        assert loudness(samples) == pytest.approx(TARGET_LUFS, abs=0.5)
        assert peak(samples) <= 10 ** (-1 / 20)


def test_nothing_to_pronounce_is_no_length(rendered: tuple[Renderer, Lengths, Told]) -> None:
    renderer, lengths, _ = rendered
    assert Saying("...") not in lengths
    assert renderer.pcm(Saying("...")) is None
    assert renderer.pcm(Saying("never asked for")) is None


def test_the_second_time_nothing_is_rendered(rendered: tuple[Renderer, Lengths, Told]) -> None:
    renderer, lengths, _ = rendered
    again = Renderer(renderer._cache.folder, LEXICON, command=("/nowhere",))
    assert again.prepare(CUES, never) == lengths
    assert again.pcm(CUES[0]) == renderer.pcm(CUES[0])


def test_another_manner_or_respelling_is_rendered_anew(
    rendered: tuple[Renderer, Lengths, Told],
) -> None:
    folder = rendered[0]._cache.folder
    sanskrit = CUES[5]
    for lexicon, manner in (
        (LEXICON, Manner(rate=120)),
        (LEXICON, Manner(voice="en-us")),
        (LEXICON, Manner(volume=0.5)),
        ({"vīrabhadrāsana": "warrior"}, Manner()),
    ):
        assert Renderer(folder, lexicon, manner).pcm(sanskrit) is None


def test_a_damaged_file_is_rendered_again(tmp_path: Path) -> None:
    renderer = Renderer(tmp_path, {})
    before = renderer.prepare(CUES[:3])
    files = sorted(tmp_path.glob("*.wav"))
    files[0].write_bytes(files[0].read_bytes()[:1000])
    files[1].write_bytes(bytes(files[1].stat().st_size))
    told = Told()
    after = Renderer(tmp_path, {}).prepare(CUES[:3], told)
    assert told.calls[0] == (1, 3)
    assert after == pytest.approx(before, abs=15)


def test_children_killed_in_the_middle_are_survived(tmp_path: Path) -> None:
    killed = []

    def kill(done: int, total: int) -> None:
        assert total == 20
        if done in (3, 8):
            killed.extend(children())
            for pid in children():
                os.kill(pid, signal.SIGKILL)

    renderer = Renderer(tmp_path, {})
    assert set(renderer.prepare(CUES, kill)) == set(CUES)
    assert len(killed) >= 2
    assert renderer.troubles == []
    assert not list(tmp_path.glob("*.part"))


def test_two_programs_render_at_once(tmp_path: Path) -> None:
    results: list[Lengths] = []
    renderers = [Renderer(tmp_path, {}) for _ in range(2)]
    threads = [
        threading.Thread(target=lambda one=one: results.append(one.prepare(CUES)))
        for one in renderers
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert [set(lengths) for lengths in results] == [set(CUES)] * 2
    assert all(one.pcm(cue) for one in renderers for cue in CUES)
    assert not list(tmp_path.glob("*.part"))


def test_an_unknown_voice_is_refused_before_class(tmp_path: Path) -> None:
    renderer = Renderer(tmp_path, {}, Manner(voice="en-uk"))
    with pytest.raises(VoiceError, match=r"no voice 'en-uk'.*en-us"):
        renderer.prepare(CUES)
    with pytest.raises(VoiceError):
        renderer.check()
    with pytest.raises(VoiceError, match="80 to 450"):
        Renderer(tmp_path, {}, Manner(rate=500))


def test_without_a_voice_library_the_class_is_silent_and_says_so(tmp_path: Path) -> None:
    words = "no voice library was found"
    mute = f'input(); print(\'{{"ok": false, "kind": "no engine", "words": "{words}"}}\')'
    renderer = Renderer(tmp_path, {}, command=(sys.executable, "-c", mute))
    assert renderer.prepare(CUES) == {}
    assert renderer.status == f"{words}; 20 cues are shown and not spoken"
    renderer.check()
    assert renderer.status == words


@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EDQUOT])
def test_a_full_disk_is_told_once_and_survived(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int
) -> None:
    real, calls = os.replace, []

    def replace(source: Path, target: Path) -> None:
        calls.extend([target] if target.suffix == ".wav" else [])
        if len(calls) > 4:
            raise OSError(code, os.strerror(code))
        real(source, target)

    monkeypatch.setattr("conductor.voice.cache.os.replace", replace)
    renderer = Renderer(tmp_path, {})
    lengths = renderer.prepare(CUES)
    assert len(lengths) == 4
    assert "is full; 16 cues are shown and not spoken" in renderer.status
    assert not list(tmp_path.glob("*.part"))
    monkeypatch.undo()
    assert set(renderer.prepare(CUES)) == set(CUES)
    assert renderer.status == ""


def test_a_child_that_finds_the_disk_full_ends_it(tmp_path: Path) -> None:
    renderer = Renderer(tmp_path / "voice", {}, command=(*FAKE, str(tmp_path)))
    assert list(renderer.prepare([Saying("fine"), Saying("full"), Saying("later")])) == [
        Saying("fine")
    ]
    assert "2 cues are shown and not spoken" in renderer.status


@pytest.mark.parametrize("fault", ["die always", "odd always", "torn", "babble"])
def test_one_bad_cue_is_told_and_costs_no_other(tmp_path: Path, fault: str) -> None:
    renderer = Renderer(tmp_path / "voice", {}, command=(*FAKE, str(tmp_path)))
    sayings = [Saying("before"), Saying(fault), Saying("after")]
    assert set(renderer.prepare(sayings)) == {sayings[0], sayings[2]}
    assert len(renderer.troubles) == 1
    assert f'"{fault}" stays silent' in renderer.troubles[0]
    assert renderer.pcm(sayings[1]) is None


def test_a_cache_that_cannot_be_made_costs_only_the_keeping(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    renderer = Renderer(tmp_path / "file" / "voice", {}, command=(*FAKE, str(tmp_path)))
    assert "cannot be kept" in renderer.troubles[0]
    assert len(renderer.prepare(CUES)) == 20


def record(path: Path) -> None:
    with wave.open(str(path), "wb") as file:
        file.setparams((1, 2, 44100, 0, "NONE", ""))
        turn = 2 * math.pi * 300 / 44100
        voice = [round(9000 * math.sin(turn * at)) for at in range(44100)]
        file.writeframes(struct.pack("<44100h", *voice))


def test_own_recordings_come_first_and_the_rest_is_rendered(tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    folder.mkdir()
    record(folder / "exhale-fold-forward.wav")
    (folder / "inhale-half-lift.wav").write_bytes(b"RIFF, but no more")
    renderer = Renderer(tmp_path / "voice", {}, recordings=folder)
    lengths = renderer.prepare(CUES[:3])
    assert lengths[CUES[1]] == pytest.approx(1000, abs=10)
    assert lengths[CUES[2]] > 0
    assert [trouble.split(":")[0] for trouble in renderer.troubles] == [
        str(folder / "inhale-half-lift.wav")
    ]
    assert renderer.pcm(CUES[2])
    (folder / "inhale-half-lift.wav").unlink()
    again = Renderer(tmp_path / "voice", {}, recordings=folder)
    assert again.prepare(CUES[:3], never) == lengths


def test_recordings_are_heard_even_where_there_is_no_voice(tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    folder.mkdir()
    record(folder / "exhale-fold-forward.wav")
    (tmp_path / "espeakng_loader.py").write_text("raise ImportError")
    (tmp_path / "pyttsx3.py").write_text("raise RuntimeError('no eSpeak installed')")
    code = f"import sys; sys.path.insert(0, {str(tmp_path)!r})\n"
    code += "from conductor.voice import child; child.main()"
    renderer = Renderer(
        tmp_path / "voice", {}, recordings=folder, command=(sys.executable, "-c", code)
    )
    assert set(renderer.prepare(CUES)) == {CUES[1]}
    assert "no eSpeak installed" in renderer.status
    assert "19 cues are shown and not spoken" in renderer.status


def test_only_some_are_held_in_memory(rendered: tuple[Renderer, Lengths, Told]) -> None:
    renderer, lengths, _ = rendered
    assert renderer.pcm(CUES[0]) is renderer.pcm(CUES[0])
    assert len(renderer._loaded) <= min(len(lengths), render._IN_MEMORY)
    renderer.close()
    assert renderer.pcm(CUES[0])
