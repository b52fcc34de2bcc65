from types import ModuleType

from conductor.engine.model import Do
from conductor.screens.whereto import WhereTo, line
from conductor.view.whereto import Place
from tests.screens.pilots import compare, leading_app, settle


async def test_a_shape_is_found_by_typing_and_gone_to(scene: ModuleType, hands: ModuleType) -> None:
    led = hands.Led(scene.snap(3, 1000))
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        await pilot.press("slash")
        await settle(app, pilot)
        assert isinstance(app.screen, WhereTo)
        await pilot.press(*"warrior left")
        await settle(app, pilot)
        compare("whereto-80x24", hands.text(app))
        await pilot.press("enter")
        await settle(app, pilot)
        assert led.done == [Do.GO_TO]
        moments = {one.id: one for one in led.picture.score.moments}
        there = moments[led.posted[0].word]
        assert (there.shape, str(there.side)) == ("warrior-two", "left")


async def test_escape_goes_back_and_an_unknown_name_goes_nowhere(
    scene: ModuleType, hands: ModuleType
) -> None:
    led = hands.Led(scene.snap(3, 1000))
    app = leading_app(led)
    async with app.run_test(size=(40, 15)) as pilot:
        await settle(app, pilot)
        await pilot.press("slash", *"zzz", "enter")
        await settle(app, pilot)
        assert isinstance(app.screen, WhereTo)
        await pilot.press("escape")
        await settle(app, pilot)
        assert not isinstance(app.screen, WhereTo)
        await pilot.press("slash", "down", "up", "down", "enter")
        await settle(app, pilot)
        assert led.done == [Do.GO_TO]


def test_a_part_stands_out_at_the_left() -> None:
    part = Place("m", 0, "Stand", "Stand", "", "part", "01:00", heads=True)
    shape = Place("m", 0, "plank", "plank", "", "Stand", "01:00")
    assert line(part, 5) == "01:00  Stand"
    assert line(shape, 5) == "01:00    plank  ·  Stand"
