from types import ModuleType

import pytest

from conductor.breathing.session import Session
from conductor.clock import SetClock
from conductor.engine.model import Do
from conductor.screens.breathing import BreathApp, BreathPage
from conductor.settings import Settings
from conductor.sides import Breath
from tests.screens.pilots import compare, leading_app, settle


def sat(breaths: int = 13) -> Session:
    session = Session()
    for n in range(breaths):
        session.press(n * 10_000 + (n % 3) * 300, Breath.IN)
        session.press(n * 10_000 + 4000 + (n % 2) * 200, Breath.OUT)
    session.press(breaths * 10_000, Breath.IN)
    return session


@pytest.mark.parametrize("size", [(40, 15), (80, 24), (120, 40), (200, 60)])
async def test_pictures_of_a_breath_that_has_settled(
    hands: ModuleType, size: tuple[int, int]
) -> None:
    clock = SetClock(132_500)
    app = BreathApp(sat(), clock.now, Settings())
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        page = app.screen
        assert isinstance(page, BreathPage)
        page.draw()
        await pilot.pause()
        compare(f"breath-{size[0]}x{size[1]}", hands.text(app))


async def test_keys_are_taps_at_the_time_they_come() -> None:
    clock, session = SetClock(), Session()
    app = BreathApp(session, clock.now, Settings())
    async with app.run_test(size=(80, 24)) as pilot:
        for key in ("up", "down", "u", "j", "pageup", "pagedown", "space"):
            await pilot.press(key)
            clock.forward(3000)
        taps = session.taps()
        await pilot.press("r")
        assert session.taps() == ()
        await pilot.press("enter")
    assert [tap.at for tap in taps] == list(range(0, 21_000, 3000))
    assert [tap.breath for tap in taps] == [*[Breath.IN, Breath.OUT] * 3, None]


async def test_in_a_rehearsal_the_class_stops_for_the_page(
    scene: ModuleType, hands: ModuleType
) -> None:
    clock = SetClock()

    class Rehearsal(hands.Led):  # type: ignore[misc, name-defined]
        def __init__(self) -> None:
            super().__init__(scene.snap(3, 1000))
            self.session = Session()
            self.times = 1.0
            self.tapped: list[Breath] = []

        def speed(self) -> float:
            return self.times

        def at_speed(self, times: float) -> None:
            self.times = times

        def tap(self, breath: Breath) -> None:
            self.tapped.append(breath)

        def sitting(self) -> tuple[Session, object]:
            return self.session, clock.now

        def standing(self) -> str:
            return "Rehearsal"

    led = Rehearsal()
    app = leading_app(led)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(app, pilot)
        assert "Rehearsal" in hands.text(app)
        for name in ("quicker", "inhale", "exhale"):
            app.action_act(name)
        assert led.times == 1.25
        assert led.tapped == [Breath.IN, Breath.OUT]
        app.action_act("your breath")
        await pilot.pause()
        assert isinstance(app.screen, BreathPage)
        assert led.done == [Do.STOP]
        await pilot.press("u", "q")
        await pilot.pause()
        assert not isinstance(app.screen, BreathPage)
    assert len(led.session.taps()) == 1
