import fcntl
import os
import pty
import struct
import termios
import threading
from collections.abc import Iterator

import pytest

from conductor.terminal import ASK, asked, pixels_of, told


@pytest.fixture
def ends() -> Iterator[tuple[int, int]]:
    """A terminal: the side that emulates it, and the side a program has."""
    far, near = pty.openpty()
    yield far, near
    os.close(far)
    os.close(near)


def answering(far: int, answer: bytes) -> threading.Thread:
    def answer_once() -> None:
        question = b""
        while not question.endswith(ASK[-3:]):
            question += os.read(far, 100)
        os.write(far, answer)

    thread = threading.Thread(target=answer_once)
    thread.start()
    return thread


@pytest.mark.parametrize(
    ("answer", "pixels"),
    [
        (b"\x1b[6;20;10t\x1b[4;480;800t\x1b[8;24;80t\x1b[?62;22c", 20.0),
        (b"\x1b[4;480;800t\x1b[8;24;80t\x1b[?62;22c", 20.0),
        (b"\x1b[8;24;80t\x1b[?1;2c", None),
        (b"\x1b[6;0;0t\x1b[4;0;0t\x1b[8;24;80t\x1b[?1;2c", None),
        (b"\x1b[?6c", None),
    ],
)
def test_a_terminal_is_asked_and_its_line_left_clean(
    ends: tuple[int, int], answer: bytes, pixels: float | None
) -> None:
    far, near = ends
    before = termios.tcgetattr(near)
    thread = answering(far, answer)
    assert asked(near, near, 5.0) == pixels
    thread.join()
    assert termios.tcgetattr(near) == before
    os.set_blocking(near, False)
    with pytest.raises(BlockingIOError):
        os.read(near, 100)


def test_a_terminal_that_does_not_answer_holds_nobody_up(ends: tuple[int, int]) -> None:
    _, near = ends
    assert asked(near, near, 0.0) is None


def test_what_was_typed_ahead_is_not_taken(ends: tuple[int, int]) -> None:
    far, near = ends
    mode = termios.tcgetattr(near)
    mode[3] &= ~termios.ICANON & ~termios.ECHO
    termios.tcsetattr(near, termios.TCSANOW, mode)
    os.write(far, b"n")
    assert asked(near, near, 0.0) is None
    assert os.read(near, 10) == b"n"


def test_what_is_no_terminal_is_not_asked() -> None:
    out, inp = os.pipe()
    try:
        assert asked(out, inp) is None
        assert told(out) is None
    finally:
        os.close(out)
        os.close(inp)


def test_the_system_may_know_the_pixels(ends: tuple[int, int]) -> None:
    _, near = ends
    fcntl.ioctl(near, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    assert told(near) is None
    fcntl.ioctl(near, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 800, 432))
    assert told(near) == 18.0


def test_pixels_made_up_by_a_multiplexer_are_not_believed(
    ends: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    _, near = ends
    fcntl.ioctl(near, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 80 * 16, 24 * 32))
    for tmux, pixels in (("", 32.0), ("a socket", None)):
        monkeypatch.setenv("TMUX", tmux)
        assert told(near) == pixels
        assert pixels_of(b"\x1b[6;32;16t") == pixels
        assert pixels_of(b"\x1b[4;768;1280t\x1b[8;24;80t") == pixels


def test_a_cells_own_answer_wins() -> None:
    assert pixels_of(b"\x1b[6;21;10t\x1b[4;480;800t\x1b[8;24;80t") == 21.0
