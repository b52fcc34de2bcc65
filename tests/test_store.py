from pathlib import Path

import pytest

from conductor import store
from conductor.settings import Settings


def written(folder: Path, text: str) -> Path:
    file = folder / "settings.toml"
    file.write_text(text, "utf-8")
    return file


def test_settings_are_read_and_absent_ones_keep_their_default(tmp_path: Path) -> None:
    file = written(tmp_path, 'rate = 140\nview_distance_m = 3\nroom = "new"\n')
    read = store.settings(file)
    assert (read.rate, read.view_distance_m, read.lead_ms) == (140, 3.0, 1100)
    assert store.settings(tmp_path / "none.toml") == Settings()


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("rate = 20", "rate lies between 80 and 450"),
        ('rate = "fast"', "rate is a whole number, not 'fast'"),
        ("ratte = 150", "no setting is called ratte"),
        ("offset_ms = 900", "offset_ms lies between -500 and 500"),
        ('theme = "pink"', "theme is one of"),
        ("sound = 1", "sound is true or false, without quotes, not 1"),
        ("rate = ", "settings.toml"),
    ],
)
def test_what_cannot_be_used_is_told(tmp_path: Path, text: str, told: str) -> None:
    with pytest.raises(store.SettingsError, match=told):
        store.settings(written(tmp_path, text))


def test_one_bad_setting_takes_no_other_with_it(tmp_path: Path) -> None:
    file = written(tmp_path, 'rate = 20\nroom = "new"\nratte = 1\n[keys]\nnext = "j"\n')
    found = store.kept(file)
    assert (found.settings, found.keys) == (Settings(room="new"), {"next": "j"})
    assert [words.removeprefix(f"{file}: ")[:24] for words in found.troubles] == [
        "rate lies between 80 and",
        "no setting is called rat",
    ]


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"rate = ", "none of it can be used: Invalid value (at end of document)"),
        (b"room = '\xff'", "none of it can be used: 'utf-8' codec"),
        (b"keys = 'n'", "keys stand below a line [keys]"),
    ],
)
def test_a_file_that_cannot_be_read_leaves_the_defaults(
    tmp_path: Path, content: bytes, told: str
) -> None:
    file = tmp_path / "settings.toml"
    file.write_bytes(content)
    found = store.kept(file)
    assert (found.settings, found.keys) == (Settings(), {})
    assert told in found.troubles[0]
    assert "cannot be read" in store.kept(tmp_path).troubles[0]


def test_kept_folders_are_private(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    for folder in (store.journals(), store.speech()):
        assert folder.is_relative_to(tmp_path)
        assert oct(folder.stat().st_mode & 0o777) == "0o700"
