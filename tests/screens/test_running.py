import os
import pty
import struct
import subprocess
import sys
import termios
from fcntl import ioctl
from pathlib import Path

import pytest

from conductor.screens.running import terminal_kept

HERE = Path(__file__).parent

CHILD = """
import importlib.util, os, sys
from pathlib import Path

def load(name, path):
    spec = importlib.util.spec_from_file_location(name, path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module

here, log, said = map(Path, sys.argv[1:4])
hands = load("hands", here / "hands.py")
scene = load("scene", here.parent / "view" / "scene.py")
from conductor.engine.model import State
from conductor.screens.running import run_app
from conductor.settings import Settings

class Led(hands.Led):
    pictures = 0

    def snapshot(self):
        self.pictures += 1
        if self.pictures == 2:
            os.write(1, b"LIBRARY-OUT")
            os.write(2, b"LIBRARY-ERR")
        if self.pictures > 5:
            raise RuntimeError("the screen stumbles")
        return super().snapshot()

led = Led(scene.snap(9))
ending = run_app(Settings(), lambda: "18:42", leading=led, log=log)
said.write_text(f"{ending.how} {ending.leading is led}")
os.write(1, b"AFTERWARDS")
"""


def in_terminal(script: str, *arguments: str) -> bytes:
    """Run a script in a terminal of its own and give what reached it."""
    ours, theirs = pty.openpty()
    ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    child = subprocess.Popen(
        [sys.executable, "-c", script, *arguments],
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        env={**os.environ, "TERM": "xterm-256color", "PYTHONPATH": str(HERE.parent.parent)},
    )
    os.close(theirs)
    seen = b""
    try:
        while part := _part(ours):
            seen += part
    finally:
        child.kill()
        child.wait()
        os.close(ours)
    return seen


def _part(terminal: int) -> bytes:
    """The next bytes; none once the other end is closed."""
    try:
        return os.read(terminal, 65536)
    except OSError:
        return b""


@pytest.mark.slow
def test_a_screen_that_dies_leaves_the_class_and_the_terminal(tmp_path: Path) -> None:
    log, said = tmp_path / "log", tmp_path / "said"
    seen = in_terminal(CHILD, str(HERE), str(log), str(said))
    assert said.read_text() == "died True"
    assert b"Tide Table" in seen
    assert seen.endswith(b"AFTERWARDS")
    assert b"LIBRARY" not in seen
    assert b"stumbles" not in seen
    assert b"\x1b[?1000h" not in seen  # the mouse is never asked for
    kept = log.read_text()
    assert "LIBRARY-OUT" in kept
    assert "LIBRARY-ERR" in kept
    assert "the screen stumbles" in kept


def test_descriptors_point_at_the_log_and_come_back(
    tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    log = tmp_path / "log"
    with terminal_kept(log):
        os.write(1, b"from a library\n")
        os.write(2, b"from another\n")
        assert sys.__stderr__
        sys.__stderr__.write("the picture")
    os.write(2, b", afterwards")
    assert log.read_text() == "from a library\nfrom another\n"
    assert capfd.readouterr().err == "the picture, afterwards"
    assert log.stat().st_mode & 0o077 == 0


def test_without_a_log_they_point_nowhere(capfd: pytest.CaptureFixture[str]) -> None:
    with terminal_kept(None):
        os.write(1, b"from a library\n")
    assert capfd.readouterr().out == ""
