import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor import own_file, store
from conductor.view.own_keys import start

OWN = """\
# mine
rate = 140   # slow
"cell mm" = 4  # measured in March
# cell_mm = 9

[keys]
next = "j"
"""


def test_a_number_is_changed_where_it_stands_and_its_comment_stays() -> None:
    assert own_file.with_value(OWN, "cell_mm", 5.25) == OWN.replace("= 4 ", "= 5.25 ")
    assert own_file.with_value("rate=140", "rate", 150) == "rate=150"


def test_a_new_number_comes_before_the_tables() -> None:
    assert own_file.with_value(OWN, "screen_ppi", 141.5) == OWN.replace(
        "\n\n[keys]", "\nscreen_ppi = 141.5\n\n[keys]"
    )
    assert own_file.with_value("", "rate", 150) == "rate = 150\n"
    assert own_file.with_value("a = 1\r\nb = 2", "rate", 150) == "a = 1\r\nb = 2\r\nrate = 150\r\n"
    assert own_file.with_value("a = 1\r\n", "rate", 150) == "a = 1\r\nrate = 150\r\n"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("rate = ", "mend it first, or write rate = 150"),
        ('theme = """\nrate = 3\n"""', "the file is too unusual to be changed: write rate = 150"),
        ('"rat\\u0065" = 3', "the file is too unusual|mend it first"),
        ("rate = {a = 1}", "the file is too unusual|mend it first"),
    ],
)
def test_a_file_that_would_say_something_else_is_left_alone(text: str, told: str) -> None:
    with pytest.raises(store.SettingsError, match=told):
        own_file.with_value(text, "rate", 150)


LINES = st.sampled_from(
    [
        "",
        "# rate = 3",
        "rate = 140",
        "  rate=140# x",
        'theme = "dark"',
        "motion = true",
        "\r",
        "[keys]",
        'next = ["j", "k"]',
        "rate = 7.5 # [a]",
        "'view distance m' = 3",
    ]
)


@given(st.lists(LINES, max_size=8), st.floats(80, 450))
def test_whatever_the_file_nothing_but_the_number_changes(written: list[str], value: float) -> None:
    text = "\n".join(written)
    try:
        old = tomllib.loads(text)
        new = own_file.with_value(text, "rate", value)
    except (tomllib.TOMLDecodeError, store.SettingsError):
        return
    got = tomllib.loads(new)
    assert got.pop("rate") == float(f"{value:g}")
    old.pop("rate", None)
    assert got == old
    assert [one for one in new.splitlines() if "#" in one and "rate" not in one] == [
        one for one in text.splitlines() if "#" in one and "rate" not in one
    ]


def test_a_link_stays_a_link_and_its_file_keeps_who_may_read_it(tmp_path: Path) -> None:
    real, link = tmp_path / "real.toml", tmp_path / "conf" / "settings.toml"
    link.parent.mkdir()
    real.write_text(OWN, "utf-8")
    real.chmod(0o640)
    link.symlink_to(real)
    own_file.keep(link, "rate", 150)
    assert link.is_symlink()
    assert "rate = 150   # slow" in real.read_text("utf-8")
    assert real.stat().st_mode & 0o777 == 0o640
    assert (tmp_path / "real.toml.1").read_text("utf-8") == OWN


def test_what_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "blocked").write_text("", "utf-8")
    with pytest.raises(store.SettingsError, match="blocked"):
        own_file.keep(tmp_path / "blocked" / "settings.toml", "rate", 150)


def test_keys_are_put_at_the_end_of_a_file_that_has_none(tmp_path: Path) -> None:
    file = tmp_path / "deep" / "settings.toml"
    own_file.add_keys(file, start())
    assert store.kept(file) == store.Kept()
    with pytest.raises(store.SettingsError, match="has a table of keys already"):
        own_file.add_keys(file, start())
    file.write_text("rate = 140", "utf-8")
    own_file.add_keys(file, start())
    assert file.read_text("utf-8").startswith("rate = 140\n\n[keys]  # take the #")
