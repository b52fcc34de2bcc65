from types import ModuleType
from typing import Any

from textual.app import App, ComposeResult
from textual.geometry import Region
from textual.widget import Widget

from conductor.screens.app import ConductorApp
from conductor.screens.board import Picture
from conductor.screens.panes import STEPS, Board, Painted, Pane, changed
from conductor.screens.rows import Rows, Run
from conductor.settings import Settings


class Bare(App[None]):
    """One widget on a screen in the project's colours."""

    CSS_PATH = ConductorApp.CSS_PATH

    def __init__(self, widget: Widget) -> None:
        super().__init__()
        self._widget = widget

    def get_theme_variable_defaults(self) -> dict[str, str]:
        return ConductorApp(Settings(), lambda: "").get_theme_variable_defaults()

    def compose(self) -> ComposeResult:
        yield self._widget


class Watched(Board):
    """A board that keeps which regions it asked to be drawn."""

    def __init__(self) -> None:
        super().__init__()
        self.asked: list[Region] = []

    def refresh(self, *regions: Region, **more: Any) -> Any:
        self.asked = [*getattr(self, "asked", []), *regions]
        return super().refresh(*regions, **more)


def lines(*texts: str) -> Rows:
    return tuple((Run(text),) for text in texts)


def test_only_rows_that_differ_are_named() -> None:
    assert changed(lines("a", "b", "c"), lines("a", "x", "c")) == [1]
    assert changed(lines("a"), lines("a", "b")) == [1]
    assert changed(lines("a"), lines("a")) == []


async def test_a_row_that_stays_the_same_is_not_drawn_again() -> None:
    board = Watched()
    async with Bare(board).run_test(size=(40, 6)) as pilot:
        board.show(lambda *_: Picture(lines("a", "b", "c"), 4, 1))
        await pilot.pause()
        board.asked.clear()
        board.show(lambda *_: Picture(lines("a", "x", "c"), 4, 1))
        assert board.asked == [Region(0, 1, 40, 1)]
        board.asked.clear()
        board.show(lambda *_: Picture(lines("a", "x", "c"), 4, 1))
        assert board.asked == []


async def test_only_the_columns_the_bar_crossed_are_drawn() -> None:
    board = Watched()
    async with Bare(board).run_test(size=(64, 6)) as pilot:
        board.show(lambda *_: Picture(lines("a"), 4, 2))
        board.move(500, "INHALE")
        await pilot.pause()
        board.asked.clear()
        board.move(500 + 1000 // STEPS + 1, "INHALE")
        assert board.asked == [Region(32, 4, 2, 2)]
        board.asked.clear()
        board.move(500 + 1000 // STEPS + 2, "INHALE")
        assert board.asked == []
        board.move(10, "EXHALE")
        assert board.asked == [Region(0, 4, 64, 2)]


async def test_the_bar_is_full_between_in_and_out() -> None:
    board = Board()
    async with Bare(board).run_test(size=(40, 6)):
        board.show(lambda *_: Picture((), 2, 1))
        for fraction, breath in ((1000, "INHALE"), (0, "EXHALE"), (1000, "OWN BREATH")):
            board.move(fraction, breath)
            assert board._bar[0] == 40 * 8
            strip = board.render_line(2)
            assert (strip.cell_length, strip.text.strip()) == (40, "")


async def test_a_row_is_as_wide_as_its_widget() -> None:
    pane = Pane()
    async with Bare(pane).run_test(size=(20, 3)) as pilot:
        pane.show(lambda *_: lines("x" * 50, "山山"))
        await pilot.pause()
        assert [pane.render_line(y).cell_length for y in range(3)] == [20, 20, 20]


async def test_a_board_is_painted_anew_for_a_new_size() -> None:
    board = Board()
    async with Bare(board).run_test(size=(20, 3)) as pilot:
        board.show(lambda width, height: Picture(lines(f"{width}x{height}"), 2, 1))
        await pilot.resize_terminal(30, 5)
        await pilot.pause()
        assert board.render_line(0).text.strip() == "30x5"


async def test_styles_are_forgotten_when_the_theme_changes(
    scene: ModuleType, hands: ModuleType
) -> None:
    app = ConductorApp(Settings(), lambda: "", leading=hands.Led(scene.snap(9)))
    async with app.run_test() as pilot:
        await pilot.pause()
        app.tick()
        await pilot.pause()
        board: Painted = app.screen.query_one(Board)
        before = board.style_of("pane--now")
        app.theme = "light"
        await pilot.pause()
        assert board.style_of("pane--now") != before
