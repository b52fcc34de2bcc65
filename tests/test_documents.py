"""README and DEVELOPERS say what is so: examples compile, tables and pictures are the program's."""

import re
from pathlib import Path

import pytest

from conductor.engine.picture import picture
from conductor.findings import Weight
from conductor.run.review.model import (
    PartLed,
    Review,
    ShapeLed,
    Spoken,
    StayLed,
    Stretch,
    Waited,
)
from conductor.view import actions
from conductor.view.rehearsing import REHEARSAL
from tests.support import findings_of

ROOT = Path(__file__).parents[1]
PAGES = ("README.md", "DEVELOPERS.md")


def between(page: str, start: str, end: str) -> str:
    text = (ROOT / page).read_text("utf-8")
    return text[text.index(start) + len(start) : text.index(end)].strip()


def examples() -> list[tuple[str, str]]:
    found = []
    for page in PAGES:
        text = (ROOT / page).read_text("utf-8")
        found += [(page, plan) for plan in re.findall(r"```yaml\n(plan:.*?)```", text, re.DOTALL)]
    return found


@pytest.mark.parametrize(("page", "plan"), examples(), ids=lambda part: part[:12])
def test_every_plan_in_the_documents_compiles_without_error_or_warning(
    page: str, plan: str
) -> None:
    told = [one for one in findings_of(plan) if one.weight is not Weight.REMARK]
    assert told == [], page


def test_the_readme_shows_the_keys_as_the_program_has_them() -> None:
    rows = ["| keys | what | |", "|---|---|---|"]
    rows += [f"| {keys} | {label} | {text} |" for keys, label, text in actions.table()]
    assert between("README.md", "<!-- keys -->", "<!-- /keys -->") == "\n".join(rows)


def test_the_readme_shows_the_keys_of_a_rehearsal() -> None:
    rows = ["| keys | what | |", "|---|---|---|"]
    rows += [f"| {keys} | {label} | {text} |" for keys, label, text in actions.table(REHEARSAL)]
    shown = between("README.md", "<!-- rehearsal keys -->", "<!-- /rehearsal keys -->")
    assert shown == "\n".join(rows)


def test_the_picture_of_the_states_is_the_tables() -> None:
    shown = between("DEVELOPERS.md", "<!-- states -->", "<!-- /states -->")
    assert shown == f"```mermaid\n{picture().strip()}\n```"


def test_the_readme_has_both_commands() -> None:
    text = (ROOT / "README.md").read_text("utf-8")
    for name, words in (("lead", "conductor lead lighthouse-morning"), ("tests", "pytest")):
        command = re.search(rf"<!-- command: {name} -->\n```sh\n(.*?)\n```", text, re.DOTALL)
        assert command is not None
        assert words in command.group(1)


def test_links_to_files_lead_somewhere() -> None:
    for page in PAGES:
        text = (ROOT / page).read_text("utf-8")
        for link in re.findall(r"\]\((?!http)([^)#]+)\)", text):
            assert (ROOT / link).exists(), (page, link)


def test_every_field_of_a_review_is_described() -> None:
    kinds = (Review, PartLed, ShapeLed, StayLed, Waited, Spoken, Stretch)
    fields = {name for kind in kinds for name in kind.__struct_fields__}
    table = between("DEVELOPERS.md", "<!-- review -->", "<!-- /review -->")
    assert fields - set(re.findall(r"`(\w+)`", table)) == set()
