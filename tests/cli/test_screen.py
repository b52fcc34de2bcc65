from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from conductor import store
from conductor.cli import cli
from conductor.cli.screen import BAR_ROWS, measured, ruler
from conductor.view.cell import cell_of


@pytest.fixture
def file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "settings.toml"
    monkeypatch.setattr("conductor.store.settings_file", lambda: path)
    monkeypatch.setattr("conductor.cli.screen.row_pixels", lambda: None)
    return path


def ran(*words: str) -> Result:
    return CliRunner().invoke(cli, ["screen", *words])


def test_what_was_measured_is_kept_and_comments_stay(file: Path) -> None:
    file.write_text("# mine\nrate = 140  # slow\n", "utf-8")
    done = ran("--bar", "48", "--distance", "2.5")
    assert done.exit_code == 0, done.output
    text = file.read_text("utf-8")
    assert text == "# mine\nrate = 140  # slow\ncell_mm = 4\nview_distance_m = 2.5\n"
    assert "A row: 4.00 mm (as you measured it)." in done.output
    assert "From 2.5 m, 22 minutes of arc read well: letters of 16.0 mm, 4.0 rows." in done.output


def test_where_the_terminal_tells_its_pixels_the_density_is_kept(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("conductor.cli.screen.row_pixels", lambda: 20.0)
    assert ran("--bar", "43.2").exit_code == 0
    settings = store.settings(file)
    assert settings.screen_ppi == pytest.approx(20 / 3.6 * 25.4, abs=0.1)
    assert cell_of(settings, 20.0).height_mm == pytest.approx(3.6, abs=0.01)
    assert cell_of(settings, 40.0).height_mm == pytest.approx(7.2, abs=0.01)


def test_nothing_is_kept_where_nothing_was_measured(file: Path) -> None:
    assert measured(None, None, 20.0) == {}
    done = ran()
    assert done.exit_code == 0
    assert not file.exists()
    assert "Nobody has measured it" in done.output


def test_a_broken_file_is_told_and_left_alone(file: Path) -> None:
    file.write_text("rate = ", "utf-8")
    done = ran("--bar", "48")
    assert done.exit_code == 1
    assert "mend it first, or write cell_mm = 4" in done.output
    assert file.read_text("utf-8") == "rate = "


def test_the_bar_has_as_many_rows_as_it_says() -> None:
    assert sum("█" in line for line in ruler()) == BAR_ROWS
    assert str(BAR_ROWS) in ruler()[-1]
