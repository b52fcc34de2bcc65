from pathlib import Path
from textwrap import dedent

import pytest

from conductor import places
from conductor.cli import shelf
from conductor.cli.classroom import Class
from conductor.cli.how import How
from conductor.cli.opening import Opened, opened
from conductor.settings import Settings

BAD = """
plan: 1
title: Bad
parts:
  - part: One
    steps:
      - in: wobble
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(places, "shipped_plans", tuple)
    return tmp_path


def test_a_good_plan_is_a_class_and_a_bad_one_tells_its_errors_first(folder: Path) -> None:
    (folder / "bad.yaml").write_text(dedent(BAD), "utf-8")
    good = shelf.made(places.plan("salutation-a"), Settings(), How())
    assert isinstance(good, Class)
    bad = shelf.made(folder / "bad.yaml", Settings(), How())
    assert isinstance(bad, Opened)
    told = shelf.refusal(bad)
    assert "bad.yaml:7:" in told
    assert "wobble" in told
    assert told.endswith("`conductor check` shows all.\n")


def test_a_refusal_counts_what_is_said_besides(folder: Path) -> None:
    text = places.plan("lighthouse-morning").read_text("utf-8").replace("in: plank", "in: wobble")
    (folder / "bad.yaml").write_text(text.replace("30 min", "3 min"), "utf-8")
    found = opened(folder / "bad.yaml")
    weights = [one.weight for one in found.findings]
    told = shelf.refusal(found)
    assert "warning:" not in told
    for weight in set(weights) - {"error"}:
        assert f"{weights.count(weight)} {weight}" in told


def test_one_file_that_fails_spoils_no_other(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    good = places.plan("salutation-a").read_text("utf-8")
    for name in ("a", "b", "c", "d"):
        (folder / f"{name}.yaml").write_text(good, "utf-8")
    (folder / "notes.yaml").write_text("- not a plan\n", "utf-8")
    (folder / "e.yaml").write_bytes(b"plan: \xff\n")

    def failing(path: Path, settings: Settings) -> Opened:
        if path.stem == "b":
            raise PermissionError(13, "not yours")
        if path.stem == "c":
            raise ZeroDivisionError("oops")
        return opened(path, settings=settings)

    monkeypatch.setattr(shelf, "opened", failing)
    entries = {one.key: one for one in shelf.Shelf(Settings(), How()).plans()}
    assert list(entries) == ["a.yaml", "b.yaml", "c.yaml", "d.yaml", "e.yaml"]
    assert entries["a.yaml"].length_ms > 0
    assert entries["b.yaml"].problem == "not yours"
    assert entries["c.yaml"].problem == "ZeroDivisionError: oops"
    assert entries["d.yaml"].problem == ""
    assert entries["e.yaml"].errors == 1
