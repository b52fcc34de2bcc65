"""Files on a real disk, looked at whenever the test says that something woke."""

from collections.abc import Iterator
from pathlib import Path

from conductor.cli.saves import Saves
from conductor.cli.watch import looks

PLAN = """\
plan: 1
title: {title}
kind: piece
parts:
  - part: One
    steps:
      - come to: {shape}
      - stay: 3 breaths
"""


def written(file: Path, title: str = "One", shape: str = "mountain", top: str = "") -> None:
    file.write_text(PLAN.format(title=title, shape=shape) + top, "utf-8")


def wake(folders: frozenset[Path]) -> Iterator[object]:
    while True:
        yield folders


def test_a_change_is_other_words_not_another_date(tmp_path: Path) -> None:
    file = tmp_path / "p.yaml"
    written(file)
    looked = Saves((file,)).wait(wake)
    assert not next(looked)
    written(file)
    assert not next(looked)
    written(file, "Two")
    assert next(looked)
    assert not next(looked)


def test_a_file_replaced_gone_and_back_is_a_change_each_time(tmp_path: Path) -> None:
    file, other = tmp_path / "p.yaml", tmp_path / "p.yaml~"
    written(file)
    looked = Saves((file,)).wait(wake)
    written(other, "Two")
    other.replace(file)
    assert next(looked)
    file.unlink()
    assert next(looked)
    assert not next(looked)
    written(file)
    assert next(looked)


def test_what_is_followed_anew_is_taken_as_it_is(tmp_path: Path) -> None:
    one, other = tmp_path / "a.yaml", tmp_path / "b.yaml"
    written(one)
    saves = Saves((one,))
    written(other)
    saves.follow((one, other))
    assert not saves.changed()
    written(other, "Two")
    saves.follow((one, other))  # as it was last seen: the change is still to be told
    assert saves.changed()
    saves.follow((one,))
    written(other, "Three")
    assert not saves.changed()


def test_folders_of_links_are_watched_at_both_ends(tmp_path: Path) -> None:
    real, linked = tmp_path / "real", tmp_path / "linked"
    real.mkdir()
    linked.mkdir()
    written(real / "p.yaml")
    (linked / "p.yaml").symlink_to(real / "p.yaml")
    assert Saves((linked / "p.yaml",)).folders() == {real.resolve(), linked}
    assert Saves((tmp_path / "nowhere" / "p.yaml",)).folders() == set()


def test_other_folders_are_watched_anew(tmp_path: Path) -> None:
    file = tmp_path / "plans" / "p.yaml"
    asked: list[frozenset[Path]] = []

    def woken(folders: frozenset[Path]) -> Iterator[object]:
        asked.append(folders)
        yield from wake(folders)

    looked = Saves((file,)).wait(woken)
    assert not next(looked)
    file.parent.mkdir()
    written(file)
    assert next(looked)
    assert not next(looked)
    assert asked == [frozenset(), {file.parent}]


def test_the_plan_is_seen_anew_at_each_save(tmp_path: Path) -> None:
    file = tmp_path / "p.yaml"
    written(file)
    seen = looks(file, wake)
    first = next(seen)
    assert first is not None
    assert first.now.score is not None
    assert next(seen) is None
    written(file, shape="nowhere")
    broken = next(seen)
    assert broken is not None
    assert broken.now.score is None
    assert broken.good is first.now
    file.unlink()
    gone = next(seen)
    assert gone is not None
    assert gone.now.trouble == "the file is gone; it is watched for"
    written(file, "Back")
    back = next(seen)
    assert back is not None
    assert back.good is back.now


def test_the_file_of_shapes_is_watched_also_before_it_is_there(tmp_path: Path) -> None:
    file, shapes = tmp_path / "p.yaml", tmp_path / "mine.yaml"
    written(file, shape="lantern", top="shapes from: mine.yaml\n")
    seen = looks(file, wake)
    first = next(seen)
    assert first is not None
    assert first.now.score is None
    shapes.write_text("lantern: {like: mountain}\n", "utf-8")
    second = next(seen)
    assert second is not None
    assert second.now.score is not None
    shapes.write_text("lamp: {like: mountain}\n", "utf-8")
    third = next(seen)
    assert third is not None
    assert third.now.score is None


def test_a_file_that_cannot_be_read_ends_no_watching(tmp_path: Path) -> None:
    file = tmp_path / "p.yaml"
    written(file)
    seen = looks(file, wake)
    next(seen)
    file.unlink()
    file.mkdir()
    found = next(seen)
    assert found is not None
    assert found.now.trouble.startswith("the file cannot be read: ")
