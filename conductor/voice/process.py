"""The child process that renders: asked by JSON lines, given a time limit, killed when it hangs."""

import json
import os
import subprocess
import sys
import threading
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from queue import Empty, SimpleQueue
from typing import IO, Any, cast

import conductor

COMMAND = (sys.executable, "-P", "-m", "conductor.voice.child")
_ROOT = str(Path(conductor.__file__).parent.parent)


class ChildGoneError(Exception):
    """The child died, hung past its limit, or said what is no answer."""


class Child:
    """One rendering process; a single thread may ask it at a time."""

    def __init__(self, command: Sequence[str] = COMMAND) -> None:
        self._process = subprocess.Popen(
            list(command),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=_environment(),
        )
        self._in = cast("IO[bytes]", self._process.stdin)
        self._out = cast("IO[bytes]", self._process.stdout)
        self._answers: SimpleQueue[bytes | None] = SimpleQueue()
        self._ear = threading.Thread(target=self._listen, name="voice-ear", daemon=True)
        self._ear.start()

    def ask(self, limit_s: float, **question: object) -> Mapping[str, Any]:
        """Its answer within `limit_s` seconds, or ChildGoneError, after which it is dead."""
        try:
            self._say(question)
            line = self._answers.get(timeout=limit_s)
            answer = json.loads(line) if line else None
        except (OSError, Empty, ValueError) as error:
            self.kill()
            late = f"no answer in {limit_s:g} s" if isinstance(error, Empty) else "it broke off"
            raise ChildGoneError(late) from error
        if not isinstance(answer, dict):
            self.kill()
            raise ChildGoneError("it ended")
        return answer

    def kill(self) -> None:
        """End it now; harmless when it has ended."""
        self._process.kill()
        self._reap()

    def close(self) -> None:
        """Let it end by itself, for a second."""
        try:
            self._in.close()
            self._process.wait(1)
        except (OSError, subprocess.TimeoutExpired):
            self._process.kill()
        self._reap()

    def _say(self, question: Mapping[str, object]) -> None:
        self._in.write(json.dumps(question).encode() + b"\n")
        self._in.flush()

    def _listen(self) -> None:
        for line in self._out:
            self._answers.put(line)
        self._answers.put(None)

    def _reap(self) -> None:
        self._process.wait()
        self._ear.join()
        for pipe in (self._in, self._out):
            with suppress(OSError):
                pipe.close()


def _environment() -> dict[str, str]:
    """Ours, and the way to this very package: the present folder is not searched for modules."""
    path = os.environ.get("PYTHONPATH")
    return {**os.environ, "PYTHONPATH": os.pathsep.join([_ROOT, path] if path else [_ROOT])}
