from types import ModuleType

import pytest

from conductor.screens.app import ConductorApp
from conductor.screens.choose import Choose, entry_text, sought
from conductor.screens.wiring import Entry
from conductor.settings import Settings
from tests.screens.pilots import until


def test_an_entry_tells_length_kind_and_findings() -> None:
    entry = Entry("a", "Lighthouse", length_ms=1_800_000, errors=1, warnings=3)
    assert entry_text(entry) == "Lighthouse\n  30 min  ·  class  ·  ✗ 1 error  ·  ! 3 warnings"


def test_an_entry_that_cannot_be_read_says_why() -> None:
    assert entry_text(Entry("a", "torn.yaml", problem="line 3")) == "torn.yaml\n  ✗ line 3"


def test_titles_are_cleaned() -> None:
    assert entry_text(Entry("a", "Sea\x1b[2J", length_ms=60_000)) == "Sea[2J\n  1 min  ·  class"


def test_an_entry_tells_for_whom_it_is_and_when_it_was_led() -> None:
    entry = Entry("a", "Lighthouse", length_ms=60_000, for_="mixed level", led="led yesterday")
    assert entry_text(entry) == "Lighthouse\n  1 min  ·  class  ·  mixed level  ·  led yesterday"
    unread = Entry("a", "Lighthouse", kind="", read=False)
    assert entry_text(unread) == "Lighthouse\n  ..."


def test_two_plans_of_one_title_are_told_apart_by_their_files() -> None:
    screen = Choose()
    alike = [Entry(name, "Tide", file=name) for name in ("a.yaml", "b.yaml")]
    screen._entries = {one.key: one for one in (*alike, Entry("c", "Rope", file="c.yaml"))}
    firsts = [screen._text(one).split("\n")[0] for one in screen._entries.values()]
    assert firsts == ["Tide  (a.yaml)", "Tide  (b.yaml)", "Rope"]


@pytest.mark.parametrize(
    ("words", "found"), [("", True), ("LIGHT", True), ("mixed 30", True), ("tide", False)]
)
def test_plans_are_found_by_all_that_is_shown_of_them(words: str, found: bool) -> None:
    entry = Entry("a", "Lighthouse", length_ms=1_800_000, for_="mixed level", file="l-1.yaml")
    assert sought(entry, words) is found


async def test_searching_shortens_the_list_and_escape_shows_all(hands: ModuleType) -> None:
    app = ConductorApp(Settings(), lambda: "18:42", shelf=hands.Plans(None))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "Tide Table" in hands.text(app))
        await pilot.press("slash", *"rope")
        await until(pilot, lambda: "Tide Table" not in hands.text(app))
        assert "Rope and" in hands.text(app)
        await pilot.press(*"xyz")
        await until(pilot, lambda: "No plan is found" in hands.text(app))
        await pilot.press("escape")
        await until(pilot, lambda: "Tide Table" in hands.text(app))
        await pilot.press("slash", *"rope", "enter", "enter")
        await until(pilot, lambda: "no shape is called [keel]" in hands.text(app))


async def test_plans_are_listed_at_once_and_read_one_after_the_other(hands: ModuleType) -> None:
    class Slow(hands.Plans):  # type: ignore[misc, name-defined]
        def plans(self) -> tuple[Entry, ...]:
            return (
                Entry("tide", "Tide", kind="", read=False),
                Entry("rope", "Rope", kind="", read=False),
            )

        def entry(self, key: str) -> Entry:
            return Entry(key, f"{key} as read", length_ms=60_000)

    app = ConductorApp(Settings(), lambda: "18:42", shelf=Slow(None))
    async with app.run_test(size=(80, 24)) as pilot:
        await until(pilot, lambda: "rope as read" in hands.text(app))
        assert "tide as read\n" in hands.text(app).replace("   ", "")
