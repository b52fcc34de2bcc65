"""What the terminal tells of its size in pixels; asked before the screens take it over.

Pixels come with the window's size where the system knows them, else by the window reports of
xterm (CSI 14 t, 16 t, 18 t), which many terminals answer and some do not.
"""

import os
import re
import select
import struct
import sys
import time

ASK = b"\x1b[16t\x1b[14t\x1b[18t\x1b[c"  # the last one every terminal answers: then no more comes
CELL = re.compile(rb"\x1b\[6;(\d+);(\d+)t")  # height and width of a cell
WINDOW = re.compile(rb"\x1b\[4;(\d+);(\d+)t")  # height and width of the text area
ROWS = re.compile(rb"\x1b\[8;(\d+);(\d+)t")  # rows and columns
LAST = re.compile(rb"\x1b\[\?[\d;]*c")
MADE_UP = (16, 32)  # pixels of a cell that tmux tells when it knows none (its defaults, seen)
PATIENCE_S = 0.5  # for a terminal at the far end of a slow line; one that answers ends the wait


def row_pixels() -> float | None:
    """Pixels of a row of this terminal, None where it does not tell."""
    return told(0) or asked(0, 1)


def told(number: int) -> float | None:
    """Pixels of a row as the system has them, with nothing asked of the terminal."""
    try:
        import fcntl  # noqa: PLC0415 -- not on every system
        import termios  # noqa: PLC0415 -- as fcntl

        raw = fcntl.ioctl(number, termios.TIOCGWINSZ, b"\0" * 8)
    except (ImportError, OSError):
        return None
    rows, columns, width, height = struct.unpack("HHHH", raw)
    if not (rows and columns and height):
        return None
    return _believed(width / columns, height / rows)


def _believed(width: float, height: float) -> float | None:
    """The height of a cell; tmux makes one up where the terminal around it does not tell."""
    return None if os.environ.get("TMUX") and (width, height) == MADE_UP else height


def asked(inp: int, out: int, patience_s: float = PATIENCE_S) -> float | None:
    """Ask the terminal itself, and take all it answers off its line again.

    Nothing is asked where in or out is no terminal, or where somebody has typed ahead.
    """
    if sys.platform == "win32" or not (os.isatty(inp) and os.isatty(out)):
        return None
    import termios  # noqa: PLC0415 -- not on every system
    import tty  # noqa: PLC0415 -- as termios

    try:
        before = termios.tcgetattr(inp)
        tty.setcbreak(inp, termios.TCSANOW)
        try:
            if select.select([inp], [], [], 0)[0]:
                return None
            os.write(out, ASK)
            return pixels_of(_answer(inp, patience_s))
        finally:
            termios.tcsetattr(inp, termios.TCSANOW, before)
    except (OSError, termios.error):
        return None


def _answer(inp: int, patience_s: float) -> bytes:
    """All that comes until the last answer is there, or patience ends."""
    until = time.monotonic() + patience_s
    answer = b""
    while not LAST.search(answer):
        left = until - time.monotonic()
        if left <= 0 or not select.select([inp], [], [], left)[0]:
            break
        piece = os.read(inp, 1024)
        if not piece:
            break
        answer += piece
    return answer


def pixels_of(answer: bytes) -> float | None:
    """Pixels of a row, from whichever of the answers came."""
    cell = CELL.search(answer)
    if cell and int(cell[1]):
        return _believed(int(cell[2]), int(cell[1]))
    window, rows = WINDOW.search(answer), ROWS.search(answer)
    if window and rows and int(window[1]) and int(rows[1]) and int(rows[2]):
        return _believed(int(window[2]) / int(rows[2]), int(window[1]) / int(rows[1]))
    return None
