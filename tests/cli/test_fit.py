import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conductor.cli import cli
from conductor.cli.opening import opened

PLAN = """\
# Mine.
plan: 1
title: Quay
kind: piece
breath: 4 s in, 4 s out
parts:
  - part: One
    steps:
      - come to: mountain
      - stay: 5 breaths   # long
        may stretch: 3 to 8 breaths
  - part: Rest
    steps:
      - free: 40 s
        to: final rest
      - stay: 3 min
        may stretch: 2 to 4 min
"""


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    file = tmp_path / "quay.yaml"
    file.write_bytes(PLAN.replace("\n", "\r\n").encode())
    return file


def run(*args: object, typed: str | None = None) -> Result:
    return CliRunner().invoke(cli, ["fit", *map(str, args)], input=typed)


def test_it_shows_what_would_change_and_writes_nothing(plan: Path) -> None:
    before = plan.read_bytes()
    result = run(plan, "--length", "4:30")
    assert result.exit_code == 0
    assert "Quay: its steps as written take 4 min 28 s." in result.output
    assert "Fitted to 4 min 30 s: it ends exactly then." in result.output
    assert "line 16  Rest: final rest  3 min -> 3 min 2 s  +0:02" in result.output
    assert "-      - stay: 3 min\n+      - stay: 3 min 2 s\n" in result.output
    assert "Nothing is written." in result.output
    assert plan.read_bytes() == before


def test_it_writes_the_plan_and_keeps_the_old_one(plan: Path) -> None:
    before = plan.read_bytes()
    result = run(plan, "--length", "4", "--write", "--yes")
    assert result.exit_code == 0
    assert (plan.parent / "quay.yaml.1").read_bytes() == before
    after = plan.read_bytes()
    assert b"length: 4 min\r\n" in after
    assert after.count(b"\r\n") == after.count(b"\n") == before.count(b"\n") + 1
    assert b"# Mine.\r\n" in after
    assert b"   # long\r\n" in after
    score = opened(plan).score
    assert score is not None
    assert score.length == 240_000


def test_it_writes_another_file_and_never_over_one(plan: Path) -> None:
    other = plan.parent / "other.yaml"
    result = run("short-tide", "--length", "9", "-o", other, "--yes")
    assert result.exit_code == 0
    score = opened(other).score
    assert score is not None
    assert score.length == 540_000
    again = run("short-tide", "--length", "9", "-o", other, "--yes")
    assert again.exit_code == 2
    assert "is there already" in again.output


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (["--length", "soon"], "is no length; write it like 45min"),
        (["--length", "5 breaths"], "is no length"),
        (["--length", "400"], "more than a class of 3 hours"),
        (["--length", "0"], "is no length"),
        ([], "Missing option '--length'"),
        (["--length", "4,5", "--write", "--yes"], "one length can be written at a time"),
        (["--length", "4", "--write"], "say --yes"),
        (["--length", "4", "--write", "-o", "x.yaml", "--yes"], "take one"),
    ],
)
def test_wrong_use_is_told(plan: Path, args: list[str], words: str) -> None:
    result = run(plan, *args)
    assert result.exit_code == 2
    assert words in result.output


def test_a_plan_that_came_with_the_program_is_not_written_over() -> None:
    result = run("harbour-hour", "--length", "58", "--write", "--yes")
    assert result.exit_code == 2
    assert "-o harbour-hour.yaml" in result.output


def test_several_lengths_give_a_table_and_the_reasons(plan: Path) -> None:
    result = run(plan, "--length", "2,4", "--length", "4min 30s")
    assert result.exit_code == 1
    lines = result.output.splitlines()
    assert lines[2].split() == [
        *("length", "ends", "stays", "rounds", "breath", "left", "out", "final", "rest"),
    ]
    assert lines[3].split()[:3] == ["2", "min", "not"]
    assert lines[4].split()[:5] == ["4", "min", "on", "time", "2"]
    assert "It cannot last 2 min: even with every stay at its least the class is 3 min 12 s" in (
        " ".join(result.output.split())
    )
    assert "parts that cost most: Rest 2:40, One 0:32" in " ".join(result.output.split())


def test_what_cannot_be_met_is_never_written(plan: Path) -> None:
    before = plan.read_bytes()
    result = run(plan, "--length", "2", "--write", "--yes")
    assert result.exit_code == 1
    assert "It cannot last 2 min" in result.output
    assert plan.read_bytes() == before


def test_a_plan_with_errors_is_told_as_by_check(plan: Path) -> None:
    plan.write_text(PLAN.replace("mountain", "wrrior"), "utf-8")
    result = run(plan, "--length", "4")
    assert result.exit_code == 1
    assert "unknown-shape" in result.output
    assert "mend them first" in result.output


def test_contradictory_shares_are_told(plan: Path) -> None:
    text = PLAN.replace("  - part: One\n", "  - part: One\n    share: 70 %\n")
    text = text.replace("  - part: Rest\n", "  - part: Rest\n    share: 70 %\n")
    plan.write_text(text, "utf-8")
    result = run(plan, "--length", "4")
    assert result.exit_code == 1
    assert "make 140 %, not 100 %" in result.output


def test_json_holds_all_of_it(plan: Path) -> None:
    result = run(plan, "--length", "2,4", "--json")
    assert result.exit_code == 1
    found = json.loads(result.output)
    assert (found["format"], found["written_ms"]) == (1, 268_000)
    first, second = found["fittings"]
    assert (first["met"], first["text"], first["shortest_ms"]) == (False, None, 192_000)
    assert "cannot last 2 min" in first["reason"]
    assert (second["met"], second["misses_ms"], second["ends_ms"]) == (True, 0, 240_000)
    assert {one["kind"] for one in second["changes"]} == {"stay"}
    assert second["text"].startswith("# Mine.\r\nplan: 1\r\n")


def test_what_the_check_would_say_anew_is_told(plan: Path) -> None:
    text = PLAN.replace("come to: mountain", "come to: plank").replace(
        "to 8 breaths", "to 50 breaths"
    )
    plan.write_text(text, "utf-8")
    result = run(plan, "--length", "9")
    assert "The check says of the fitted plan what it does not say of this one:" in result.output
    assert "[unusual-hold]" in result.output


def test_titles_never_steer_the_terminal(plan: Path) -> None:
    plan.write_text(PLAN.replace("title: Quay", 'title: "Q\\e[31muay"'), "utf-8")
    result = run(plan, "--length", "4")
    assert "\x1b" not in result.output
