from types import ModuleType

import pytest

from conductor.engine.model import State
from conductor.screens.board import board, stopped
from conductor.screens.rows import text_of
from conductor.screens.wiring import Wishes
from conductor.view.glass import MIRRORS, Glass
from conductor.view.letters import cells
from conductor.view.look import look
from conductor.view.mirror import shown
from tests.screens.pilots import leading_app, settle

SIZES = [(80, 24), (120, 40), (200, 60), (160, 45), (60, 80), (40, 15), (30, 10)]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", ["screen", "cues", "both"])
@pytest.mark.parametrize("index", [1, 9, 25])
def test_whose_side_it_is_stands_on_every_picture(
    scene: ModuleType, size: tuple[int, int], name: str, index: int
) -> None:
    for state in (State.LEADING, State.HOLDING):
        snapshot = scene.snap(index, 0, state)
        view = shown(look(snapshot, snapshot.now), MIRRORS[name])
        rows = board(view, *size).rows
        assert {sum(cells(run.text) for run in row) for row in rows if row} == {size[0]}
        picture = text_of(rows)
        assert size[0] < 40 or f"{view.to_end}" in picture
        assert view.mark in " ".join(picture.split())
        assert view.mark in " ".join(text_of(stopped(view, "18:42", *size)).split())


async def test_a_key_turns_the_mirror_in_class(scene: ModuleType, hands: ModuleType) -> None:
    app = leading_app(hands.Led(scene.snap(9)), Wishes(glass=Glass()))
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        assert "class: R" not in hands.text(app)
        await pilot.press("o")
        await settle(app, pilot)
        assert "you: L · class: R" in hands.text(app)
        await pilot.press("o")
        await settle(app, pilot)
        assert "class: R" not in hands.text(app)


async def test_a_resize_keeps_the_class_where_it_was(scene: ModuleType, hands: ModuleType) -> None:
    led = hands.Engined(scene.build())
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        await pilot.press("space")
        led.clock.forward(45_000)
        await settle(app, pilot)
        where = led.snapshot()
        for size in ((200, 60), (60, 80), (40, 15), (20, 6), (160, 45), (80, 24)):
            await pilot.resize_terminal(*size)
            await settle(app, pilot)
            seen = led.snapshot()
            assert (seen.index, seen.entered, seen.state) == (
                where.index,
                where.entered,
                where.state,
            )
            lines = hands.text(app).split("\n")
            assert len(lines) == size[1]
            assert max(len(line) for line in lines) <= size[0]
        assert app.screen.query_one("Board").size == (80, 24)
