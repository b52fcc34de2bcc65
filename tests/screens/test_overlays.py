from types import ModuleType

import pytest
from textual.app import App
from textual.screen import Screen

from conductor.engine.model import Do, State
from conductor.screens.app import ConductorApp
from conductor.screens.overlays import MORE, Ask, Help, Sheet, help_table
from conductor.screens.themes import THEMES
from conductor.screens.wiring import How
from conductor.settings import Settings
from conductor.view.actions import EVERY
from tests.screens.pilots import settle


class Bare(App[bool]):
    """An app in the project's colours."""

    def get_theme_variable_defaults(self) -> dict[str, str]:
        return THEMES[0].variables


def test_help_has_a_row_for_every_action() -> None:
    assert help_table(EVERY).row_count == len(EVERY) + len(MORE)


@pytest.mark.parametrize(("key", "answer"), [("y", True), ("n", False), ("escape", False)])
async def test_a_question_gets_its_answer(key: str, answer: bool) -> None:
    app, answers = Bare(), list[bool | None]()
    async with app.run_test() as pilot:
        await app.push_screen(Ask("End the class here?", ()), answers.append)
        await pilot.press("x", "enter", key)
    assert answers == [answer]


async def test_a_sheet_scrolls_and_closes() -> None:
    app = Bare()
    async with app.run_test(size=(40, 10)) as pilot:
        sheet = Sheet("Findings", "\n".join(f"line {number}" for number in range(50)))
        await app.push_screen(sheet)
        await pilot.press("pagedown", "down")
        await pilot.pause()
        assert sheet.query_one("VerticalScroll").scroll_y == 10
        await pilot.press("enter")
        assert app.screen is not sheet


@pytest.mark.parametrize(("key", "over"), [("question_mark", Help), ("q", Ask)])
async def test_silence_is_heeded_whatever_lies_over_the_class(
    scene: ModuleType, hands: ModuleType, key: str, over: type[Screen[object]]
) -> None:
    led = hands.Led(scene.snap(9))
    app = ConductorApp(Settings(), lambda: "18:42", leading=led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        await pilot.press(key)
        assert isinstance(app.screen, over)
        await pilot.press("full_stop")
        assert isinstance(app.screen, over)
    assert led.done == [Do.SILENCE]


@pytest.mark.parametrize(
    ("state", "how"),
    [(State.READY, How.LEFT), (State.LEADING, How.DIED), (State.STOPPED, How.DIED)],
)
async def test_a_class_outlives_its_terminal_once_it_has_begun(
    scene: ModuleType, hands: ModuleType, state: State, how: How
) -> None:
    led = hands.Led(scene.snap(9, 0, state))
    app = ConductorApp(Settings(), lambda: "18:42", leading=led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        app.hung_up()
    assert app.return_value is not None
    assert (app.return_value.how, app.return_value.leading) == (how, led)
