"""Running the screens with the terminal kept to them alone."""

import os
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from io import TextIOWrapper
from pathlib import Path

from conductor.screens.app import ConductorApp
from conductor.screens.wiring import (
    AS_USUAL,
    Ending,
    How,
    Offering,
    Opening,
    Shelf,
    TimeOfDay,
    Wishes,
)
from conductor.settings import Settings
from conductor.view.leading import Leading


@contextmanager
def terminal_kept(log: Path | None) -> Iterator[None]:
    """Give the screens duplicates of descriptors 1 and 2, and point 1 and 2 at the log.

    C libraries write to 1 and 2 and would write through the picture, which is itself drawn on
    standard error (standard output on Windows).
    """
    for stream in (sys.stdout, sys.stderr):
        stream.flush()
    before = sys.__stdout__, sys.__stderr__
    kept = [_duplicate(number) for number in (1, 2)]
    target = os.open(log or os.devnull, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    try:
        vars(sys).update(__stdout__=kept[0], __stderr__=kept[1])
        os.dup2(target, 1)
        os.dup2(target, 2)
        yield
    finally:
        for stream in kept:
            with suppress(OSError):  # the terminal may be gone
                stream.flush()
        os.dup2(kept[0].fileno(), 1)
        os.dup2(kept[1].fileno(), 2)
        vars(sys).update(__stdout__=before[0], __stderr__=before[1])
        for stream in kept:
            with suppress(OSError):
                stream.close()
        os.close(target)


def _duplicate(number: int) -> TextIOWrapper:
    """A text stream of its own on what the descriptor is open to."""
    return TextIOWrapper(
        os.fdopen(os.dup(number), "wb"), encoding="utf-8", errors="replace", line_buffering=True
    )


@contextmanager
def _closing_when_hung_up(app: ConductorApp) -> Iterator[None]:
    """Close the screens when their terminal is closed, else they would read its end for ever."""
    if not hasattr(signal, "SIGHUP"):
        yield
        return

    def hung_up(number: int, frame: object) -> None:
        del number, frame
        app.hung_up()

    before = signal.signal(signal.SIGHUP, hung_up)
    try:
        yield
    finally:
        signal.signal(signal.SIGHUP, before if app.leading is None else signal.SIG_IGN)


def run_app(
    settings: Settings,
    time_of_day: TimeOfDay,
    *,
    shelf: Shelf | None = None,
    opening: Opening | None = None,
    leading: Leading | None = None,
    offering: Offering | None = None,
    wishes: Wishes = AS_USUAL,
    log: Path | None = None,
) -> Ending:
    """Show the screens until they end, and say how; a class outlives a screen that fails."""
    app: ConductorApp | None = None
    try:
        with terminal_kept(log):
            app = ConductorApp(
                settings,
                time_of_day,
                shelf=shelf,
                opening=opening,
                leading=leading,
                offering=offering,
            )
            app.wishes = wishes
            try:
                with _closing_when_hung_up(app):
                    ending = app.run(mouse=False)
            finally:
                app.let_go()
    except Exception as error:  # noqa: BLE001 - whatever a screen raises, the class goes on
        return Ending(How.DIED, app.leading if app else leading, f"{type(error).__name__}: {error}")
    if ending is None:
        return Ending(How.DIED, app.leading, "the screen failed; its log has the place")
    return ending
