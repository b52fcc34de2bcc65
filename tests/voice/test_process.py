import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from conductor.voice.process import Child, ChildGoneError

FAKE = (sys.executable, str(Path(__file__).with_name("fake_child.py")))
PATIENCE_S = 20


@pytest.fixture
def child(tmp_path: Path) -> Iterator[Child]:
    child = Child((*FAKE, str(tmp_path)))
    yield child
    child.kill()


def test_it_answers(child: Child) -> None:
    assert child.ask(PATIENCE_S, do="measure") == {"ok": True, "delivered": 150.0}
    assert child.ask(PATIENCE_S, do="measure")["ok"]


def test_one_that_hangs_is_killed_after_the_limit(child: Child) -> None:
    child.ask(PATIENCE_S, do="measure")
    with pytest.raises(ChildGoneError, match=r"no answer in 0.05 s"):
        child.ask(0.05, do="render", text="hang")
    assert child._process.poll() is not None


def test_one_that_dies_is_noticed_at_once(child: Child) -> None:
    with pytest.raises(ChildGoneError):
        child.ask(PATIENCE_S, do="render", text="die always")
    with pytest.raises(ChildGoneError):
        child.ask(PATIENCE_S, do="measure")


def test_one_that_babbles_is_not_trusted(child: Child) -> None:
    with pytest.raises(ChildGoneError):
        child.ask(PATIENCE_S, do="render", text="babble", part="")
    assert child._process.poll() is not None


def test_one_that_cannot_be_started_says_so() -> None:
    with pytest.raises(OSError, match="No such file"):
        Child(("/nowhere/python",))


def test_it_ends_when_it_is_closed(child: Child) -> None:
    child.ask(PATIENCE_S, do="measure")
    child.close()
    assert child._process.returncode == 0


def test_a_module_in_the_present_folder_is_not_what_the_child_loads(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "wave.py").write_text("raise SystemExit(3)")
    monkeypatch.chdir(tmp_path)
    child = Child()
    assert child.ask(PATIENCE_S, do="voices")["kind"] == "no engine"
    child.close()
