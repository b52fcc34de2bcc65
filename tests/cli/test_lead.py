import json
import os
import subprocess
import sys
import time
from datetime import datetime, timedelta
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from conductor.cli import cli
from conductor.cli.classroom import Led
from conductor.cli.how import How
from conductor.cli.lead import Asked, _screens, _time_of_day
from conductor.cli.opening import find, opened
from conductor.engine.model import Happening
from conductor.run.journal import lines
from conductor.screens.wiring import Ending, Wishes
from conductor.screens.wiring import How as Ended
from conductor.settings import Settings

PATIENCE_S = 30


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.setenv(name, str(tmp_path / name))
    return tmp_path


def led(
    *options: str, plan: str = "salutation-a", typed: str = ""
) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "conductor", "lead", plan, *options]
    return subprocess.run(command, input=typed, capture_output=True, text=True, check=False)


@pytest.mark.slow
def test_without_a_terminal_the_class_comes_as_lines_of_text() -> None:
    done = led("--speed", "60", "--no-journal")
    assert done.returncode == 0, done.stderr
    assert "Inhale: arms overhead. Next: standing fold." in done.stdout
    assert "on time. Every moment was led." in done.stdout
    assert done.stdout.rstrip().splitlines()[-1].startswith("Next time: ")
    assert "\x1b" not in done.stdout


@pytest.mark.slow
def test_the_journal_names_score_version_and_speed_and_every_moment(home: Path) -> None:
    assert led("--speed", "60").returncode == 0
    folder = home / "XDG_STATE_HOME" / "conductor" / "journals"
    (journal,) = folder.glob("*.jsonl")
    (score,) = folder.glob("*.score.json")
    told = lines(journal)
    assert told[0]["kind"] == "opened"
    assert told[0]["speed"] == 60
    assert str(told[0]["score"]) in score.name
    moments = [line["moment"] for line in told if line["kind"] == "moment"]
    assert moments == [moment["id"] for moment in json.loads(score.read_text("utf-8"))["moments"]]
    assert told[-1]["kind"] == "finished"


@pytest.mark.slow
def test_commands_can_be_typed() -> None:
    done = led("--speed", "60", "--no-journal", typed="next part\nwhere\n")
    assert done.returncode == 0, done.stderr
    assert "Not done" in done.stdout or "Done" in done.stdout


def test_a_plan_that_cannot_be_led_is_told_with_its_place(tmp_path: Path) -> None:
    plan = tmp_path / "bad.yaml"
    plan.write_text("plan: 1\ntitle: Bad\nparts:\n  - part: One\n    steps:\n      - in: wobble\n")
    done = led("--plain", plan=str(plan))
    assert done.returncode == 1
    assert f"{plan}:6:" in done.stdout + done.stderr
    assert "wobble" in done.stdout + done.stderr


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["lead", "no-such-plan"], "salutation-a"),
        (["lead", "salutation-a", "--rate", "20"], "rate lies between 80 and 450"),
        (["lead", "salutation-a", "--end", "25:00"], "HH:MM"),
        (["lead"], "which plan?"),
        (["leed"], "Did you mean lead?"),
        (["lead", "salutation-a", "--plain", "--voice", "nobody"], "nobody"),
    ],
)
def test_wrong_use_is_told_and_exits_with_2(arguments: list[str], told: str) -> None:
    result = CliRunner().invoke(cli, arguments)
    assert result.exit_code == 2
    assert told in result.output


def test_a_time_of_day_is_the_next_such_time() -> None:
    now = datetime.now().astimezone()
    end = _time_of_day(f"{now + timedelta(hours=1):%H:%M}")
    assert end is not None
    assert 3500 < (end - now).total_seconds() <= 3600
    assert _time_of_day(None) is None


