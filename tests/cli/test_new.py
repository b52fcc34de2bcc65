"""`conductor new`: writes a plan, never over another one unasked, and says what it cannot do."""

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from conductor.cli import new as module
from conductor.cli.new import new


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> CliRunner:
    monkeypatch.chdir(tmp_path)
    return CliRunner()


def test_without_a_terminal_it_takes_the_usual_answers_and_names_the_file(run: CliRunner) -> None:
    result = run.invoke(new, ["--seed", "3", "--length", "20min"])
    assert result.exit_code == 0, result.output
    (path,) = Path().iterdir()
    assert path.suffix == ".yaml"
    assert "length: 20 min" in path.read_text("utf-8")
    assert "the check has nothing to say" in result.stderr
    assert "Seed 3" in result.stderr
    assert "neither a teacher's training nor medical advice" in result.stderr


def test_a_dash_writes_the_plan_and_nothing_else_to_the_terminal(run: CliRunner) -> None:
    result = run.invoke(new, ["--seed", "3", "--length", "12 min", "--focus", "slow", "-o", "-"])
    assert result.stdout.startswith("# A first plan of 12 minutes, slow")
    assert result.stderr == ""
    assert not list(Path().iterdir())


def test_all_options_stand_in_the_plan(run: CliRunner) -> None:
    asked = ["--length", "25", "--focus", "balance", "--for", "beginners", "--breath", "6 a minute"]
    asked += ["--first-side", "left", "--title", "One: two", "--seed", "8", "-o", "-"]
    text = run.invoke(new, asked).stdout
    for line in ("length: 25 min", "for: beginners", "breath: 5 s in, 5 s out"):
        assert line in text
    assert 'title: "One: two"' in text
    assert "first side: left" in text


def test_a_file_that_is_there_is_written_over_only_with_force(run: CliRunner) -> None:
    Path("mine.yaml").write_text("my own", "utf-8")
    asked = ["--length", "10min", "--seed", "1", "-o", "mine.yaml"]
    refused = run.invoke(new, asked)
    assert refused.exit_code == 2
    assert "is there already" in refused.stderr
    assert Path("mine.yaml").read_text("utf-8") == "my own"
    assert run.invoke(new, [*asked, "--force"]).exit_code == 0
    assert Path("mine.yaml").read_text("utf-8") != "my own"


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (["--length", "5min"], "give 10 to 90 min"),
        (["--length", "soon"], "is no length"),
        (["--focus", "arms"], "hips, backbend, balance, slow"),
        (["--breath", "slowly"], "is no breath"),
        (["--breath", "2 s in, 3 s out"], "each half from"),
        (["--first-side", "top"], "right or left"),
        (["--focus", "slow", "--breath", "3 s in, 3 s out"], "contradict each other"),
        (["--for", "prenatal"], "medical or licensed advice"),
        (["--length", "10min", "--breath", "7 s in, 7 s out", "--seed", "1"], "takes at least"),
    ],
)
def test_what_cannot_be_is_refused_with_what_can(
    run: CliRunner, asked: list[str], words: str
) -> None:
    result = run.invoke(new, asked)
    assert result.exit_code == 2
    assert words in " ".join(result.stderr.split())
    assert not list(Path().iterdir())


def test_questions_are_asked_on_a_terminal_until_they_are_answered(
    run: CliRunner, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "_asks", lambda: True)
    answers = "arms\nslow\n\nbeginners\n\nleft\n\n"
    result = run.invoke(new, ["--seed", "2", "--length", "15min"], input=answers)
    assert result.exit_code == 0, result.stderr
    assert "What should the class lead up to" in result.stderr
    assert "give one of hips" in result.stderr
    assert "How long is it" not in result.stderr  # an option gave it
    (path,) = Path().iterdir()
    assert "for: beginners" in path.read_text("utf-8") or "first side: left" in path.read_text()


def test_writing_over_is_asked_on_a_terminal(
    run: CliRunner, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "_asks", lambda: True)
    Path("mine.yaml").write_text("my own", "utf-8")
    asked = ["--length", "10min", "--focus", "hips", "--for", "x", "--breath", "4 s in, 4 s out"]
    asked += ["--first-side", "right", "--seed", "1", "-o", "mine.yaml"]
    assert run.invoke(new, asked, input="n\n").exit_code == 2
    assert Path("mine.yaml").read_text("utf-8") == "my own"
    assert run.invoke(new, asked, input="y\n").exit_code == 0
    assert re.search(r"^plan: 1$", Path("mine.yaml").read_text("utf-8"), re.MULTILINE)


def test_a_folder_that_is_not_there_is_told(run: CliRunner) -> None:
    result = run.invoke(new, ["--length", "10min", "--seed", "1", "-o", "no/where.yaml"])
    assert result.exit_code == 1
    assert "No such file" in result.stderr
