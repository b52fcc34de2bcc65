from pathlib import Path

import pytest

from conductor import places


def test_the_shipped_plans_and_sounds_are_found() -> None:
    names = [path.stem for path in places.shipped_plans()]
    assert "salutation-a" in names
    assert (places.shipped("sounds") / "bell.wav").is_file()


def test_a_plan_is_found_by_path_or_by_its_bare_name(tmp_path: Path) -> None:
    own = tmp_path / "mine.yaml"
    own.write_text("plan: 1\n", "utf-8")
    assert places.plan(str(own)) == own
    assert places.plan("salutation-a").stem == "salutation-a"
    with pytest.raises(FileNotFoundError):
        places.plan("no such plan")


def test_paths_in_a_plan_stay_in_its_folder(tmp_path: Path) -> None:
    folder = tmp_path / "plans"
    folder.mkdir()
    plan = folder / "mine.yaml"
    (tmp_path / "secret.wav").write_bytes(b"")
    (folder / "link").symlink_to(tmp_path)
    assert places.inside(plan, "takes/one.wav") == folder.resolve() / "takes/one.wav"
    for outside in ("../secret.wav", str(tmp_path / "secret.wav"), "link/secret.wav"):
        with pytest.raises(places.OutsideError):
            places.inside(plan, outside)
