from types import ModuleType

import pytest

from conductor.engine.model import Do, State
from conductor.screens.live import Live
from conductor.screens.overlays import Ask, Help
from conductor.screens.themes import NAMES
from conductor.screens.wiring import Wishes
from conductor.view.own_keys import keyed
from tests.screens.pilots import leading_app, settle

MINE = keyed({"next": ["tab", "j"], "hold": "ctrl+n", "help": "F2", "end": "F10"})


async def test_own_keys_lead_the_class_and_the_old_ones_do_nothing(
    scene: ModuleType, hands: ModuleType
) -> None:
    led = hands.Led(scene.snap(9))
    app = leading_app(led, Wishes(MINE.actions))
    async with app.run_test(size=(120, 40)) as pilot:
        await settle(app, pilot)
        await pilot.press("tab", "j", "ctrl+n", "n", "h", "right", "q")
        assert led.done == [Do.NEXT, Do.NEXT, Do.HOLD]
        await pilot.press("f2")
        assert isinstance(app.screen, Help)
        assert "Ctrl+N" in hands.text(app)
        await pilot.press("escape", "f10")
        assert isinstance(app.screen, Ask)


@pytest.mark.parametrize("key", ["ctrl+q", "ctrl+c"])
async def test_what_always_ends_a_class_still_does(
    scene: ModuleType, hands: ModuleType, key: str
) -> None:
    app = leading_app(hands.Led(scene.snap(9)), Wishes(MINE.actions))
    async with app.run_test() as pilot:
        await settle(app, pilot)
        await pilot.press(key)
        assert isinstance(app.screen, Ask)


async def test_a_stopped_class_tells_its_own_keys(scene: ModuleType, hands: ModuleType) -> None:
    stopped = scene.snap(9, state=State.STOPPED, leaves=None)
    app = leading_app(hands.Led(stopped), Wishes(MINE.actions))
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        await settle(app, pilot)
        assert "Space goes on. j next, Page Up back. F10 ends the class." in hands.text(app)


async def test_colours_change_with_a_key(scene: ModuleType, hands: ModuleType) -> None:
    app = leading_app(hands.Led(scene.snap(9)))
    seen = []
    async with app.run_test() as pilot:
        await settle(app, pilot)
        for _ in NAMES:
            seen.append(app.theme)
            await pilot.press("c")
        assert isinstance(app.screen, Live)
        assert app.theme == seen[0]
    assert seen == list(NAMES)
