from conductor.screens.choose import entry_text
from conductor.screens.wiring import Entry


def test_an_entry_tells_length_kind_and_findings() -> None:
    entry = Entry("a", "Lighthouse", length_ms=1_800_000, errors=1, warnings=3)
    assert entry_text(entry) == "Lighthouse\n  30 min  ·  class  ·  ✗ 1 error  ·  ! 3 warnings"


def test_an_entry_that_cannot_be_read_says_why() -> None:
    assert entry_text(Entry("a", "torn.yaml", problem="line 3")) == "torn.yaml\n  ✗ line 3"


def test_titles_are_cleaned() -> None:
    assert entry_text(Entry("a", "Sea\x1b[2J", length_ms=60_000)) == "Sea[2J\n  1 min  ·  class"
