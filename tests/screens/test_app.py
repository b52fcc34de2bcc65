from types import ModuleType
from typing import Any

import pytest
from textual.app import App
from textual.command import CommandPalette

from conductor.engine.model import Command, Do, Reply, State
from conductor.screens.ended import Ended
from conductor.screens.live import Live, Stopped
from conductor.screens.overlays import Ask, Help
from conductor.screens.panes import Board, Pane
from conductor.screens.wiring import How
from conductor.values import replace
from conductor.view.actions import ACTIONS
from tests.screens.pilots import compare, leading_app, settle, until


@pytest.mark.parametrize(
    ("name", "size", "index", "into", "more"),
    [
        ("flow-80x24", (80, 24), 3, 1000, {}),
        ("stay-120x40", (120, 40), 9, 1000, {"saying": "Sink the hips."}),
        ("stay-left-200x60", (200, 60), 25, 1000, {}),
        ("run-in-80x24", (80, 24), 5, -2400, {"state": State.ARRIVING}),
        (
            "hold-80x24",
            (80, 24),
            9,
            1000,
            {"state": State.HOLDING, "held": 3, "offer": "childs-pose"},
        ),
        ("stopped-80x24", (80, 24), 9, 1000, {"state": State.STOPPED, "leaves": None}),
        (
            "silence-80x24",
            (80, 24),
            9,
            1000,
            {"state": State.STOPPED, "leaves": None, "silenced": True},
        ),
        ("rest-80x24", (80, 24), 36, 100_000, {}),
    ],
)
async def test_pictures_of_a_class(
    scene: ModuleType,
    hands: ModuleType,
    name: str,
    size: tuple[int, int],
    index: int,
    into: int,
    more: dict[str, Any],
) -> None:
    app = leading_app(hands.Led(scene.snap(index, into, **more)))
    async with app.run_test(size=size) as pilot:
        await settle(app, pilot)
        await settle(app, pilot)
        compare(name, hands.text(app))


async def test_without_a_voice_the_words_to_say_are_large(
    scene: ModuleType, hands: ModuleType
) -> None:
    app = leading_app(hands.Led(scene.snap(9, 1000, saying="Sink the hips.")), speak=False)
    async with app.run_test(size=(120, 40)) as pilot:
        await settle(app, pilot)
        compare("voiceless-120x40", hands.text(app))


async def test_the_bar_moves_with_the_clock_and_not_with_ticks(
    scene: ModuleType, hands: ModuleType
) -> None:
    led = hands.Led(scene.snap(1, 0))
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        board = app.screen.query_one(Board)
        for _ in range(5):
            app.tick()
        assert board._bar[0] == 0
        led.clock.forward(2000)
        app.tick()
        assert board._bar == (40 * 8, "rising")


async def test_an_exhale_empties_the_bar(scene: ModuleType, hands: ModuleType) -> None:
    app = leading_app(hands.Led(scene.snap(2, 1000)))
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        assert app.screen.query_one(Board)._bar == (60 * 8, "falling")


