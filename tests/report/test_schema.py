"""The schema against right plans and wrong ones, by a library written elsewhere."""

import re
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from conductor.cli.rulebook import RULES
from conductor.cli.schema import SWITCHED
from conductor.places import shipped_plans
from conductor.plan import keys
from conductor.plan.forms import CHOICES
from conductor.plan.reader import read
from conductor.report import language
from conductor.report import schema as made
from conductor.report.schema import Form, schema
from conductor.shapes.catalogue import load
from tests.checks.examples import plan_around
from tests.plan.conftest import wrapped
from tests.report.test_language import EXAMPLES, plan
from tests.test_documents import examples

SCHEMA = schema(SWITCHED, load().shapes.values())
VALIDATOR = Draft202012Validator(SCHEMA)
PLACES = {
    "a movement": "movement",
    "a stay": "stay",
    "free time": "free time",
    "words of their own": "words",
    "a bell": "bell",
    "a block": "block",
    "a part": "part",
    "another way": "way",
}


class Editor(yaml.SafeLoader):
    """Reads as editors do, by YAML 1.2: numbers and true, false, null are no texts."""


Editor.yaml_implicit_resolvers = {}
for tag, pattern, first in (
    ("bool", r"true|True|TRUE|false|False|FALSE", "tTfF"),
    ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
    ("int", r"[-+]?[0-9]+", "-+0123456789"),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", "-+.0123456789"),
):
    Editor.add_implicit_resolver(
        f"tag:yaml.org,2002:{tag}", re.compile(f"^(?:{pattern})$"), list(first)
    )


class Old(Editor):
    """Reads as YAML 1.1 did: yes and no are no texts either."""


Old.yaml_implicit_resolvers = {
    key: list(found) for key, found in Editor.yaml_implicit_resolvers.items()
}
Old.add_implicit_resolver(
    "tag:yaml.org,2002:bool", re.compile("^(?:yes|no|Yes|No|true|false)$"), list("yYnNtf")
)
TESTS = Path(__file__).parents[1]
LONG = (TESTS / "golden" / "harbour-crossing.yaml", TESTS / "outside" / "common-protocol.yaml")
LOADERS = (yaml.BaseLoader, Editor, Old)


def faults(text: str, loader: type = Editor) -> list[str]:
    return [str(one.message)[:200] for one in VALIDATOR.iter_errors(yaml.load(text, loader))]  # noqa: S506


@pytest.mark.slow
def test_it_is_itself_a_schema_of_that_dialect() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    bare = schema()
    Draft202012Validator.check_schema(bare)


@pytest.mark.parametrize("loader", LOADERS, ids=lambda one: one.__name__)
@pytest.mark.parametrize("path", shipped_plans(), ids=lambda path: path.stem)
@pytest.mark.slow
def test_every_shipped_plan_is_valid_however_an_editor_reads_it(path: Path, loader: type) -> None:
    assert faults(path.read_text("utf-8"), loader) == []


@pytest.mark.parametrize("loader", LOADERS, ids=lambda one: one.__name__)
@pytest.mark.parametrize("key", EXAMPLES, ids=lambda key: key.name)
def test_every_example_of_the_language_is_valid(key: language.Key, loader: type) -> None:
    assert faults(plan(key), loader) == []


def test_every_plan_in_the_documents_is_valid() -> None:
    for _, text in examples():
        assert faults(text) == []


@pytest.mark.parametrize("path", LONG, ids=lambda path: path.stem)
@pytest.mark.slow
def test_long_plans_of_other_tests_are_valid(path: Path) -> None:
    assert faults(path.read_text("utf-8")) == []


@pytest.mark.slow
def test_every_good_example_of_a_rule_is_valid() -> None:
    for rule in RULES:
        if "- " in rule.good:
            text = rule.good if "plan: 1" in rule.good else plan_around(rule.good)
            assert faults(text) == [], (rule.name, text)


def test_no_key_of_the_language_lacks_and_none_is_there_but_in_its_place() -> None:
    definitions = SCHEMA["$defs"]
    assert isinstance(definitions, dict)
    places = [one for one in vars(keys).values() if isinstance(one, keys.Place)]
    for place in places:
        if place is keys.TOP:
            found: Form = SCHEMA
        elif place is keys.FLOW:
            found = definitions["flow"]["anyOf"][1]
        elif place is keys.ANY:
            continue
        else:
            found = definitions[PLACES[place.name]]
            found = found["anyOf"][1] if "anyOf" in found else found  # type: ignore[index]
        properties = found["properties"]
        assert isinstance(properties, dict)
        assert set(properties) == place.keys, place.name
        described = {name for name, form in properties.items() if form.get("description")}
        assert described == place.keys, place.name


