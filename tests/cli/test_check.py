import io
import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conductor.cli import checking, cli
from conductor.cli.check import INTERRUPTED
from conductor.cli.checking import How, look, looked, wanted
from conductor.cli.tell import Bar, coloured, painter
from conductor.plan.show import plain
from conductor.report.findings import Counts

SOUND = """plan: 1
title: Still
kind: piece
breath: 4 s in, 4 s out
parts:
  - part: All
    steps:
      - come to: mountain
      - in: arms overhead
      - out: mountain
"""
WRONG = SOUND.replace("arms overhead", "flying carpet")
DOUBTED = SOUND.replace("arms overhead", "arms overhead\n        side: left")


def check(*words: str | Path) -> Result:
    return CliRunner().invoke(cli, ["check", *map(str, words)])


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(folder: Path, name: str, text: str) -> Path:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, "utf-8")
    return path


def test_a_finding_has_its_place_its_line_and_a_way_on(folder: Path) -> None:
    write(folder, "tide.yaml", WRONG)
    done = check("tide.yaml")
    assert done.exit_code == 1
    assert "tide.yaml:9:13: error: " in done.stdout
    assert "[unknown-shape]\n    9 |       - in: flying carpet\n" in done.stdout
    assert "      |             ^^^^^^^^^^^^^\n" in done.stdout
    assert done.stdout.endswith("\ntide.yaml: 1 error\n\n")
    assert done.stderr == ""


def test_a_sound_plan_says_so(folder: Path) -> None:
    write(folder, "still.yaml", SOUND)
    done = check("still.yaml")
    assert (done.exit_code, done.stdout, done.stderr) == (0, "still.yaml: nothing to say\n", "")


def test_warnings_fail_only_when_strict(folder: Path) -> None:
    write(folder, "doubted.yaml", DOUBTED)
    done = check("doubted.yaml")
    assert done.exit_code == 0
    assert "warning: " in done.stdout
    assert "[no-sides]" in done.stdout
    assert check("--strict", "doubted.yaml").exit_code == 1


def test_errors_only_still_counts_the_rest(folder: Path) -> None:
    write(folder, "doubted.yaml", DOUBTED)
    assert check("--errors-only", "doubted.yaml").stdout == "doubted.yaml: 1 warning\n"


def test_shipped_plans_are_found_by_bare_name() -> None:
    done = check("salutation-a")
    assert done.exit_code == 0
    assert "salutation-a.yaml: " in done.stdout


def test_what_is_not_there_is_wrong_use(folder: Path) -> None:
    done = check("nowhere.yaml")
    assert done.exit_code == 2
    assert done.stdout == ""
    assert "there is no plan 'nowhere.yaml'" in done.stderr
    assert check().exit_code == 2
    (folder / "empty").mkdir()
    done = check("empty")
    assert done.exit_code == 2
    assert "there is no plan (*.yaml, *.yml) in the folder empty" in done.stderr


def test_a_folder_is_all_plans_below_it_in_order(folder: Path) -> None:
    write(folder, "all/b/two.yml", SOUND)
    write(folder, "all/a/one.yaml", WRONG)
    write(folder, "all/c.yaml", SOUND)
    write(folder, "all/shapes.yaml", "keel: {like: boat}\n")
    write(folder, "all/.hidden/no.yaml", WRONG)
    write(folder, "all/.no.yaml", WRONG)
    write(folder, "all/readme.txt", WRONG)
    found = wanted(["all"])
    assert [str(path) for path in found.plans] == ["all/a/one.yaml", "all/b/two.yml", "all/c.yaml"]
    assert [str(path) for path in found.passed_over] == ["all/shapes.yaml"]
    done = check("all")
    assert done.exit_code == 1
    assert done.stdout.endswith(
        "all/b/two.yml: nothing to say\nall/c.yaml: nothing to say\n"
        "3 plans: 1 error in 1 of them; 1 file is no plan and was passed over\n"
    )


