"""The real engine, in a process of its own as always."""

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from conductor.voice.process import Child

PATIENCE_S = 30


@pytest.fixture
def child() -> Iterator[Child]:
    child = Child()
    yield child
    child.close()


def start(child: Child, folder: Path, voice: str = "", rate: int = 150) -> dict[str, Any]:
    question = {"engine": "espeak", "voice": voice, "rate": rate, "work": str(folder)}
    return dict(child.ask(PATIENCE_S, do="start", **question))


def test_the_library_that_comes_along_is_the_only_one_loaded(child: Child, tmp_path: Path) -> None:
    if sys.platform != "linux":
        pytest.skip("maps of a process are a matter of Linux")
    assert start(child, tmp_path)["name"] == "espeak-ng 1.52.0"
    maps = Path(f"/proc/{child._process.pid}/maps").read_text().splitlines()
    loaded = {line.split()[-1] for line in maps if "libespeak" in line}
    assert loaded
    assert all("espeakng_loader" in path for path in loaded)


@pytest.mark.parametrize(
    ("asked", "chosen"),
    [
        ("", "gmw/en"),
        ("en-us", "gmw/en-us"),
        ("English (Scotland)", "gmw/en-gb-scotland"),
        ("GMW/EN+F3", "gmw/en+f3"),
    ],
)
def test_a_voice_is_found_by_id_language_or_name(
    child: Child, tmp_path: Path, asked: str, chosen: str
) -> None:
    assert start(child, tmp_path, asked)["voice"] == chosen


@pytest.mark.parametrize(("asked", "near"), [("en-uk", "en-us"), ("en-us+f33", "en-us+f3")])
def test_an_unknown_voice_is_refused_with_what_is_near(
    child: Child, tmp_path: Path, asked: str, near: str
) -> None:
    answer = start(child, tmp_path, asked)
    assert answer["kind"] == "unknown voice"
    assert near in answer["near"]


def test_voices_differ_in_what_they_say(tmp_path: Path) -> None:
    lengths = set()
    for voice in ("gmw/en", "gmw/en-us", "gmw/en+f3"):
        child = Child()
        start(child, tmp_path, voice)
        part = str(tmp_path / "part")
        question = {"do": "render", "text": "Exhale, fold forward.", "part": part, "volume": 1.0}
        lengths.add(child.ask(PATIENCE_S, **question)["samples"] // 500)
        child.close()
    assert len(lengths) == 3


def test_the_rate_asked_is_the_rate_heard_in_every_process(tmp_path: Path) -> None:
    """In one process of thirty it used to be 200 words a minute, whatever was asked."""
    heard = []
    for _ in range(8):
        child = Child()
        start(child, tmp_path, rate=120)
        heard.append(child.ask(PATIENCE_S, do="measure")["delivered"])
        child.close()
    assert heard == pytest.approx([120] * 8, rel=0.06)


def test_phonemes_show_what_a_respelling_is_worth(child: Child, tmp_path: Path) -> None:
    start(child, tmp_path)
    texts = ["shavaasana", "savasana", "tadasana, now"]
    said = child.ask(PATIENCE_S, do="phonemes", texts=texts)["phonemes"]
    assert said[0].startswith("ʃ")
    assert said[1].startswith("s")
    assert said[2].endswith("nˈaʊ")