def test_the_few_words_of_a_key_are_those_that_the_reader_takes() -> None:
    top = ("kind", "first side")
    for key, words in CHOICES.items():
        line = f"{key}: xyzzy"
        text = (
            f"{line}\n" + wrapped("- come to: mountain")
            if key in top
            else wrapped(f"- in: tree\n  {line}")
        )
        told = [one for one in read(text, "p")[1] if one.rule == "known-word"]
        assert [one.hint for one in told] == [f"It takes: {', '.join(words)}."]


WRONG = {
    "an unknown key at the top": ("tytle: x", "- come to: mountain"),
    "an unknown key of a step": ("", "- come to: mountain\n  sey: Stand tall."),
    "a key of another step": ("", "- stay: 3 breaths\n  turn: front"),
    "two verbs": ("", "- in: mountain\n  out: mountain"),
    "no verb": ("", "- with: arms wide"),
    "an amount of nothing": ("", "- stay: 5"),
    "an amount in another unit": ("", "- free: 3 breaths"),
    "a tempo that is none": ("breath: slowly", "- come to: mountain"),
    "a length that is none": ("length: 3 breaths", "- come to: mountain"),
    "a kind that is none": ("kind: lesson", "- come to: mountain"),
    "a side that is none": ("", "- in: tree\n  side: middle"),
    "bounds that are none": ("", "- stay: 5 breaths\n  may stretch: somewhat"),
    "rounds that are none": ("", "- rounds: many\n  steps:\n    - come to: mountain"),
    "more rounds than may be": ("", "- rounds: 999\n  steps:\n    - come to: mountain"),
    "bounds of one number": ("", "- rounds: 3\n  may repeat: 4\n  steps:\n    - in: mountain"),
    "a block without steps": ("", "- rounds: 3"),
    "steps that are no list": ("", "- rounds: 3\n  steps:\n    in: mountain"),
    "between without sides": (
        "",
        "- rounds: 2\n  steps:\n    - in: mountain\n  between:\n    - in: same",
    ),
    "a yes that is none": ("", "- each side: perhaps\n  steps:\n    - in: tree"),
    "a time that is never": ("", "- stay: 1 breath\n  only: sometimes"),
    "no value": ("title:", "- come to: mountain"),
    "a list where words belong": ("title: [a, b]", "- come to: mountain"),
    "a setting that is none": ("voice: {loud: yes}", "- come to: mountain"),
    "a rate beyond its bounds": ("voice: {rate: 900}", "- come to: mountain"),
    "a rule that is none": ("check: {off: {no-such-rule: because}}", "- come to: mountain"),
    "an error switched off": ("check: {off: {unknown-shape: because}}", "- come to: mountain"),
    "a field of a shape that is none": ("shapes: {keel: {likes: boat}}", "- come to: keel"),
    "an anchor that is none": ("", "- stay: 3 breaths\n  say:\n    - middle: Breathe."),
}


@pytest.mark.parametrize("name", WRONG)
def test_a_planted_fault_is_refused(name: str) -> None:
    head, steps = WRONG[name]
    text = wrapped(steps, f"{head}\n" if head else "")
    assert faults(text), text
    mended = wrapped("- come to: mountain")
    assert faults(mended) == []


def test_the_share_of_a_part_is_a_percentage() -> None:
    part = "plan: 1\nparts:\n  - part: A\n    share: {}\n    steps:\n      - come to: mountain\n"
    assert faults(part.format("20 %")) == []
    assert faults(part.format("half"))


def test_a_plan_needs_its_version_and_something_to_lead() -> None:
    assert faults("title: x\nparts:\n  - part: A\n    steps:\n      - come to: mountain")
    assert faults("plan: 2\nparts:\n  - part: A\n    steps:\n      - come to: mountain")
    assert faults("plan: 1\ntitle: x")


def test_a_key_nobody_gave_a_form_takes_any_value(monkeypatch: pytest.MonkeyPatch) -> None:
    more = keys.Place("a part", keys.PART.keys | {"new thing"}, of_steps=True)
    kinds = {**made._KINDS, "part": made._Kind(more, ("part", "steps"))}
    monkeypatch.setattr(made, "_KINDS", kinds)
    validator = Draft202012Validator(schema())
    part = {"part": "A", "steps": [{"come to": "mountain"}]}
    assert validator.is_valid({"plan": 1, "parts": [{**part, "new thing": "20 %"}]})
    assert validator.is_valid({"plan": 1, "parts": [{**part, "new thing": [1, 2]}]})
    assert not validator.is_valid({"plan": 1, "parts": [{**part, "new thing": None}]})


def test_shapes_and_rules_are_offered_by_name() -> None:
    definitions = SCHEMA["$defs"]
    assert isinstance(definitions, dict)
    offered = definitions["shape"]["anyOf"][0]["enum"]
    assert {"same", "warrior two", "downward dog"} <= set(offered)
    assert "floor-trips" in definitions["check"]["properties"]["off"]["properties"]
    assert "longest half breath" in definitions["check"]["properties"]
