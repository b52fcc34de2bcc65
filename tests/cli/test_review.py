import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conductor import store
from conductor.cli import cli
from conductor.engine.model import Do
from tests.run.review.virtual import STAY, Room, opened, write

DAY = "2026-01-0{}T18-00-00-a"
WALL = "2026-01-0{}T18:00:00+01:00"


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(store, "journals", lambda: tmp_path)
    return tmp_path


def asked(*words: str) -> Result:
    return CliRunner().invoke(cli, ["review", *words])


def lead(folder: Path, day: int, do: Do | None = None, **more: object) -> Path:
    room = Room()
    room.to(f"{STAY['right']}.1", 100)
    if do is not None:
        room.do(do)
    return room.out().keep(folder, DAY.format(day), wall=WALL.format(day), **more)


def test_with_nothing_kept_it_says_what_to_do(shelf: Path) -> None:
    assert "no class has been kept yet" in asked().output
    assert asked("--list").output == "No class has been kept yet.\n"


def test_the_last_class_led_is_shown_and_no_rehearsal(shelf: Path) -> None:
    lead(shelf, 1, Do.MORE)
    lead(shelf, 2, rehearsal=True, speed=20)
    write(shelf / f"{DAY.format(3)}.jsonl", [opened(Room().score)])  # never began
    said = asked().output
    assert said.splitlines()[0] == "Tide, 2026-01-01 18:00"
    assert "Warrior two was led 6 breaths instead of 5" in said


def test_where_there_is_only_a_rehearsal_that_is_said(shelf: Path) -> None:
    lead(shelf, 2, rehearsal=True, speed=20)
    told = asked()
    assert "No class has been led yet; this is the last rehearsal." in told.stderr
    assert "(rehearsal at 20 times the speed)" in told.stdout


def test_three_classes_of_one_mind_give_a_proposal(shelf: Path) -> None:
    for day in (1, 2, 3):
        lead(shelf, day, Do.MORE)
    assert "you added one in each of the last three classes" in " ".join(asked().output.split())


def test_the_list_says_when_what_how_long_and_how_it_ended(shelf: Path) -> None:
    lead(shelf, 1)
    lead(shelf, 2, rehearsal=True, speed=20)
    path = lead(shelf, 3)
    path.with_suffix(".score.json").unlink()
    lines = asked("--list").output.splitlines()
    assert lines[0].startswith("  1  2026-01-03 18:00  Tide ")
    assert lines[0].endswith("cannot be read: its score, 2026-01-03T18-00-00-a.score.json, is gone")
    assert lines[1].endswith("5 min 32 s  to its end, rehearsal at 20 times the speed")
    assert lines[2].endswith("5 min 32 s  to its end")


def test_a_class_is_found_by_its_number_its_day_or_its_file(shelf: Path) -> None:
    lead(shelf, 1)
    path = lead(shelf, 2, Do.FEWER)
    lead(shelf, 3)
    told = asked("2").output
    assert told.startswith("Tide, 2026-01-02 18:00")
    for which in ("2026-01-02", "2026-01-02 18", "2026-01-02 18:00", str(path)):
        assert asked(which).output == told
    assert asked(str(path.with_suffix(".score.json"))).output == told


def test_of_several_on_a_day_the_last_is_shown_and_that_is_said(shelf: Path) -> None:
    lead(shelf, 1)
    lead(shelf, 2)
    told = asked("2026-01")
    assert told.stderr == "2 classes are of 2026-01; this is the last.\n"
    assert told.stdout.startswith("Tide, 2026-01-02")


@pytest.mark.parametrize("which", ["9", "2025-01-01", "tuesday"])
def test_a_class_there_is_not_is_told_with_where_to_look(shelf: Path, which: str) -> None:
    lead(shelf, 1)
    told = asked(which)
    assert told.exit_code == 2
    assert "`conductor review --list`" in told.output


def test_a_bad_journal_is_told_and_nothing_else(shelf: Path) -> None:
    path = lead(shelf, 1)
    path.with_suffix(".score.json").write_text("{}", "utf-8")
    told = asked("1")
    assert told.exit_code == 1
    assert "its score cannot be read" in told.output
    assert "Traceback" not in told.output


def test_it_is_drawn_in_the_terminal_and_as_a_file(shelf: Path) -> None:
    lead(shelf, 1, Do.MORE)
    told = asked("--picture")
    assert told.exit_code == 0
    assert "parts    planned" in told.output
    out = shelf / "it.svg"
    assert asked("-o", str(out)).exit_code == 0
    assert "<svg" in out.read_text("utf-8")
    assert "name a file that ends in" in asked("-o", "it.png").output


def test_as_json_it_is_everything_that_was_counted(shelf: Path) -> None:
    lead(shelf, 1, Do.MORE)
    told = json.loads(asked("--json").output)
    assert told["review"] == 1
    assert told["led"] - told["planned"] == sum(told["account"].values()) == 16_000
    assert told["stays"][0] == {
        "hold": STAY["right"],
        "shape": "warrior-two",
        "side": "right",
        "timed": False,
        "rest": False,
        "planned": 5,
        "led": 6,
        "sure": True,
    }
    assert told["line"][0]["doing"] == "led"
