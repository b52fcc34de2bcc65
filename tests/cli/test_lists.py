import pytest
from click.testing import CliRunner

from conductor.cli import cli
from conductor.cli.rulebook import RULES


def said(*arguments: str, code: int = 0) -> str:
    result = CliRunner().invoke(cli, arguments)
    assert result.exit_code == code, result.output
    return result.output


def test_plans_are_listed_with_length_and_title() -> None:
    (line,) = [line for line in said("plans").splitlines() if line.startswith("salutation-a ")]
    _, length, title = line.split(maxsplit=2)
    assert length == "1:50"
    assert title.startswith("Counted Salutation A (piece")


def test_shapes_are_searched_by_words_in_name_family_or_area() -> None:
    told = said("shapes", "balance", "hamstrings")
    assert "warrior three" in told
    assert "tree " not in told
    assert "no shape has" in said("shapes", "xyzzy", code=1)


def test_a_shape_is_shown_wholly_with_care() -> None:
    told = said("shape", "downward", "dog")
    for words in ("Adho Mukha Śvānāsana", "glaucoma", "medical advice", "comes before", "sources"):
        assert words in told
    assert "did you mean downward dog?" in said("shape", "downwrd", "doggg", code=1)


def test_every_rule_is_listed_once_and_can_be_explained() -> None:
    told = said("rules")
    names = [rule.name for rule in RULES]
    assert len(names) == len(set(names))
    for rule in RULES:
        assert f" {rule.name} " in told
        assert rule.name in said("rule", rule.name)
    said("rule", "no-such-rule", code=1)


def test_help_names_every_command_and_defers_to_medical_advice() -> None:
    told = said("--help")
    for verb in ("lead", "check", "score", "plans", "shapes", "rules", "voices", "audio"):
        assert verb in told
    assert "medical advice" in told


@pytest.mark.parametrize("form", [[], ["--json"], ["--every"]])
def test_a_score_is_printed(form: list[str]) -> None:
    told = said("score", "salutation-b", *form)
    assert "warrior" in told
