"""What tests that drive the screens share: an app, a drawn picture, a picture compared, a wait."""

import os
from pathlib import Path
from typing import Any

from textual.pilot import Pilot

from conductor.screens.app import ConductorApp
from conductor.screens.wiring import AS_USUAL, Wishes
from conductor.settings import Settings

SHOTS = Path(__file__).parent / "shots"


def leading_app(led: Any, wishes: Wishes = AS_USUAL, **settings: Any) -> ConductorApp:
    app = ConductorApp(Settings(**settings), lambda: "18:42", leading=led)
    app.wishes = wishes
    return app


async def settle(app: ConductorApp, pilot: Pilot[Any]) -> None:
    """Let a picture be drawn: the clock stands, so nothing but the tick brings a new one."""
    await pilot.pause()
    app.tick()
    await pilot.pause()


def compare(name: str, seen: str) -> None:
    """The text of a screen against its committed picture, whose first line says what to see.

    With SHOTS=write in the environment the picture is written anew, to be looked at.
    """
    path = SHOTS / f"{name}.txt"
    must = path.read_text("utf-8").split("\n")[0] if path.exists() else "# must be seen: "
    if os.environ.get("SHOTS") == "write":
        path.write_text(f"{must}\n{seen}\n", "utf-8")
    assert f"{must}\n{seen}\n" == path.read_text("utf-8")


async def until(pilot: Pilot[Any], seen: Any) -> None:
    """Wait for what another thread brings, pause by pause."""
    for _ in range(200):
        await pilot.pause(0.005)
        if seen():
            return
    raise AssertionError("it never came")
