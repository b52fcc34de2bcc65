import os
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conductor.cli import cli
from conductor.cli.drawing import inked, page_for
from conductor.plan.show import plain


def run(*words: str) -> Result:
    return CliRunner().invoke(cli, ["picture", *words])


def test_a_class_is_drawn_in_the_terminal_with_its_sums() -> None:
    done = run("short-tide", "--width", "80")
    assert done.exit_code == 0, done.output
    lines = done.stdout.splitlines()
    assert lines[0] == "Short Tide"
    assert lines[1].startswith("class, 10 min, asked for 10 min; ")
    assert any(line.startswith("parts    │Arrive") for line in lines)
    assert "sides    right 50 s, left 50 s" in lines
    assert max(map(len, lines)) <= 80


def test_rows_of_a_length_and_plain_letters() -> None:
    done = run("short-tide", "--row", "2:30", "--ascii", "--width", "60")
    assert done.stdout.isascii()
    assert sum(line.startswith("facing   |front>") for line in done.stdout.splitlines()) == 4


def test_a_file_is_written_as_its_name_ends(tmp_path: Path) -> None:
    for name, begin in (("a.svg", "<?xml"), ("a.txt", "Short Tide\n")):
        done = run("short-tide", "-o", str(tmp_path / name))
        assert done.exit_code == 0, done.output
        assert (tmp_path / name).read_text("utf-8").startswith(begin)
        assert "Short Tide, 10 min" in done.stderr


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("short-tide", "-o", "a.pdf"), "name a file that ends in .svg or .txt"),
        (("short-tide", "--row", "soon"), "'soon' is no time; write it like 10min"),
        (("short-tide", "--row", "3 breaths"), "'3 breaths' is no time"),
        (("nowhere",), "there is no plan 'nowhere'"),
    ],
)
def test_wrong_use_is_told(words: tuple[str, ...], told: str) -> None:
    done = run(*words)
    assert done.exit_code == 2
    assert told in done.stderr


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    done = run("short-tide", "-o", str(tmp_path / "no" / "a.svg"))
    assert done.exit_code == 1
    assert "No such file" in done.stderr


def test_a_plan_that_cannot_be_compiled_tells_why(tmp_path: Path) -> None:
    plan = tmp_path / "a.yaml"
    plan.write_text("plan: 1\nparts:\n  - part: A\n    steps:\n      - in: nosuchshape\n")
    done = run(str(plan))
    assert done.exit_code == 1
    assert "nosuchshape" in done.stderr
    assert done.stdout == ""


def test_blocks_only_where_letters_allow_them(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("LC_ALL", "LC_CTYPE"):
        monkeypatch.delenv(name, raising=False)
    for name, expected in (
        ("C", True),
        ("POSIX", True),
        ("C.UTF-8", False),
        ("de_DE.UTF-8", False),
    ):
        monkeypatch.setitem(os.environ, "LANG", name)
        assert page_for(80, 0, ascii_only=False).ascii_only is expected


def test_colour_is_for_terminals_alone() -> None:
    assert page_for(80, 0, ascii_only=False).paint is plain
    assert inked("x", "right") == "\x1b[31mx\x1b[0m"
    assert inked("x", "plain") == "x"
