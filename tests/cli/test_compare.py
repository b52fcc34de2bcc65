import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conductor.cli import cli
from tests.support import plan_of


def run(*words: str) -> Result:
    return CliRunner().invoke(cli, ["compare", *words])


def test_two_plans_words_first_then_both_on_one_scale() -> None:
    done = run("short-tide", "lighthouse-morning", "--width", "80")
    assert done.exit_code == 0, done.output
    lines = done.stdout.splitlines()
    assert lines[0] == "short-tide and lighthouse-morning"
    assert lines[1] == "lighthouse-morning is 20 min longer than short-tide: 30 min, not 10 min."
    heads = [line[:27].rstrip() for line in lines]
    assert heads.index("parts    short-tide") + 1 == heads.index("         lighthouse-morni…")
    assert max(map(len, lines)) <= 80


def test_a_plan_against_itself_at_another_length() -> None:
    done = run("lighthouse-morning", "--length", "32min", "--json")
    told = json.loads(done.stdout)
    assert told["format"] == 1
    assert told["names"] == ["as written", "for 32 min"]
    assert told["ms"] == [30 * 60_000, 32 * 60_000]
    assert sum(one["ms"][1] for one in told["parts"]) == 32 * 60_000
    assert told["sides"][1]["right"] == told["sides"][1]["left"]
    assert told["words"][0].startswith("The class for 32 min is 2 min longer than as written")


def test_a_length_that_cannot_be_met_is_told() -> None:
    done = run("lighthouse-morning", "--length", "80min")
    assert "It cannot be met wholly: the class is " in done.stdout


def test_the_second_of_two_may_be_fitted_first() -> None:
    done = run("short-tide", "lighthouse-morning", "--length", "29min", "--json")
    told = json.loads(done.stdout)
    assert told["names"] == ["short-tide", "lighthouse-morning for 29 min"]
    assert told["ms"][1] == 29 * 60_000


def test_files_of_one_name_are_told_apart(tmp_path: Path) -> None:
    text = plan_of("- come to: mountain\n- stay: 3 breaths\n")
    for folder in ("a", "b"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "p.yaml").write_text(text)
    done = run(str(tmp_path / "a" / "p.yaml"), str(tmp_path / "b" / "p.yaml"))
    assert done.stdout.startswith("Test: the first and the second\nBoth last ")


def test_a_plan_and_the_one_kept_of_it_are_called_by_their_whole_names(tmp_path: Path) -> None:
    text = plan_of("- come to: mountain\n- stay: 3 breaths\n")
    for name in ("p.yaml", "p.yaml.1"):
        (tmp_path / name).write_text(text)
    done = run(str(tmp_path / "p.yaml.1"), str(tmp_path / "p.yaml"))
    assert done.stdout.startswith("Test: p.yaml.1 and p.yaml\n")


def test_a_picture_of_both(tmp_path: Path) -> None:
    file = tmp_path / "c.svg"
    done = run("short-tide", "--length", "11min", "-o", str(file))
    assert done.exit_code == 0, done.output
    picture = file.read_text("utf-8")
    assert ">as written</text>" in picture
    assert ">for 11 min</text>" in picture


@pytest.mark.parametrize("words", [("short-tide",), ("short-tide", "--length", "2 breaths")])
def test_wrong_use_says_what_to_write(words: tuple[str, ...]) -> None:
    done = run(*words)
    assert done.exit_code == 2
    assert "45min" in done.stderr or "10min" in done.stderr
