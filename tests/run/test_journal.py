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


@pytest.mark.parametrize(
    ("raw", "kept"),
    [
        (b'{"now":1}\n{"now":2,"ki', [1, 3]),
        (b'{"now":1}\n{"now":2}', [1, 2, 3]),
        (b'{"now":1}\n\x00\x00\x00\x00', [1, 3]),
        (b'{"now":1}\n{"now":2,"words":"' + b"x" * 9000, [1, 3]),
        (b'{"no', [3]),
        (b'{"now":1}\n', [1, 3]),
        (b"", [3]),
    ],
    ids=["torn", "end lost", "zeros", "long", "alone", "whole", "empty"],
)
def test_a_journal_that_is_written_on_in_drops_its_torn_last_line(
    tmp_path: Path, raw: bytes, kept: list[int]
) -> None:
    path = tmp_path / "class.jsonl"
    path.write_bytes(raw)
    journal = FileJournal(path)
    journal.write({"now": 3})
    journal.close()
    assert [line["now"] for line in lines(path)] == kept
    assert all(line.startswith(b"{") for line in path.read_bytes().splitlines())


def test_a_journal_that_another_program_writes_is_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "class.jsonl"
    first = FileJournal(path)
    path.write_bytes(b'{"now":1')  # as seen in the middle of a write
    second = FileJournal(path)
    assert path.read_bytes() == b'{"now":1'
    second.close()
    first.close()