def test_a_time_that_is_past_is_no_time_of_tomorrow() -> None:
    past = f"{datetime.now().astimezone() - timedelta(hours=1):%H:%M}"
    with pytest.raises(click.BadParameter, match="is past"):
        _time_of_day(past)


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="tmux")
@pytest.mark.parametrize(
    ("given", "status", "words"), [("bad.yaml", 1, "wobble"), ("--resume", 2, "nothing to resume")]
)
def test_what_cannot_be_led_closes_the_screens_and_is_told_on_the_terminal(
    home: Path, given: str, status: int, words: str
) -> None:
    text = "plan: 1\ntitle: Bad\nparts:\n  - part: One\n    steps:\n      - in: wobble\n"
    (home / "bad.yaml").write_text(text, "utf-8")
    socket = f"conductor-bad-{os.getpid()}"
    tmux = ["tmux", "-L", socket]
    state = f"XDG_STATE_HOME={home / 'XDG_STATE_HOME'} PYTHONPATH={Path.cwd()}"
    command = (
        f"cd {home}; {state} {sys.executable} -m conductor lead {given}; echo left with $?; cat"
    )
    subprocess.run([*tmux, "new-session", "-d", "-x", "100", "-y", "24", command], check=True)
    try:
        _see(tmux, f"left with {status}")
        _see(tmux, words)
    finally:
        subprocess.run([*tmux, "kill-server"], check=False, capture_output=True)


def test_what_was_on_the_screens_is_not_told_again(monkeypatch: pytest.MonkeyPatch) -> None:
    class Old(Led):
        def __init__(self) -> None:
            self.asked: list[float] = []

        def news(self, seconds: float) -> tuple[Happening, ...]:
            self.asked.append(seconds)
            return ()

    led, told = Old(), list[list[float]]()
    died = Ending(Ended.DIED, led, "a stumble")

    def plain(one: Old, _: Wishes) -> int:
        told.append([*one.asked])
        return 0

    monkeypatch.setattr("conductor.screens.running.run_app", lambda *_, **__: died)
    monkeypatch.setattr("conductor.cli.lead._lead_plain", plain)
    assert _screens(None, Settings(), How(), Wishes()) == 0
    assert told == [[0]]


def test_the_waiting_screen_names_a_plan_as_its_first_lines_do(tmp_path: Path) -> None:
    plan = tmp_path / "tide.yaml"
    titles = []
    for text in ("plan: 1\ntitle: 'Tide' # low\n", "plan: 1\n", "title:\nplan: 1\n"):
        plan.write_text(text, "utf-8")
        titles.append(Asked(plan, Settings(), How()).title)
    assert titles == ["Tide", "tide", "tide"]
    assert Asked(tmp_path / "gone.yaml", Settings(), How()).title == "gone"
    assert Asked(None, Settings(), How()).title == "The class that broke off"


