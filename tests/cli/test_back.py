"""Leaving a class and coming back to it."""

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from conductor import store
from conductor.cli.back import offer
from conductor.cli.classroom import Class
from conductor.cli.how import How
from conductor.run.resume import NothingToResumeError, latest
from conductor.settings import Settings
from tests.cli.kills import Killed, environment, faults, killed

KILLS = 10


@pytest.mark.slow
def test_a_class_that_was_killed_is_taken_up_where_it_was(tmp_path: Path) -> None:
    def kill(seed: int) -> Killed:
        home = tmp_path / str(seed)
        home.mkdir()
        return killed(home, seed)

    with ThreadPoolExecutor(4) as pool:
        deaths = list(pool.map(kill, range(KILLS)))
    assert {str(one.home): faults(one) for one in deaths} == {str(one.home): [] for one in deaths}
    assert all(one.printed for one in deaths)


@pytest.fixture
def death(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Killed:
    for name, place in environment(tmp_path).items():
        if name.startswith("XDG"):
            monkeypatch.setenv(name, place)
    return killed(tmp_path, 1)


@pytest.mark.slow
def test_a_class_that_was_killed_is_offered_and_made_ready(death: Killed) -> None:
    found = offer(Settings(sound=False), How())
    assert found is not None
    assert found.title == "Breakwater"
    assert "Breakwater broke off" in found.words
    assert "It goes on from where it broke off: Swell, " in found.words
    ready = found.go_on()
    assert isinstance(ready, Class)
    assert ready.goes_on
    ready.close()
    found.let_go()
    assert offer(Settings(sound=False), How()) is None
    with pytest.raises(NothingToResumeError):
        latest(death.journals)


@pytest.mark.slow
def test_nothing_is_offered_to_a_rehearsal_or_long_after(
    death: Killed, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert store.journals() == death.journals
    assert offer(Settings(), How(speed=10)) is None
    monkeypatch.setattr("conductor.cli.back.OFFERED", death.wall - death.wall)
    assert offer(Settings(), How()) is None


@pytest.mark.slow
def test_without_a_terminal_it_is_told_and_the_class_asked_for_is_led(death: Killed) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "conductor", "lead", str(death.home / "breakwater.yaml")],
        input="end\nyes\n",
        capture_output=True,
        text=True,
        env=environment(death.home),
        check=True,
    )
    assert "Breakwater broke off" in done.stderr
    assert "`conductor lead --resume` goes on with it." in done.stderr
    assert "The class begins" in done.stdout
