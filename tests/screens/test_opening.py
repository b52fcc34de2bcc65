import threading
from types import ModuleType
from typing import Any

import pytest

from conductor.engine.model import State
from conductor.screens.app import ConductorApp
from conductor.screens.before import Before
from conductor.screens.choose import Choose, Waiting
from conductor.screens.live import Live
from conductor.screens.overlays import Sheet
from conductor.screens.wiring import How, Offer, Opening
from conductor.settings import Settings
from conductor.view.machine import Fact
from tests.screens.pilots import compare, settle, until


async def test_from_the_shelf_to_the_class(scene: ModuleType, hands: ModuleType) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY), "tide.yaml:4:5: warning: a long cue")
    ready.voice.clear()
    app = ConductorApp(Settings(), lambda: "18:42", shelf=hands.Plans(ready))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "Tide Table" in hands.text(app))
        assert isinstance(app.screen, Choose)
        compare("choose-80x24", hands.text(app))
        await pilot.press("enter")
        await until(pilot, lambda: "voice 1 of 4" in hands.text(app))
        assert isinstance(app.screen, Before)
        await pilot.press("enter")
        assert "still getting ready" in hands.text(app)
        ready.voice.set()
        await until(pilot, lambda: "The voice is ready." in hands.text(app))
        compare("before-80x24", hands.text(app))
        await pilot.press("t")
        await until(pilot, lambda: "You should hear a bell." in hands.text(app))
        await pilot.press("enter")
        await settle(app, pilot)
        assert isinstance(app.screen, Live)
        compare("ready-80x24", hands.text(app))


async def test_a_plan_with_errors_shows_them_and_is_not_led(
    scene: ModuleType, hands: ModuleType
) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY))
    app = ConductorApp(Settings(), lambda: "18:42", shelf=hands.Plans(ready))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "Tide Table" in hands.text(app))
        await pilot.press("pagedown", "enter")
        await pilot.pause()
        assert isinstance(app.screen, Sheet)
        assert "no shape is called [keel]" in hands.text(app)
        await pilot.press("escape")
        assert isinstance(app.screen, Choose)
        await pilot.press("q")
    assert app.return_value
    assert app.return_value.how is How.LEFT


async def test_a_voice_that_fails_is_told_and_the_class_can_still_open(
    scene: ModuleType, hands: ModuleType
) -> None:
    class Mute(hands.Ready):  # type: ignore[misc, name-defined]
        def prepare(self, progress: Any) -> str:
            raise OSError("no voice here")

        def begin_now(self) -> str:
            return ""

        def sound_test(self) -> str:
            raise OSError("no device")

    app = ConductorApp(Settings(), lambda: "18:42", prepared=Mute(scene.snap(0, 0, State.READY)))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "no voice here" in hands.text(app))
        await pilot.press("t")
        await until(pilot, lambda: "The sound test failed: no device" in hands.text(app))
        await pilot.press("pagedown")
        await settle(app, pilot)
        assert isinstance(app.screen, Live)


async def test_going_back_while_the_voice_gets_ready_harms_nothing(
    scene: ModuleType, hands: ModuleType
) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY))
    ready.voice.clear()
    app = ConductorApp(Settings(), lambda: "18:42", shelf=hands.Plans(ready))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "Tide Table" in hands.text(app))
        await pilot.press("enter")
        await until(pilot, lambda: "voice 1 of 4" in hands.text(app))
        await pilot.press("escape")
        assert isinstance(app.screen, Choose)
        ready.voice.set()
        await pilot.pause()
        assert app.is_running


async def test_what_is_opened_is_named_before_it_is_read(
    scene: ModuleType, hands: ModuleType
) -> None:
    seen, go = list[str](), threading.Event()
    ready = hands.Ready(scene.snap(0, 0, State.READY))

    def opened() -> Any:
        seen.append(hands.text(app))
        assert go.wait(10)
        return ready

    app = ConductorApp(Settings(), lambda: "18:42", opening=Opening("Tide [b]Table[/b]", opened))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: seen)
        assert isinstance(app.screen, Waiting)
        assert "Tide [b]Table[/b]" in seen[0]
        assert "Reading the plan ..." in seen[0]
        await pilot.press("ctrl+p")  # whatever lies above, the class comes
        go.set()
        await until(pilot, lambda: "The voice is ready." in hands.text(app))
        assert isinstance(app.screen, Before)


