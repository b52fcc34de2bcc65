"""Draw the picture of the README: the live screen of a shipped class, by the program itself.

Run it as `python -m tests.screens.picture`; it writes `.pictures/live.svg`.
"""

import asyncio
import re
from pathlib import Path

from conductor import places
from conductor.engine.engine import Engine
from conductor.engine.model import Command, Do, Snapshot
from conductor.screens.app import ConductorApp
from conductor.settings import Settings
from conductor.values import replace
from conductor.view.after import After
from tests.support import score_of

TARGET = Path(__file__).parents[2] / ".pictures" / "live.svg"
SHAPE, INTO_MS = "crescent-lunge", 1_500


class Posed:
    """A class led to a moment and no further."""

    def __init__(self, engine: Engine, now: int) -> None:
        self._snapshot = replace(engine.snapshot(now), reply=None)
        self._now = now

    def snapshot(self) -> Snapshot:
        return self._snapshot

    def now(self) -> int:
        return self._now

    def post(self, command: Command) -> None:
        raise AssertionError(command)

    def trouble(self) -> str:
        return ""

    def after(self) -> After:
        raise AssertionError("it is not over")


def posed() -> Posed:
    text = places.plan("lighthouse-morning").read_text("utf-8")
    score = score_of(text)
    engine = Engine(score, {}, Settings())
    engine.command(Command(Do.BEGIN), 0)
    begun = engine.snapshot(0).entered
    index = next(at for at, one in enumerate(score.moments) if one.shape == SHAPE and one.pass_key)
    now = begun + score.moments[index].start + INTO_MS
    engine.advance(now)
    return Posed(engine, now)


async def drawn() -> str:
    app = ConductorApp(Settings(speak=False), lambda: "07:42", leading=posed())
    async with app.run_test(size=(100, 32)) as pilot:
        await pilot.pause()
        app.tick()
        await pilot.pause()
        return app.export_screenshot(title="Conductor")


def main() -> None:
    # the drawing library names its font's address; readers of the picture shall fetch nothing
    svg = re.sub(r"\s*@font-face\s*\{[^}]*\}|<!--.*?-->", "", asyncio.run(drawn()))
    TARGET.parent.mkdir(exist_ok=True)
    TARGET.write_text(svg, "utf-8")


if __name__ == "__main__":
    main()
