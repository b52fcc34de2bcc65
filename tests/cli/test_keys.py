from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conductor import store
from conductor.cli import cli
from conductor.view.own_keys import keyed


@pytest.fixture
def file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "settings.toml"
    monkeypatch.setattr("conductor.store.settings_file", lambda: path)
    return path


def ran(*words: str) -> Result:
    return CliRunner().invoke(cli, ["keys", *words])


def test_own_keys_are_listed_among_the_others(file: Path) -> None:
    file.write_text('[keys]\nnext = ["z", "Page Down"]\n', "utf-8")
    done = ran()
    assert done.exit_code == 0
    rows = [line.split("  ") for line in done.stdout.splitlines()]
    assert [cell.strip() for cell in next(row for row in rows if row[0] == "next") if cell] == [
        "next",
        "z, Page Down",
        "Next shape",
    ]


def test_a_key_that_cannot_be_used_is_told_with_both_actions(file: Path) -> None:
    file.write_text('rate = 20\n[keys]\nnext = "h"\n', "utf-8")
    done = ran()
    assert done.exit_code == 1
    assert f'{file}: [keys] next: h is a key of "hold" too; give each its own' in done.stderr
    assert "rate lies between" in done.stderr


def test_a_start_can_be_written_and_every_line_of_it_works(file: Path) -> None:
    file.write_text("# mine\n", "utf-8")
    assert ran("--write").exit_code == 0
    text = file.read_text("utf-8")
    assert text.startswith("# mine\n\n[keys]")
    file.write_text(text.replace("\n# ", "\n"), "utf-8")
    kept = store.kept(file)
    assert kept.keys
    assert keyed(kept.keys).troubles == ()
    assert ran("--write").exit_code == 1
