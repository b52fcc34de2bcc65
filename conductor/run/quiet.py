"""Holding off sleep and blanking of the machine while a class is led, where the system allows."""

import shutil
import subprocess
import sys
from types import TracebackType
from typing import Self

_WHY = "A class is being led"


def _command() -> list[str] | None:
    """Give the system's own helper, which holds off sleep as long as it lives."""
    if sys.platform == "darwin" and shutil.which("caffeinate"):
        return ["caffeinate", "-di", "cat"]
    inhibit = shutil.which("systemd-inhibit")
    if inhibit:
        what = ["--what=sleep:idle", "--who=Conductor", f"--why={_WHY}", "--mode=block"]
        return [inhibit, *what, "cat"]
    return None


TRIED_S = 0.4  # a helper that is refused has ended by then


def can_be_held() -> bool:
    """Try for a moment whether sleep and blanking can be held off here; takes TRIED_S."""
    with Awake() as awake:
        return awake.holds(TRIED_S)


class Awake:
    """A context in which the machine is asked not to sleep; `held` says whether it was asked.

    The helper reads our end of a pipe, so it ends with us however we end.
    """

    def __init__(self) -> None:
        self.held = False
        self._helper: subprocess.Popen[bytes] | None = None

    def holds(self, wait_s: float = 0.0) -> bool:
        """Whether sleep is really held off: a helper that finds nobody to ask ends at once."""
        if self._helper is None or not self.held:
            return self.held
        try:
            self._helper.wait(wait_s)
        except subprocess.TimeoutExpired:
            return True
        self.held = False
        return False

    def __enter__(self) -> Self:
        if sys.platform == "win32":
            self.held = _windows(on=True)
            return self
        command = _command()
        if command is None:
            return self
        try:
            self._helper = subprocess.Popen(
                command,
                stdin=subprocess.PIPE,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                start_new_session=True,
            )
        except OSError:
            return self
        self.held = True
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if sys.platform == "win32":
            _windows(on=False)
        if self._helper is None:
            return
        if self._helper.stdin:
            self._helper.stdin.close()
        try:
            self._helper.wait(1.0)
        except subprocess.TimeoutExpired:
            self._helper.kill()
            self._helper.wait()


def _windows(*, on: bool) -> bool:
    if sys.platform != "win32":
        return False
    import ctypes  # noqa: PLC0415 -- only there

    continuous, system, display = 0x80000000, 0x1, 0x2
    flags = continuous | (system | display if on else 0)
    return bool(ctypes.windll.kernel32.SetThreadExecutionState(flags))
