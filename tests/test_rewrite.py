from pathlib import Path

import pytest

from conductor.rewrite import ChangedError, original, rewrite


def test_the_old_file_is_kept_beside_under_a_free_number(tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_bytes("\ufeffa: 1\r\n".encode())
    (tmp_path / "plan.yaml.1").write_text("mine")
    file.chmod(0o640)
    old = original(file)
    assert old.text == "\ufeffa: 1\r\n"

    kept = rewrite(old, "\ufeffa: 2\r\n")

    assert kept == tmp_path / "plan.yaml.2"
    assert kept.read_bytes() == old.raw
    assert file.read_bytes() == "\ufeffa: 2\r\n".encode()
    assert file.stat().st_mode & 0o777 == 0o640
    assert (tmp_path / "plan.yaml.1").read_text() == "mine"
    assert len(list(tmp_path.iterdir())) == 3


def test_a_file_changed_meanwhile_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_text("a: 1\n")
    old = original(file)
    file.write_text("a: mine\n")

    with pytest.raises(ChangedError, match=r"plan\.yaml was changed"):
        rewrite(old, "a: 2\n")

    assert file.read_text() == "a: mine\n"
    assert list(tmp_path.iterdir()) == [file]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    file = tmp_path / "real.yaml"
    file.write_text("a: 1\n")
    link = tmp_path / "link.yaml"
    link.symlink_to(file)

    kept = rewrite(original(link), "a: 2\n")

    assert link.is_symlink()
    assert file.read_text() == "a: 2\n"
    assert kept.name == "real.yaml.1"