async def test_q_leaves_while_a_plan_is_read(hands: ModuleType) -> None:
    go = threading.Event()

    def opened() -> str:
        go.wait(10)
        return "too late"

    app = ConductorApp(Settings(), lambda: "18:42", opening=Opening("Tide", opened))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("q")
    go.set()
    assert app.return_value
    assert app.return_value.how is How.LEFT


@pytest.mark.parametrize("fails", [False, True])
async def test_a_plan_asked_for_that_cannot_be_led_closes_the_screens(fails: bool) -> None:
    def opened() -> str:
        if fails:
            raise RuntimeError("no shape is called keel")
        return "no shape is called keel"

    app = ConductorApp(Settings(), lambda: "18:42", opening=Opening("Tide", opened))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: not app.is_running)
    assert app.return_value
    assert app.return_value.how is How.REFUSED
    assert "no shape is called keel" in app.return_value.error


async def test_voice_and_sound_get_ready_once_the_page_is_drawn(
    scene: ModuleType, hands: ModuleType
) -> None:
    seen = list[str]()

    class Looking(hands.Ready):  # type: ignore[misc, name-defined]
        def prepare(self, progress: Any) -> str:
            seen.append(hands.text(app))
            return ""

    app = ConductorApp(Settings(), lambda: "18:42", prepared=Looking(scene.snap(0, 0, State.READY)))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: seen)
    assert "Enter opens the class." in seen[0]


async def test_what_was_made_ready_is_let_go_when_it_is_left(
    scene: ModuleType, hands: ModuleType
) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY))
    app = ConductorApp(Settings(), lambda: "18:42", shelf=hands.Plans(ready))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "Tide Table" in hands.text(app))
        await pilot.press("enter")
        await until(pilot, lambda: "The voice is ready." in hands.text(app))
        await pilot.press("escape")
        await until(pilot, ready.closed.is_set)
        ready.closed.clear()
        await pilot.press("enter")
        await until(pilot, lambda: "The voice is ready." in hands.text(app))
        await pilot.press("q")
    app.let_go()
    assert ready.closed.is_set()


async def test_a_class_that_begins_keeps_what_was_made_ready(
    scene: ModuleType, hands: ModuleType
) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY))
    app = ConductorApp(Settings(), lambda: "18:42", prepared=ready)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "The voice is ready." in hands.text(app))
        await pilot.press("enter")
        await settle(app, pilot)
        assert isinstance(app.screen, Live)
    app.let_go()
    assert not ready.closed.is_set()


async def test_the_words_are_large_where_the_class_has_no_voice(
    scene: ModuleType, hands: ModuleType
) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY))
    ready.voiced = False
    app = ConductorApp(Settings(), lambda: "18:42", prepared=ready)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "The voice is ready." in hands.text(app))
        await pilot.press("enter")
        await settle(app, pilot)
        assert isinstance(app.screen, Live)
        assert not app.screen._voiced


async def test_a_resumed_class_says_where_it_goes_on(scene: ModuleType, hands: ModuleType) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY))
    ready.goes_on = scene.build().moments[5].id
    app = ConductorApp(Settings(), lambda: "18:42", prepared=ready)
    async with app.run_test(size=(80, 24)) as pilot:
        words = "It goes on from where it broke off: Stand, crescent lunge, right foot forward."
        await until(pilot, lambda: words in " ".join(hands.text(app).split()))


@pytest.mark.parametrize("broken", ["plans", "open"])
async def test_a_shelf_that_fails_is_told(
    scene: ModuleType, hands: ModuleType, broken: str
) -> None:
    class Falling(hands.Plans):  # type: ignore[misc, name-defined]
        def plans(self) -> Any:
            if broken == "plans":
                raise OSError("the folder is gone")
            return super().plans()

        def open(self, key: str) -> Any:
            raise OSError("the file is gone")

    app = ConductorApp(Settings(), lambda: "18:42", shelf=Falling(None))
    async with app.run_test(size=(80, 24)) as pilot:
        if broken == "open":
            await until(pilot, lambda: "Tide Table" in hands.text(app))
            await pilot.press("enter")
            await until(pilot, lambda: "the file is gone" in hands.text(app))
        else:
            await until(pilot, lambda: "the folder is gone" in hands.text(app))
        assert app.is_running