def test_a_plan_named_twice_is_checked_once(folder: Path) -> None:
    write(folder, "all/one.yaml", SOUND)
    assert len(wanted(["all/one.yaml", "all", "all/one.yaml"]).plans) == 1
    assert len(wanted([str(folder / "all" / "one.yaml"), "all"]).plans) == 1


def test_what_cannot_be_read_is_told_and_the_others_are_checked(folder: Path) -> None:
    (folder / "all").mkdir()
    (folder / "all" / "bytes.yaml").write_bytes(b"plan: 1\ntitle: \xff\n")
    (folder / "all" / "gone.yaml").symlink_to(folder / "nowhere")
    write(folder, "all/still.yaml", SOUND)
    done = check("all")
    assert done.exit_code == 1
    assert "all/bytes.yaml:2:8: error: this is not UTF-8 text [not-text]" in done.stdout
    assert "error: all/gone.yaml: the file cannot be read" in done.stdout
    assert "all/still.yaml: nothing to say" in done.stdout
    assert "3 plans: 2 errors in 2 of them" in done.stdout


def test_a_fault_of_the_check_itself_is_a_finding(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(path: Path) -> None:
        raise KeyError("keel")

    monkeypatch.setattr(checking, "opened", broken)
    found = look(Path("tide.yaml"), How())
    assert found.counts == Counts(errors=1)
    assert "error: tide.yaml: the check broke on this plan: KeyError: 'keel' [check-broke]" in (
        found.text
    )


def test_json_is_one_object_with_places_and_a_sum(folder: Path) -> None:
    write(folder, "all/a.yaml", WRONG)
    write(folder, "all/b.yaml", DOUBTED)
    write(folder, "all/c.yaml", SOUND)
    write(folder, "all/d.yaml", "keel: {like: boat}\n")
    done = check("--json", "all")
    assert done.exit_code == 1
    data = json.loads(done.stdout)
    assert list(data) == ["format", "findings", "summary"]
    assert [(row["file"], row["line"], row["column"], row["rule"]) for row in data["findings"]] == [
        ("all/a.yaml", 9, 13, "unknown-shape"),
        ("all/b.yaml", 10, 15, "no-sides"),
    ]
    assert data["summary"] == {
        "files": 3,
        "errors": 1,
        "warnings": 1,
        "remarks": 0,
        "failed": True,
        "passed_over": ["all/d.yaml"],
    }
    assert json.loads(check("--json", "all/c.yaml").stdout)["findings"] == []
    assert len(done.stdout.splitlines()) == 6  # a finding a line


def test_the_help_documents_every_key_of_the_json(folder: Path) -> None:
    write(folder, "a.yaml", WRONG)
    data = json.loads(check("--json", "a.yaml").stdout)
    words = set(check("--help").stdout.replace(",", " ").split())
    assert {*data, *data["findings"][0], *data["summary"]} <= words


def test_many_plans_are_checked_in_processes_in_the_same_order(folder: Path) -> None:
    texts = (SOUND, WRONG, DOUBTED)
    paths = [write(folder, f"all/{n:03}.yaml", texts[n % 3]) for n in range(40)]
    (folder / "all" / "020.yaml").write_bytes(b"\xff")
    how = How()
    together = list(looked(paths, how, processes=2))
    assert together == list(looked(paths, how, processes=1))
    assert sum((one.counts for one in together), Counts()) == Counts(14, 12, 0)
    done = check("all")
    assert done.stdout.endswith("40 plans: 14 errors, 12 warnings in 26 of them\n")
    assert "nothing to say" not in done.stdout  # too many to name the sound ones


def _dies(path: Path) -> object:
    if path.name == "007.yaml":
        os._exit(3)
    raise OSError(None, "not today")


@pytest.mark.skipif(sys.platform != "linux", reason="the patch reaches workers only by fork")
@pytest.mark.filterwarnings("ignore:.*fork.*:DeprecationWarning")
def test_a_worker_that_dies_loses_its_own_plan_only(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(checking, "opened", _dies)
    paths = [folder / f"{n:03}.yaml" for n in range(36)]
    found = list(looked(paths, How(as_json=True), processes=2))
    rules = [json.loads(one.rows[0])["rule"] for one in found]
    assert rules == ["unreadable-file"] * 7 + ["check-broke"] + ["unreadable-file"] * 28
    assert "came to a sudden end" in found[7].rows[0]


def _interrupting(paths: object, how: object) -> Iterator[object]:
    yield checking.Checked(Counts())
    raise KeyboardInterrupt


def test_an_interrupt_ends_it_cleanly(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(folder, "still.yaml", SOUND)
    monkeypatch.setattr("conductor.cli.check.looked", _interrupting)
    done = check("still.yaml")
    assert done.exit_code == INTERRUPTED
    assert "not all plans were checked" in done.stderr


@pytest.fixture
def heeding() -> Iterator[None]:
    """What is started heeds an interrupt, though a shell's background job is told to ignore it."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.slow
@pytest.mark.skipif(sys.platform != "linux", reason="sends a signal as a terminal does")
@pytest.mark.usefixtures("heeding")
def test_a_real_interrupt_ends_the_workers_too(folder: Path) -> None:
    for n in range(600):
        write(folder, f"all/{n:03}.yaml", WRONG)
    with subprocess.Popen(
        [sys.executable, "-m", "conductor", "check", "all"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    ) as process:
        assert process.stdout is not None
        process.stdout.readline()  # under way
        os.killpg(process.pid, signal.SIGINT)
        _, told = process.communicate(timeout=30)
    assert process.returncode == INTERRUPTED
    assert told.strip() == "Stopped before the end: not all plans were checked."
    with pytest.raises(ProcessLookupError):
        os.killpg(process.pid, 0)


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_colour_is_for_terminals_where_it_is_wanted(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.delenv("NO_COLOR", raising=False)
    assert painter(Terminal()) is coloured
    assert painter(io.StringIO()) is plain
    monkeypatch.setenv("NO_COLOR", "")
    assert painter(Terminal()) is coloured
    monkeypatch.setenv("NO_COLOR", "1")
    assert painter(Terminal()) is plain
    monkeypatch.delenv("NO_COLOR")
    monkeypatch.setenv("TERM", "dumb")
    assert painter(Terminal()) is plain


def test_colour_adds_nothing_to_the_words(folder: Path) -> None:
    path = write(folder, "tide.yaml", WRONG)
    bare = look(path, How()).text
    painted = look(path, How(colour=True)).text
    assert "\x1b[1;31merror\x1b[0m" in painted
    for code in ("1;31", "1;33", "36", "1", "1;35", "32", "0"):
        painted = painted.replace(f"\x1b[{code}m", "")
    assert painted == bare


def test_progress_is_drawn_on_a_terminal_and_taken_away_again() -> None:
    terminal = Terminal()
    bar = Bar("Checking", terminal)
    bar(1, 4)
    bar(2, 4)  # too soon after the first to be drawn
    bar(4, 4)
    assert terminal.getvalue() == f"\rChecking [{'#' * 7}{'.' * 23}] 1 of 4\r\x1b[K"
    quiet = io.StringIO()
    Bar("Checking", quiet)(1, 4)
    assert quiet.getvalue() == ""


@pytest.mark.slow
def test_one_plan_starts_no_processes_and_loads_nothing_heavy(folder: Path) -> None:
    write(folder, "still.yaml", SOUND)
    code = (
        "import sys\nfrom conductor.cli import cli\n"
        "try: cli(['check', 'still.yaml'])\nexcept SystemExit: pass\n"
        "heavy = {'concurrent.futures', 'multiprocessing', 'textual', 'asyncio', 'rapidfuzz',"
        " 'pyttsx3', 'miniaudio', 'importlib.metadata', 'tomllib', 'platformdirs', 'random',"
        " 'email', 'logging', 'subprocess'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=folder
    )
    assert done.stdout.splitlines()[-1] == "[]"