def test_what_reads_and_leads_is_not_loaded_before_the_first_picture() -> None:
    code = (
        "import sys\n"
        "import conductor.cli.lead, conductor.screens.running\n"
        "names = ('compiler', 'checks', 'plan', 'sound', 'timing', 'engine.engine', 'run')\n"
        "late = {f'conductor.{name}' for name in names} | {'conductor.voice.render'}\n"
        "print(sorted(late & set(sys.modules)))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="tmux")
def test_in_a_real_terminal_the_class_runs_to_its_end(tmp_path: Path) -> None:
    out = tmp_path / "way"
    socket = f"conductor-{os.getpid()}"
    tmux = ["tmux", "-L", socket]
    command = (
        f"{sys.executable} -m conductor lead salutation-a --speed 60 --no-journal --silent; "
        f"echo $? > {out}; tmux -L {socket} wait-for -S over"
    )
    subprocess.run([*tmux, "new-session", "-d", "-x", "80", "-y", "24", command], check=True)
    try:
        _see(tmux, "Sound is off.")
        subprocess.run([*tmux, "send-keys", "Enter"], check=True)
        _see(tmux, "ready to begin")
        subprocess.run([*tmux, "send-keys", "Space"], check=True)
        _see(tmux, "Every moment was led")
        subprocess.run([*tmux, "send-keys", "q"], check=True)
        subprocess.run([*tmux, "wait-for", "over"], check=True, timeout=20)
    finally:
        subprocess.run([*tmux, "kill-server"], check=False, capture_output=True)
    assert out.read_text("utf-8").strip() == "0"


@pytest.mark.parametrize("besides", [("salutation-a",), ("--end", "23:59")])
def test_a_class_that_broke_off_is_gone_on_with_alone(besides: tuple[str, ...]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("conductor.cli.lead._time_of_day", lambda text: text)
        done = CliRunner().invoke(cli, ["lead", "--plain", "--resume", *besides])
    assert done.exit_code == 2
    assert "keeps its plan and its end" in done.output


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="tmux")
def test_a_class_outlives_its_terminal(home: Path) -> None:
    socket = f"conductor-gone-{os.getpid()}"
    tmux = ["tmux", "-L", socket]
    state = home / "XDG_STATE_HOME"
    folder = state / "conductor" / "journals"
    command = f"XDG_STATE_HOME={state} {sys.executable} -m conductor lead salutation-a "
    command += "--speed 30 --silent"
    subprocess.run([*tmux, "new-session", "-d", "-x", "80", "-y", "24", command], check=True)
    folder = state / "conductor" / "journals"
    try:
        _see(tmux, "Sound is off.")
        subprocess.run([*tmux, "send-keys", "Enter"], check=True)
        _see(tmux, "ready to begin")
        subprocess.run([*tmux, "send-keys", "Space"], check=True)
        _kept(folder, "command")  # a terminal closed before that key is read has begun nothing
    finally:
        subprocess.run([*tmux, "kill-server"], check=False, capture_output=True)
    kinds = _kept(folder, "finished")
    assert kinds[-1] == "finished"
    assert kinds.count("moment") == len(opened(find("salutation-a")).score.moments)  # type: ignore[union-attr]


def _kept(folder: Path, kind: str) -> list[object]:
    """The kinds of lines in the journals, once there is one of that kind."""
    until = time.monotonic() + PATIENCE_S
    kinds: list[object] = []
    while time.monotonic() < until and kind not in kinds:
        kinds = [line["kind"] for path in folder.glob("*.jsonl") for line in lines(path)]
    return kinds


def _see(tmux: list[str], words: str) -> None:
    """Look at the screen until the words stand there."""
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        seen = subprocess.run(
            [*tmux, "capture-pane", "-p"], capture_output=True, text=True, check=False
        )
        if words in seen.stdout:
            return
    raise AssertionError(seen.stdout)


WAYS = """plan: 1
title: Ways
kind: piece
parts:
  - part: One
    steps:
      - come to: mountain
      - in: tree
        side: right
        variants: {gentle: toes on the floor, full: eyes closed}
      - out: mountain
"""


@pytest.mark.slow
def test_a_way_of_the_plan_is_chosen_by_its_name(tmp_path: Path) -> None:
    plan = tmp_path / "ways.yaml"
    plan.write_text(WAYS, "utf-8")
    done = led("--speed", "60", "--no-journal", "--level", "gentle", plan=str(plan))
    assert done.returncode == 0, done.stderr
    assert "Ways beside the written one: gentle, full" in done.stdout
    assert "Inhale: tree, toes on the floor, right raised leg" in done.stdout


@pytest.mark.slow
def test_a_way_the_plan_does_not_have_is_told_with_those_it_has(tmp_path: Path) -> None:
    plan = tmp_path / "ways.yaml"
    plan.write_text(WAYS, "utf-8")
    done = led("--plain", "--no-journal", "--level", "gentel", plan=str(plan))
    assert done.returncode == 2
    assert "no way is called 'gentel' here. The plan has: gentle, full." in done.stderr


@pytest.mark.slow
def test_no_slip_in_the_settings_keeps_a_class_from_being_led(home: Path) -> None:
    file = home / "XDG_CONFIG_HOME" / "conductor" / "settings.toml"
    file.parent.mkdir(parents=True)
    file.write_text('rate = 20\nroom = "new"\n[keys]\nnext = "h"\nback = "z"\n', "utf-8")
    done = led("--speed", "60", "--no-journal", typed="help\n")
    assert done.returncode == 0
    assert f"{file}: rate lies between 80 and 450" in done.stderr
    assert f'{file}: [keys] next: h is a key of "hold" too; give each its own' in done.stderr
    assert "back (z): " in done.stdout
    assert "Every moment was led." in done.stdout
