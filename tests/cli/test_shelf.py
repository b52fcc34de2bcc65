import json
from datetime import datetime, timedelta
from pathlib import Path
from textwrap import dedent

import pytest

from conductor import places, store
from conductor.cli import listing, shelf
from conductor.cli.classroom import Class
from conductor.cli.how import How
from conductor.cli.opening import Opened, opened
from conductor.cli.recall import recalled, remember
from conductor.run.journal import lines
from conductor.run.resume import Broken
from conductor.settings import Settings
from conductor.values import replace

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
    for name in ("XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME"):
        monkeypatch.setenv(name, str(tmp_path / "home" / name))
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

    monkeypatch.setattr(listing, "opened", failing)
    plans = shelf.Shelf(Settings(), How())
    entries = {one.key: plans.entry(one.key) for one in plans.plans()}
    assert list(entries) == ["a.yaml", "b.yaml", "c.yaml", "d.yaml", "e.yaml"]
    assert entries["a.yaml"].length_ms > 0
    assert entries["b.yaml"].problem == "not yours"
    assert entries["c.yaml"].problem == "ZeroDivisionError: oops"
    assert entries["d.yaml"].problem == ""
    assert entries["e.yaml"].errors == 1


def test_what_was_led_last_comes_first_and_nothing_is_read_yet(folder: Path) -> None:
    good = places.plan("salutation-a").read_text("utf-8")
    for name in ("a", "b", "c"):
        (folder / f"{name}.yaml").write_text(good, "utf-8")
    now = datetime.now().astimezone()
    for name, days, rehearsal in (("b", 3, False), ("c", 1, False), ("a", 0, True)):
        line = {
            "kind": "opened",
            "plan": str(folder / f"{name}.yaml"),
            "wall": (now - timedelta(days=days)).isoformat(),
            "rehearsal": rehearsal,
        }
        (store.journals() / f"{name}.jsonl").write_text(json.dumps(line) + "\n", "utf-8")
    (store.journals() / "torn.jsonl").write_text('{"kind":"ope', "utf-8")
    entries = shelf.Shelf(Settings(), How()).plans()
    assert [(one.file, one.led, one.read) for one in entries] == [
        ("c.yaml", "led yesterday", False),
        ("b.yaml", "led 3 days ago", False),
        ("a.yaml", "", False),
    ]


def test_a_folder_that_is_named_stands_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "home"))
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "a.yaml").write_text("plan: 1\ntitle: Mine\n", "utf-8")
    entries = shelf.Shelf(Settings(), How(), tmp_path / "mine").plans()
    assert [one.title for one in entries] == ["Mine"]


def test_a_plan_is_led_as_last_time_unless_told_otherwise(folder: Path) -> None:
    plan = places.plan("salutation-a")
    remember(plan, Settings(rate=120, speak=False, theme="light"), Settings())
    again = shelf.made(plan, Settings(), How())
    assert isinstance(again, Class)
    assert (again.settings.rate, again.settings.speak) == (120, False)
    assert again.settings.theme == "dark"
    assert again.as_last_time == "120 words a minute, voice off"
    asked = shelf.made(plan, Settings(rate=150), How(given=frozenset({"rate"})))
    assert isinstance(asked, Class)
    assert (asked.settings.rate, asked.as_last_time) == (150, "voice off")
    afresh = shelf.made(plan, Settings(), How(recall=False))
    assert isinstance(afresh, Class)
    assert (afresh.settings.rate, afresh.as_last_time) == (150, "")


def test_what_is_as_usual_is_not_remembered(folder: Path) -> None:
    plan = places.plan("salutation-a")
    remember(plan, Settings(rate=120), Settings())
    remember(plan, Settings(), Settings())
    assert recalled(plan) == {}


@pytest.mark.parametrize("text", ["torn {", "[]", '{"PLAN": 3}', '{"PLAN": {"rate": "fast"}}'])
def test_a_bad_memory_keeps_no_class_from_being_led(folder: Path, text: str) -> None:
    plan = places.plan("salutation-a")
    store.remembered().write_text(text.replace("PLAN", str(plan.resolve())), "utf-8")
    made = shelf.made(plan, Settings(), How())
    assert isinstance(made, Class)
    assert (made.settings, made.as_last_time) == (Settings(), "")


def test_only_so_many_plans_are_remembered(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("conductor.cli.recall.MOST", 2)
    for name in "abc":
        remember(folder / name, Settings(rate=120), Settings())
    assert [bool(recalled(folder / name)) for name in "abc"] == [False, True, True]


def test_a_class_that_broke_off_goes_on_with_what_it_began_with(folder: Path) -> None:
    began = Settings(sound=False, level="ease", keep_to_the_clock=True, voice_db=-6)
    good = shelf.made(places.plan("salutation-a"), began, How())
    assert isinstance(good, Class)
    good.begin().close()
    (journal,) = store.journals().glob("*.jsonl")
    first = lines(journal)[0]
    wall = datetime.now().astimezone()
    broken = Broken(folder / "it.jsonl", good.score, "", None, wall, 1.0, (), first)
    assert shelf.of_broken(broken, Settings(), How()).settings == began
    asked = shelf.of_broken(broken, Settings(level="more"), How(given=frozenset({"level"})))
    assert asked.settings == replace(began, level="more")
    older = replace(broken, opened={"led_with": {"rate": 9}})
    assert shelf.of_broken(older, Settings(), How()).settings == Settings()


def test_a_class_that_broke_off_knows_the_shapes_of_its_plan(folder: Path) -> None:
    text = places.plan("salutation-a").read_text("utf-8")
    own = "shapes:\n  buoy: {like: mountain}\nparts:"
    text = text.replace("come to: mountain", "come to: buoy").replace("parts:", own, 1)
    (folder / "a.yaml").write_text(text, "utf-8")
    good = shelf.made(folder / "a.yaml", Settings(), How())
    assert isinstance(good, Class)
    opening: dict[str, object] = {"plan": str(folder / "a.yaml")}
    wall = datetime.now().astimezone()
    broken = Broken(folder / "it.jsonl", good.score, "", None, wall, 1.0, (), opening)
    shapes = shelf.of_broken(broken, Settings(), How()).opened.shapes
    assert {moment.shape for moment in good.score.moments} <= shapes.keys()
    (folder / "a.yaml").unlink()
    assert shelf.of_broken(broken, Settings(), How()).score is good.score