@pytest.mark.parametrize("way", ["setting", "environment"])
async def test_without_motion_the_bar_goes_in_quarters(
    scene: ModuleType, hands: ModuleType, way: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    if way == "environment":
        monkeypatch.setenv("TEXTUAL_ANIMATIONS", "none")
    app = leading_app(hands.Led(scene.snap(1, 1900)), motion=way != "setting")
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        assert not app.motion
        assert app.screen.query_one(Board)._bar[0] == 20 * 8


async def test_every_key_gives_its_command(scene: ModuleType, hands: ModuleType) -> None:
    led = hands.Led(scene.snap(9))
    app = leading_app(led)
    async with app.run_test() as pilot:
        await settle(app, pilot)
        for action in ACTIONS:
            if action.do and not action.asks and not action.picks:
                keys = (*action.keys, *action.remote)
                led.posted.clear()
                await pilot.press(*keys)
                name = "" if action.repeats else action.id
                assert led.posted == [Command(action.do, 0, action.word, name)] * len(keys)


async def test_begin_stop_and_go_on_with_one_key(scene: ModuleType, hands: ModuleType) -> None:
    led = hands.Led(scene.snap(0, 0, State.READY))
    app = leading_app(led)
    async with app.run_test() as pilot:
        for state in (State.READY, State.LEADING, State.STOPPED):
            led.picture = replace(led.picture, state=state)
            await settle(app, pilot)
            await pilot.press("space")
    assert led.done == [Do.BEGIN, Do.STOP, Do.GO_ON]


async def test_stopping_lays_a_screen_over_the_class_and_takes_it_away(
    scene: ModuleType, hands: ModuleType
) -> None:
    led = hands.Led(scene.snap(9, 0))
    app = leading_app(led)
    async with app.run_test() as pilot:
        await settle(app, pilot)
        led.picture = replace(led.picture, state=State.STOPPED, leaves=None)
        await settle(app, pilot)
        assert isinstance(app.screen, Stopped)
        led.picture = scene.snap(9, 0)
        await settle(app, pilot)
        assert isinstance(app.screen, Live)


async def test_ending_asks_and_anything_but_yes_goes_on(
    scene: ModuleType, hands: ModuleType
) -> None:
    led = hands.Led(scene.snap(9))
    app = leading_app(led)
    async with app.run_test() as pilot:
        await settle(app, pilot)
        for no in ("n", "escape", "f5", "space", "pagedown"):
            await pilot.press("q")
            assert isinstance(app.screen, Ask)
            await pilot.press(no)
            assert isinstance(app.screen, Live)
    assert led.posted == []


@pytest.mark.parametrize("key", ["q", "ctrl+q", "ctrl+c"])
async def test_yes_ends_the_class(scene: ModuleType, hands: ModuleType, key: str) -> None:
    led = hands.Led(scene.snap(9))
    app = leading_app(led)
    async with app.run_test() as pilot:
        await settle(app, pilot)
        await pilot.press(key, key, "y")
        assert led.done == [Do.END]
        led.picture = hands.finished(led.picture)
        await settle(app, pilot)
        await pilot.press("enter")
    assert app.return_value
    assert app.return_value.how is How.ENDED


async def test_escape_and_f5_hold_and_never_end(scene: ModuleType, hands: ModuleType) -> None:
    led = hands.Led(scene.snap(9))
    app = leading_app(led)
    async with app.run_test() as pilot:
        await settle(app, pilot)
        await pilot.press("escape", "f5", "escape", "f5")
        assert app.is_running
    assert set(led.done) == {Do.HOLD}


async def test_a_class_that_has_not_begun_is_left_without_a_question(
    scene: ModuleType, hands: ModuleType
) -> None:
    app = leading_app(hands.Led(scene.snap(0, 0, State.READY)))
    async with app.run_test() as pilot:
        await settle(app, pilot)
        await pilot.press("q")
    assert app.return_value
    assert app.return_value.how is How.LEFT


async def test_a_finished_class_tells_how_it_went(scene: ModuleType, hands: ModuleType) -> None:
    led = hands.Led(scene.snap(20))
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        await pilot.press("question_mark")
        led.picture = hands.finished(led.picture)
        await settle(app, pilot)
        assert isinstance(app.screen, Ended)
        await until(pilot, lambda: "Next time" in hands.text(app))
        compare("ended-80x24", hands.text(app))
        await pilot.press("space")
    assert app.return_value
    assert app.return_value.how is How.FINISHED
    assert app.return_value.leading is led


async def test_a_class_that_cannot_be_told_of_ends_all_the_same(
    scene: ModuleType, hands: ModuleType
) -> None:
    led = hands.Led(hands.finished(scene.snap(20)))
    led.unkept = "the disk is gone"
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        words = "How it went cannot be told: OSError: the disk is gone"
        await until(pilot, lambda: words in hands.text(app))
        await pilot.press("enter")
    assert app.return_value
    assert app.return_value.how is How.FINISHED


async def test_keys_of_the_class_do_not_fire_under_help(
    scene: ModuleType, hands: ModuleType
) -> None:
    led = hands.Led(scene.snap(9))
    app = leading_app(led)
    async with app.run_test(size=(120, 40)) as pilot:
        await settle(app, pilot)
        await pilot.press("question_mark")
        assert isinstance(app.screen, Help)
        compare("help-120x40", hands.text(app))
        await pilot.press("n", "h", "q")
        assert isinstance(app.screen, Live)
    assert led.posted == []


async def test_help_is_installed_once(scene: ModuleType, hands: ModuleType) -> None:
    app = leading_app(hands.Led(scene.snap(9)))
    async with app.run_test() as pilot:
        await settle(app, pilot)
        await pilot.press("question_mark")
        first = app.screen
        await pilot.press("escape", "question_mark")
        assert app.screen is first


@pytest.mark.parametrize("key", ["i", "f1", "f5", "space", "enter", "question_mark"])
async def test_help_closes_by_the_keys_that_open_it_and_those_of_a_remote(
    scene: ModuleType, hands: ModuleType, key: str
) -> None:
    led = hands.Led(scene.snap(9))
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        await pilot.press("question_mark")
        assert "Escape or Enter closes this page." in hands.text(app)
        await pilot.press(key)
        assert isinstance(app.screen, Live)
    assert led.posted == []


async def test_the_palette_offers_only_what_is_accepted_now(
    scene: ModuleType, hands: ModuleType
) -> None:
    app = leading_app(hands.Led(scene.snap(9, offers=frozenset({Do.STOP, Do.END}))))
    async with app.run_test() as pilot:
        await settle(app, pilot)
        titles = [one.title for one in app.get_system_commands(app.screen)]
        await pilot.press("ctrl+p")
        assert isinstance(app.screen, CommandPalette)
    assert titles[:4] == ["Stop, go on", "End the class", "Mirror on, off", "Help"]
    assert "Hold, go on" not in titles


async def test_what_the_last_command_did_is_shown_until_the_next_one(
    scene: ModuleType, hands: ModuleType
) -> None:
    led = hands.Led(scene.snap(9, reply=Reply(False, "there is no part before")))
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        assert "✗ there is no part before" in hands.text(app)
        led.clock.forward(90_000)
        await settle(app, pilot)
        assert "✗ there is no part before" in hands.text(app)
        led.picture = replace(led.picture, reply=Reply(True, "Next: plank."))
        await settle(app, pilot)
        assert "✓ Next: plank." in hands.text(app)
        assert "no part before" not in hands.text(app)


async def test_trouble_with_the_sound_is_on_the_screen(
    scene: ModuleType, hands: ModuleType
) -> None:
    app = leading_app(hands.Led(scene.snap(9), "The sound device is gone."))
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        assert "The sound device is gone." in hands.text(app)


@pytest.mark.parametrize("theme", ["dark", "light", "contrast"])
async def test_a_theme_is_the_palette_asked_for(
    scene: ModuleType, hands: ModuleType, theme: str
) -> None:
    app = leading_app(hands.Led(scene.snap(9)), theme=theme)
    async with app.run_test() as pilot:
        await settle(app, pilot)
        assert app.theme == theme
        assert app.current_theme.dark == (theme != "light")


@pytest.mark.parametrize(("value", "grey"), [("1", True), ("", False)])
async def test_no_color_is_honoured_unless_empty(
    scene: ModuleType, hands: ModuleType, monkeypatch: pytest.MonkeyPatch, value: str, grey: bool
) -> None:
    monkeypatch.setenv("NO_COLOR", value)
    app = leading_app(hands.Led(scene.snap(9)))
    async with app.run_test() as pilot:
        await settle(app, pilot)
        assert app.no_color is grey


@pytest.mark.parametrize(
    ("key", "most"), [("question_mark", 0), ("ctrl+p", 0), ("q", 2)], ids=["help", "palette", "ask"]
)
async def test_hardly_anything_is_drawn_beneath_what_lies_over_the_class(
    scene: ModuleType, hands: ModuleType, monkeypatch: pytest.MonkeyPatch, key: str, most: int
) -> None:
    led = hands.Led(scene.snap(9, 0))
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        await pilot.press(key)
        await pilot.pause()
        assert app._timer
        app._timer.stop()
        drawn = list[str]()
        monkeypatch.setattr(Board, "show", lambda *_: drawn.append("show"))
        monkeypatch.setattr(Board, "move", lambda *_: drawn.append("move"))
        for _ in range(10):  # half a second of ticks, the clock going on
            led.clock.forward(1000)
            app.tick()
        assert len(drawn) <= most
        assert "move" not in drawn
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen, Live))
        led.clock.forward(1000)
        app.tick()
        assert drawn[-2:] == ["show", "move"]