class Offers:
    """A class that broke off, and what was answered to its offer."""

    def __init__(self, hands: ModuleType, ready: Any) -> None:
        self.answers: list[str] = []
        self.ready = ready
        self.offer = Offer("Old Tide", "Old Tide broke off.", self.go_on, self.let_go)

    def go_on(self) -> Any:
        self.answers.append("go on")
        return self.ready

    def let_go(self) -> None:
        self.answers.append("let go")


@pytest.mark.parametrize("key", ["enter", "pagedown"])
async def test_a_class_that_broke_off_is_offered_first(
    scene: ModuleType, hands: ModuleType, key: str
) -> None:
    old = hands.Ready(scene.snap(5, 0, State.STOPPED))
    old.goes_on = old.score.moments[5].id
    offers = Offers(hands, old)
    new = Opening("Tide", lambda: hands.Ready(scene.snap(0, 0, State.READY)))
    app = ConductorApp(Settings(), lambda: "18:42", opening=new, offering=lambda: offers.offer)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "Old Tide broke off." in hands.text(app))
        compare("offered-80x24", hands.text(app))
        await pilot.press(key)
        await until(pilot, lambda: "The voice is ready." in hands.text(app))
        assert "It goes on from where it broke off" in hands.text(app)
    assert offers.answers == ["go on"]


@pytest.mark.parametrize("shelf", [False, True])
async def test_a_class_that_is_not_gone_on_with_makes_room(
    scene: ModuleType, hands: ModuleType, shelf: bool
) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY))
    offers = Offers(hands, ready)
    asked: dict[str, Any] = {"opening": Opening("Tide", lambda: ready)}
    if shelf:
        asked = {"shelf": hands.Plans(ready)}
    app = ConductorApp(Settings(), lambda: "18:42", offering=lambda: offers.offer, **asked)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "Old Tide broke off." in hands.text(app))
        await pilot.press("n")
        there = "Rope and" if shelf else "The voice is ready."
        await until(pilot, lambda: there in hands.text(app))
        assert isinstance(app.screen, Choose if shelf else Before)
    assert offers.answers == ["let go"]


async def test_a_class_that_cannot_be_taken_up_is_told(
    scene: ModuleType, hands: ModuleType
) -> None:
    offers = Offers(hands, "The other window does not let go of it.")
    app = ConductorApp(
        Settings(), lambda: "18:42", shelf=hands.Plans(None), offering=lambda: offers.offer
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "Old Tide broke off." in hands.text(app))
        await pilot.press("y")
        await until(pilot, lambda: "does not let go" in hands.text(app))
        assert isinstance(app.screen, Sheet)
        await pilot.press("space")
        await until(pilot, lambda: "Tide Table" in hands.text(app))


async def test_journals_that_fail_keep_nobody_from_a_class(
    scene: ModuleType, hands: ModuleType
) -> None:
    def fails() -> None:
        raise ValueError("torn")

    ready = hands.Ready(scene.snap(0, 0, State.READY))
    new = Opening("Tide", lambda: ready)
    app = ConductorApp(Settings(), lambda: "18:42", opening=new, offering=fails)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "The voice is ready." in hands.text(app))


async def test_what_is_not_well_with_the_machine_is_said_in_the_news(
    scene: ModuleType, hands: ModuleType
) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY))
    ready.states = (Fact("Sound", "plays."), Fact("Sleep", "cannot be held off\x07.", well=False))
    app = ConductorApp(Settings(), lambda: "18:42", prepared=ready)
    async with app.run_test(size=(120, 60)) as pilot:
        news = "The voice is ready. Read below, The machine: sleep."
        await until(pilot, lambda: news in hands.text(app))
        shown = hands.text(app)
        assert "Sound: plays." in shown
        assert "Sleep: cannot be held off." in shown


async def test_a_machine_that_cannot_be_looked_at_keeps_nobody_from_a_class(
    scene: ModuleType, hands: ModuleType
) -> None:
    ready = hands.Ready(scene.snap(0, 0, State.READY))
    del ready.states  # asked for them, it raises
    app = ConductorApp(Settings(), lambda: "18:42", prepared=ready)
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "The voice is ready." in hands.text(app))
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(app.screen, Live))
