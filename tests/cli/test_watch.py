"""A real file saved in real ways, watched by the real command; the test waits for its words."""

import os
import pty
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.test_saves import written

END = "Waiting for the next save; ctrl-c ends.\n"
PATIENCE_S = 40


class Watching:
    """The command in a process of its own, with what it has printed so far."""

    def __init__(self, file: Path) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "conductor", "watch", "--plain", str(file)],
            stdout=subprocess.PIPE,
            text=True,
        )
        self.timer = threading.Timer(PATIENCE_S, self.process.kill)
        self.timer.start()

    def block(self) -> str:
        """Wait for the next block; that of a killed process is what there was of it."""
        assert self.process.stdout is not None
        lines: list[str] = []
        for line in self.process.stdout:
            lines.append(line)
            if line == END:
                break
        return "".join(lines)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    file = tmp_path / "p.yaml"
    written(file)
    return file


@pytest.fixture
def watching(file: Path) -> Iterator[Watching]:
    one = Watching(file)
    yield one
    one.timer.cancel()
    one.process.kill()
    one.process.communicate()


@pytest.mark.slow
def test_each_way_of_saving_is_one_recheck(file: Path, watching: Watching) -> None:
    assert "One  " in watching.block()
    written(file, "In place")
    assert "In place  " in watching.block()
    other = file.with_name(".p.yaml.swp")
    written(other, "Renamed")
    other.replace(file)
    assert "Renamed  " in watching.block()
    file.unlink()
    assert "the file is gone; it is watched for" in watching.block()
    written(file, "Back")
    assert "Back  " in watching.block()


@pytest.mark.slow
def test_a_burst_of_saves_is_one_recheck(file: Path, watching: Watching) -> None:
    watching.block()
    for number in range(20):
        written(file, f"Burst {number}")
    last = watching.block()
    if "Burst 19" not in last:  # the machine may have paused within the burst, once
        last = watching.block()
    assert "Burst 19" in last
    written(file, "After")
    assert "After  " in watching.block()


@pytest.mark.slow
def test_the_file_of_shapes_is_watched_too(file: Path, watching: Watching) -> None:
    watching.block()
    written(file, "Own", "lantern", "shapes from: mine.yaml\n")
    assert "beside-the-plan" in watching.block()
    file.with_name("mine.yaml").write_text("lantern: {like: mountain}\n", "utf-8")
    assert "nothing to say" in watching.block()


def on_a_terminal(file: Path, kind: str) -> tuple[subprocess.Popen[bytes], int]:
    parent, child = pty.openpty()
    env = {**os.environ, "COLUMNS": "80", "LINES": "24", "TERM": kind}
    process = subprocess.Popen(
        [sys.executable, "-m", "conductor", "watch", str(file)],
        stdin=child, stdout=child, stderr=child, env=env, start_new_session=True,
    )  # fmt: skip
    os.close(child)
    return process, parent


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="needs a pseudo terminal")
def test_on_a_terminal_a_screen_of_its_own_is_drawn_and_left_as_it_was(file: Path) -> None:
    process, parent = on_a_terminal(file, "xterm")
    timer = threading.Timer(PATIENCE_S, process.kill)
    timer.start()
    try:
        shown = _until(parent, b"ctrl-c ends")
        assert b"\x1b[?1049h" in shown
        written(file, "Two")
        _until(parent, b"Two")
        process.send_signal(signal.SIGINT)
        _until(parent, b"\x1b[?1049l")
        assert process.wait() == 0
    finally:
        timer.cancel()
        process.kill()
        os.close(parent)


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="needs a pseudo terminal")
def test_a_terminal_that_cannot_be_drawn_on_gets_lines(file: Path) -> None:
    process, parent = on_a_terminal(file, "dumb")
    timer = threading.Timer(PATIENCE_S, process.kill)
    timer.start()
    try:
        assert b"\x1b" not in _until(parent, b"Waiting for the next save")
    finally:
        timer.cancel()
        process.kill()
        process.wait()
        os.close(parent)


def _until(terminal: int, words: bytes) -> bytes:
    """What a terminal shows until it shows these words; it ends where the process does."""
    shown = b""
    while words not in shown:
        shown += os.read(terminal, 4096)
    return shown
