import io
import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from conductor.breathing.session import Session
from conductor.cli import breath as module
from conductor.cli import cli
from conductor.cli.breath import _listen
from conductor.clock import SetClock
from conductor.sides import Breath

PLAN = """plan: 1
title: Quay  # by hand
kind: piece
parts:
  - part: Warm up
    steps:
      - come to: mountain
      - in: arms overhead
      - out: mountain
"""


class Taps:
    """Lines typed at their times on a clock that is set."""

    def __init__(self, clock: SetClock, lines: list[tuple[int, str]]) -> None:
        self._clock = clock
        self._lines = iter(lines)

    def __iter__(self) -> "Taps":
        return self

    def __next__(self) -> str:
        wait, line = next(self._lines)
        self._clock.forward(wait)
        return line


def breaths(number: int) -> list[tuple[int, str]]:
    return [(0, "\n"), *[(4000, "\n"), (6000, "\n")] * number, (0, "what\n"), (0, "q\n")]


def test_lines_are_taps_and_the_figures_come_as_they_settle(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    clock, session, out = SetClock(), Session(), io.StringIO()
    monkeypatch.setattr("sys.stdin", Taps(clock, breaths(12)))
    _listen(session, clock, out)
    reading = session.reading()
    assert reading.inhale is not None
    assert reading.exhale is not None
    assert (reading.inhale.ms, reading.exhale.ms) == (4000, 6000)
    told = out.getvalue()
    assert "breath" in told
    assert "4 s in, 6 s out" in told
    assert "Enter alone, i or o" in told


def test_without_taps_it_says_so_and_exits_with_1() -> None:
    result = CliRunner().invoke(cli, ["breath", "--plain"], input="q\n")
    assert result.exit_code == 1
    assert "No breath has been tapped yet." in result.output
    assert "no medical advice" in result.output


def test_a_part_needs_a_plan() -> None:
    result = CliRunner().invoke(cli, ["breath", "--part", "Warm up"])
    assert result.exit_code == 2
    assert "--write PLAN" in result.output


def sat(session: Session, clock: object, out: object) -> None:
    del clock, out
    for n in range(13):
        session.press(n * 10_000, Breath.IN)
        session.press(n * 10_000 + 4000, Breath.OUT)


def test_for_programs_the_figures_are_json(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_listen", sat)
    result = CliRunner().invoke(cli, ["breath", "--plain", "--json"])
    assert result.exit_code == 0, result.output
    data = json.loads(result.output)
    assert data["breath"] == "4 s in, 6 s out"
    assert data["inhale"]["sure_95_percent_ms"] == [4000, 4000]
    assert data["exhale"]["count"] == 12


@pytest.mark.parametrize(
    ("options", "line", "after"),
    [
        ([], "breath: 4 s in, 6 s out", "title: Quay  # by hand"),
        (["--part", "warm up"], "    breath: 4 s in, 6 s out", "  - part: Warm up"),
    ],
)
def test_it_is_written_into_a_plan_with_all_else_as_it_was(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    options: list[str],
    line: str,
    after: str,
) -> None:
    monkeypatch.setattr(module, "_listen", sat)
    plan = tmp_path / "quay.yaml"
    plan.write_text(PLAN, "utf-8")
    arguments = ["breath", "--plain", "--write", str(plan), *options]
    asked = CliRunner().invoke(cli, arguments)  # nobody to ask
    assert "Nothing is written" in asked.output
    assert plan.read_text("utf-8") == PLAN
    done = CliRunner().invoke(cli, [*arguments, "--yes"])
    assert done.exit_code == 0, done.output
    assert f"+{line}" in done.output
    assert plan.read_text("utf-8") == PLAN.replace(after, f"{after}\n{line}")
    assert (tmp_path / "quay.yaml.1").read_text("utf-8") == PLAN
    again = CliRunner().invoke(cli, [*arguments, "--yes"])
    assert "has this breath already" in again.output


def test_an_unknown_part_is_told_with_those_there_are(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "_listen", sat)
    plan = tmp_path / "quay.yaml"
    plan.write_text(PLAN, "utf-8")
    arguments = ["breath", "--plain", "--write", str(plan), "--part", "Peak"]
    result = CliRunner().invoke(cli, arguments)
    assert result.exit_code == 2
    assert "there is no part 'Peak' in the plan; there are: Warm up." in result.output
