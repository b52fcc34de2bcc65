import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from conductor import places
from conductor.cli import cli
from conductor.cli.classroom import Class
from conductor.cli.how import How, Wish
from conductor.cli.opening import Opened, opened
from conductor.cli.rehearsing import Rehearsed, cut
from conductor.cli.shelf import made
from conductor.engine.model import Command, Do
from conductor.run.journal import lines
from conductor.run.resume import NothingToResumeError, latest
from conductor.settings import Settings
from conductor.sides import Breath


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.setenv(name, str(tmp_path / name))
    return tmp_path


def rehearsed(*options: str, typed: str = "") -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "conductor", "rehearse", "salutation-b", *options, "--silent"]
    return subprocess.run(command, input=typed, capture_output=True, text=True, check=False)


@pytest.mark.slow
def test_a_rehearsal_in_lines_ends_with_its_marks_by_line_of_the_plan(home: Path) -> None:
    done = rehearsed("--speed", "60", "--from", "warrior one", typed="mark\nwhere\n")
    assert done.returncode == 0, done.stderr
    told = done.stdout.splitlines()
    assert "Own breath: downward dog. Next: warrior one, right foot forward." in done.stdout
    assert any(line.startswith("1 mark on 1 line of the plan:") for line in told)
    assert "Marked: downward dog." in done.stdout
    journals = home / "XDG_STATE_HOME" / "conductor" / "journals"
    (journal,) = journals.glob("*.jsonl")
    opened_, *rest = lines(journal)
    assert opened_["rehearsal"] is True
    assert [line["kind"] for line in rest if line["kind"] == "mark"] == ["mark"]


@pytest.mark.slow
def test_for_programs_the_marks_are_json_and_the_class_is_told_elsewhere() -> None:
    done = rehearsed("--speed", "60", "--json", typed="mark\n")
    assert done.returncode == 0, done.stderr
    (mark,) = json.loads(done.stdout)["marks"]
    assert mark["file"].endswith("salutation-b.yaml")
    assert mark["text"].strip().startswith("-")
    assert "The class begins." in done.stderr


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["--part", "Harbour"], "there is no part 'Harbour'; there are: "),
        (["--from", "crow"], "crow is not led in this class"),
        (["--from", "warior won"], "did you mean warrior one"),
        (["--from", "warrior one", "--to", "xyzzy plugh"], "no shape is called 'xyzzy plugh'"),
        (["--speed", "61"], "1<=x<=60"),
    ],
)
def test_a_wish_for_what_is_not_there_is_told(arguments: list[str], told: str) -> None:
    result = CliRunner().invoke(cli, ["rehearse", "salutation-b", "--plain", *arguments])
    assert result.exit_code == 2
    assert told in " ".join(result.output.split())


def whole() -> Opened:
    return opened(places.plan("lighthouse-morning"))


@pytest.mark.parametrize(
    ("wish", "first", "parts"),
    [
        (Wish(parts=("cross over",)), "mountain", ["Cross over"]),
        (Wish(parts=("bal", "Rest")), "downward dog", ["Balance", "Rest"]),
        (Wish(first="Virabhadrasana II", last="side angle"), "crescent lunge", ["Cross over"]),
        (Wish(first="left warrior two", last="warrior two"), "five-pointed star", ["Cross over"]),
    ],
)
def test_a_wish_by_the_names_people_use(wish: Wish, first: str, parts: list[str]) -> None:
    score = cut(whole(), wish).score
    assert score is not None
    assert score.shapes[score.moments[0].shape].name == first
    assert [part.name for part in score.parts] == parts


def test_without_a_wish_the_class_is_whole() -> None:
    found = whole()
    assert cut(found, Wish()) is found


def test_a_rehearsal_keeps_marks_changes_speed_and_is_never_resumed(home: Path) -> None:
    how = How(rehearsal=Wish(parts=("rest",)))
    ready = made(places.plan("lighthouse-morning"), Settings(sound=False), how)
    assert isinstance(ready, Class)
    assert ready.led is None
    led = ready.begin()
    assert isinstance(led, Rehearsed)
    assert led.standing() == "Rehearsal"
    led.at_speed(4.0)
    led.post(Command(Do.BEGIN))
    led.post(Command(Do.MARK))
    led.tap(Breath.IN)
    session, now = led.sitting()
    session.press(now(), Breath.IN)
    led.post(Command(Do.END))
    assert led.wait(10)
    assert led.standing() == "Rehearsal, 4 times as fast, voice as text, 1 mark, 2 taps"
    told = led.remains()
    assert told[0] == "1 mark on 1 line of the plan:"
    assert "Your breath in Rest:" in told
    assert "Your breath, apart:" in told
    assert [one["part"] for one in led.as_data()["breath"]] == ["Rest", "apart"]  # type: ignore[attr-defined]
    assert ("Rehearsed", told) in led.after().blocks
    led.close()
    (journal,) = (home / "XDG_STATE_HOME" / "conductor" / "journals").glob("*.jsonl")
    assert "speed" in [line["kind"] for line in lines(journal)]
    with pytest.raises(NothingToResumeError):
        latest(journal.parent)
