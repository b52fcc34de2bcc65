import errno
import os
import stat
import time
from array import array
from pathlib import Path

import pytest

from conductor.voice import pcm
from conductor.voice.cache import Cache, key_of, no_room
from conductor.voice.pcm import DamagedError


def kept(cache: Cache, key: str, samples: int = 100) -> None:
    part = cache.part()
    pcm.store(part, array("h", [500] * samples))
    cache.keep(part, key)


def test_its_folder_is_private(tmp_path: Path) -> None:
    cache = Cache(tmp_path / "deep" / "voice")
    assert stat.S_IMODE(cache.folder.stat().st_mode) == 0o700


def test_what_is_kept_is_found_and_the_part_is_gone(tmp_path: Path) -> None:
    cache = Cache(tmp_path)
    kept(cache, "a")
    assert cache.load("a") == array("h", [500] * 100)
    assert cache.load("b") is None
    assert [file.name for file in tmp_path.iterdir()] == ["a.wav"]


def test_a_damaged_file_is_removed(tmp_path: Path) -> None:
    cache = Cache(tmp_path)
    kept(cache, "a")
    cache.path("a").write_bytes(b"RIFF")
    assert cache.load("a") is None
    assert not cache.path("a").exists()


def test_a_torn_part_is_never_kept(tmp_path: Path) -> None:
    cache = Cache(tmp_path)
    part = cache.part()
    part.write_bytes(b"RIFF")
    with pytest.raises(DamagedError):
        cache.keep(part, "a")
    assert cache.load("a") is None


def test_parts_of_two_programs_never_share_a_name(tmp_path: Path) -> None:
    assert Cache(tmp_path).part() != Cache(tmp_path).part()


def test_old_leavings_are_swept_and_fresh_ones_are_not(tmp_path: Path) -> None:
    for name in ("old.part", "old.raw", "fresh.part"):
        (tmp_path / name).touch()
    yesterday = time.time() - 86400
    for name in ("old.part", "old.raw"):
        os.utime(tmp_path / name, (yesterday, yesterday))
    Cache(tmp_path)
    assert [file.name for file in tmp_path.iterdir()] == ["fresh.part"]


def test_what_was_not_used_for_longest_is_pruned_first(tmp_path: Path) -> None:
    cache = Cache(tmp_path)
    for age, key in enumerate("abc"):
        kept(cache, key)
        os.utime(cache.path(key), (1000 - age, 1000 - age))
    cache.used("c")
    cache.prune(2 * (44 + 200))
    assert [key for key in "abc" if cache.load(key)] == ["a", "c"]


def test_notes_are_kept_and_a_damaged_one_is_none(tmp_path: Path) -> None:
    cache = Cache(tmp_path)
    cache.keep_note("n", {"used": 144})
    assert cache.note("n") == {"used": 144}
    for damage in ("", "[1]", '{"used": "much"}', "\x00"):
        (tmp_path / "n.json").write_text(damage)
        assert cache.note("n") is None


def test_keys_differ_in_every_fact() -> None:
    keys = [key_of("a", 1), key_of("a", 2), key_of("b", 1), key_of("a1"), key_of("a", "1")]
    assert len(set(keys)) == len(keys)
    assert key_of("a", 1) == key_of("a", 1)


def test_only_a_full_disk_is_no_room() -> None:
    assert no_room(OSError(errno.ENOSPC, "full"))
    assert not no_room(OSError(errno.EACCES, "denied"))
    assert not no_room(ValueError())
