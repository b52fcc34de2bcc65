from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conductor import store
from conductor.cli import cli, rewriting
from conductor.cli.opening import opened
from conductor.engine.model import Do
from conductor.score.model import Score
from tests.run.review.virtual import PLAN, STAY, Room

RIGHT, LEFT = STAY["right"], STAY["left"]


@pytest.fixture
def plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "kept").mkdir()
    monkeypatch.setattr(store, "journals", lambda: tmp_path / "kept")
    path = tmp_path / "tide.yaml"
    path.write_bytes(PLAN.replace("\n", "\r\n").encode())  # as some editors write
    return path


def score_of(path: Path) -> Score:
    score = opened(path).score
    assert score is not None
    return score


def lead(plan: Path, *days: int, do: Do | None = Do.MORE, at: str = f"{RIGHT}.1") -> None:
    for day in days:
        room = Room(score_of(plan))
        room.to(at, 100)
        if do is not None:
            room.do(do)
        room.out().keep(
            plan.parent / "kept",
            f"2026-01-0{day}T18-00-00-a",
            plan=str(plan),
            wall=f"2026-01-0{day}T18:00:00+01:00",
        )


def adopt(plan: Path, *words: str, typed: str = "") -> Result:
    return CliRunner().invoke(cli, ["adopt", str(plan), *words], input=typed)


def test_three_classes_of_one_mind_are_written_and_nothing_else_changes(plan: Path) -> None:
    lead(plan, 1, 2, 3)
    before = plan.read_bytes()
    told = adopt(plan, "--yes")
    assert told.exit_code == 0, told.output
    line = PLAN.split("\n").index("          - stay: 5 breaths   # both sides") + 1
    assert told.stdout.startswith(
        f"line {line}: Write 6 breaths instead of 5 for warrior two: "
        "you added one in each of the last three classes.\n"
    )
    assert "-          - stay: 5 breaths   # both sides" in told.stdout
    assert plan.read_bytes() == before.replace(b"stay: 5 breaths", b"stay: 6 breaths")
    assert plan.with_name("tide.yaml.1").read_bytes() == before
    holds = score_of(plan).holds
    assert (holds[RIGHT].amount, holds[LEFT].amount) == (6, 6)
    assert adopt(plan, "--yes").stdout.startswith("Nothing to adopt")


def test_two_classes_wait_for_a_third_unless_asked(plan: Path) -> None:
    lead(plan, 1, 2)
    before = plan.read_bytes()
    assert adopt(plan, "--yes").stdout == (
        "2 classes of this plan have been kept, 3 are asked for: --now takes what there is.\n"
    )
    assert plan.read_bytes() == before
    assert "each of the last two classes" in adopt(plan, "--now", "--yes").stdout
    assert b"stay: 6 breaths" in plan.read_bytes()


def test_of_as_many_classes_as_asked_the_middle_one_is_taken(plan: Path) -> None:
    lead(plan, 1, 2, 3, do=None)
    lead(plan, 4, 5)
    assert adopt(plan, "--classes", "5").stdout.startswith("Nothing to adopt")
    assert "Write 6 breaths" in adopt(plan).stdout


def test_a_person_is_asked_and_may_say_no(plan: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lead(plan, 1, 2, 3)
    before = plan.read_bytes()
    assert "nobody can be asked here" in adopt(plan).stderr
    monkeypatch.setattr(rewriting, "asking", lambda: True)
    told = adopt(plan, typed="n\n")
    assert "Write this to tide.yaml?" in told.stderr
    assert "Nothing is written." in told.stderr
    assert plan.read_bytes() == before
    assert "kept as tide.yaml.1" in adopt(plan, typed="y\n").stderr


def test_another_file_may_be_written(plan: Path) -> None:
    lead(plan, 1, 2, 3)
    before = plan.read_bytes()
    out = plan.with_name("mine.yaml")
    assert adopt(plan, "--yes", "-o", str(out)).exit_code == 0
    assert plan.read_bytes() == before
    assert b"stay: 6 breaths" in out.read_bytes()
    assert "there already" in adopt(plan, "--yes", "-o", str(out)).output


def test_a_plan_that_comes_with_the_program_is_not_written(plan: Path) -> None:
    told = CliRunner().invoke(cli, ["adopt", "short-tide", "--yes"])
    assert told.exit_code == 2
    assert "write your own with -o" in told.output


def test_a_plan_never_led_is_told(plan: Path) -> None:
    assert (
        adopt(plan).stdout == "No class of this plan has been kept yet: lead it, then come back.\n"
    )


def test_a_plan_with_errors_is_shown_with_them(plan: Path) -> None:
    plan.write_text("plan: 1\ntitle: x\nparts: []\n", "utf-8")
    told = adopt(plan)
    assert told.exit_code == 1
    assert "tide.yaml:3:" in told.stderr


def test_a_plan_fitted_to_its_length_says_what_becomes_of_it(plan: Path) -> None:
    text = PLAN.replace("breath: 4", "length: 5 min 32 s\nbreath: 4").replace(
        "# both sides", "\n            may stretch: 3 to 9 breaths"
    )
    plan.write_text(text, "utf-8")
    lead(plan, 1, 2, 3)
    told = adopt(plan, "--yes")
    assert "stay: 6 breaths" in plan.read_text("utf-8")
    assert "Fitted to the plan's length it is 5 breaths, not 6 breaths." in told.stdout


def test_a_rest_is_written_as_a_time(plan: Path) -> None:
    for day in (1, 2, 3):
        room = Room(score_of(plan))
        room.to("2/5.0", 30_000)
        room.do(Do.HOLD)
        room.wait(31_000)
        room.do(Do.GO_ON)
        room.out().keep(
            plan.parent / "kept", f"2026-01-0{day}T18-00-00-a", plan=str(plan), wall=f"2026-0{day}"
        )
    assert adopt(plan, "--yes").exit_code == 0
    assert score_of(plan).holds["2/5"].amount == 150_000