async def test_nothing_is_drawn_beneath_a_stopped_class(
    scene: ModuleType, hands: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    led = hands.Led(scene.snap(9, 0, State.STOPPED, leaves=None))
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        await settle(app, pilot)
        assert isinstance(app.screen, Stopped)
        drawn = list[str]()
        monkeypatch.setattr(Live, "show", lambda *_, **__: drawn.append("live"))
        monkeypatch.setattr(Pane, "show", lambda *_: drawn.append("stopped"))
        for _ in range(10):
            app.tick()
        assert drawn == []


async def test_keys_lead_the_real_engine(scene: ModuleType, hands: ModuleType) -> None:
    led = hands.Engined(scene.build())
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        assert "ready to begin" in hands.text(app)
        await pilot.press("pagedown")
        await settle(app, pilot)
        assert "coming in" in hands.text(app)
        led.clock.forward(45_000)
        await settle(app, pilot)
        assert "Stand  ·  on the right" in hands.text(app)
        await pilot.press("f5")
        led.clock.forward(9_000)
        await settle(app, pilot)
        assert "HOLDING" in hands.text(app)
        await pilot.press("full_stop")
        await settle(app, pilot)
        assert isinstance(app.screen, Stopped)
        assert "goes on" not in hands.text(app)
        await pilot.press("full_stop")
        led.clock.forward(4_000)
        await settle(app, pilot)
        assert isinstance(app.screen, Stopped)
        assert "Space or Page Down goes on." in hands.text(app)
        await pilot.press("pagedown")
        led.clock.forward(4_000)
        await settle(app, pilot)
        assert isinstance(app.screen, Live)
        await pilot.press("q", "y")
        await settle(app, pilot)
        assert isinstance(app.screen, Ended)


async def test_text_of_a_plan_is_never_markup(scene: ModuleType, hands: ModuleType) -> None:
    snapshot = scene.snap(9, saying="step [/] foot [red]now[/red]")
    app: App[Any] = leading_app(hands.Led(snapshot))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        app.tick()  # type: ignore[attr-defined]
        await pilot.pause()
        assert "step [/] foot [red]now[/red]" in hands.text(app)
