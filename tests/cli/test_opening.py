from pathlib import Path

import pytest

from conductor.cli.opening import opened
from tests.support import plan_of

STEPS = "- come to: mountain\n- in: beacon\n  side: right\n- out: mountain\n"


def written(folder: Path, text: str, name: str = "plan.yaml") -> Path:
    path = folder / name
    path.write_text(text, "utf-8")
    return path


def test_shapes_of_another_file_are_taken_in(tmp_path: Path) -> None:
    written(tmp_path, "shapes:\n  beacon: {like: warrior three}\n", "mine.yaml")
    plan = written(tmp_path, plan_of(STEPS, head="shapes from: mine.yaml\n"))
    found = opened(plan)
    assert found.score is not None, found.findings
    assert found.score.moments[1].shape == "beacon"
    assert set(found.sources) == {str(plan), str((tmp_path / "mine.yaml").resolve())}


@pytest.mark.parametrize("named", ["../mine.yaml", "none.yaml", "link.yaml"])
def test_what_lies_outside_the_folder_or_is_not_there_is_told_at_its_place(
    named: str, tmp_path: Path
) -> None:
    folder = tmp_path / "plans"
    folder.mkdir()
    written(tmp_path, "shapes:\n  beacon: {like: warrior three}\n", "mine.yaml")
    (folder / "link.yaml").symlink_to(tmp_path / "mine.yaml")
    text = plan_of(STEPS, head=f"shapes from: {named}\n")
    found = opened(written(folder, text))
    assert found.score is None
    told = [
        one
        for one in found.findings
        if one.span and "shapes from" in text.splitlines()[one.span.line - 1]
    ]
    assert told


def test_a_file_that_is_no_text_is_told_with_its_place(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_bytes(b"plan: 1\ntitle: \xff\xfe\n")
    (finding,) = opened(plan).findings
    assert (finding.rule, finding.span and finding.span.line) == ("not-text", 2)


def test_a_rule_that_the_plan_switches_off_is_silent_and_the_reason_is_told(tmp_path: Path) -> None:
    steps = "- come to: mountain\n- in: tree\n"
    loud = opened(written(tmp_path, plan_of(steps)))
    assert "side-open" in [one.rule for one in loud.findings]
    head = "check: {off: {side-open: they know}}\n"
    quiet = opened(written(tmp_path, plan_of(steps, head=head)))
    assert "side-open" not in [one.rule for one in quiet.findings]
    assert any("they know" in one.words for one in quiet.findings)
