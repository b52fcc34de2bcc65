import errno
import os
from pathlib import Path

import pytest

from conductor.run.journal import FileJournal, being_led, lines


def test_lines_are_on_the_file_as_soon_as_they_are_written(tmp_path: Path) -> None:
    journal = FileJournal(tmp_path / "class.jsonl")
    journal.write({"now": 1, "kind": "moment", "words": "Inhale: ü"})
    assert lines(journal.path) == [{"now": 1, "kind": "moment", "words": "Inhale: ü"}]
    journal.close()
    assert not journal.trouble
    assert oct(journal.path.stat().st_mode & 0o777) == "0o600"


def test_a_torn_last_line_is_left_out(tmp_path: Path) -> None:
    path = tmp_path / "class.jsonl"
    path.write_bytes(b'{"now":1}\n{"now":2}\n{"now":3,"ki')
    assert lines(path) == [{"now": 1}, {"now": 2}]


def test_a_write_error_is_told_and_stops_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    journal = FileJournal(tmp_path / "class.jsonl")

    def full(fd: int, data: bytes) -> int:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patched:
        patched.setattr(os, "write", full)
        journal.write({"now": 1})
    assert "No space left" in journal.trouble
    journal.write({"now": 2})
    journal.close()
    assert lines(journal.path) == [{"now": 2}]


def test_a_journal_tells_others_that_its_class_is_being_led(tmp_path: Path) -> None:
    journal = FileJournal(tmp_path / "class.jsonl")
    assert being_led(journal.path)
    journal.close()
    assert not being_led(journal.path)
    assert not being_led(tmp_path / "none.jsonl")
