from collections.abc import Callable

import pytest

from conductor.findings import Weight
from conductor.plan.model import Plan
from conductor.plan.reader import read
from conductor.spans import Span

BODY = "parts:\n  - part: All\n    steps:\n      - in: plank\n"


def test_the_head_of_a_plan(whole: Callable[[str], Plan]) -> None:
    plan = whole(
        "plan: 1\ntitle: Low Tide\nkind: piece\nfor: mixed level\nlength: 30 min\n"
        "breath: 6 a minute\nfirst side: left\nspeak: full, then short\nprops: [block, strap]\n"
        "shapes from: mine.yaml\nvoice: {rate: 140}\n"
        "check:\n  rest:\n    least: 3 min\n  off:\n    no-rest: short piece\n" + BODY
    )
    assert plan.title.value == "Low Tide"
    assert plan.kind == "piece"
    assert plan.for_
    assert plan.for_.value == "mixed level"
    assert plan.length
    assert plan.length.ms == 1_800_000
    assert plan.breath
    assert plan.breath.inhale == 5000
    assert plan.first_side
    assert plan.first_side.value == "left"
    assert plan.speak == ("full", "short")
    assert [prop.value for prop in plan.props] == ["block", "strap"]
    assert {name: text.value for name, text in plan.options.items()} == {
        "shapes from": "mine.yaml",
        "voice.rate": "140",
        "check.rest.least": "3 min",
        "check.off.no-rest": "short piece",
    }
    assert plan.options["voice.rate"].span == Span("p.yaml", 11, 15, 18)


def test_parts_carry_modifiers_and_a_length(whole: Callable[[str], Plan]) -> None:
    plan = whole(
        "plan: 1\nparts:\n  - part: Arrive\n    length: 5 min\n    breath: 5 in, 5 out\n"
        "    may drop: yes\n    steps:\n      - come to: mountain\n"
    )
    (part,) = plan.parts
    assert part.name.value == "Arrive"
    assert part.length
    assert part.length.ms == 300_000
    assert part.mods.breath
    assert part.mods.breath.exhale == 5000
    assert part.mods.may_drop


def test_a_flow_may_carry_modifiers(whole: Callable[[str], Plan]) -> None:
    plan = whole("plan: 1\nflows:\n  tide:\n    settle: 1 breath\n    steps:\n      - in: plank\n")
    flow = plan.flows["tide"]
    assert flow.name.span == Span("p.yaml", 3, 3, 7)
    assert flow.mods.settle
    assert flow.mods.settle.halves == 2
    assert len(flow.steps) == 1


def test_own_shapes(whole: Callable[[str], Plan]) -> None:
    plan = whole(
        "plan: 1\nshapes:\n  keel: {like: boat, side means: leg that is raised}\n"
        "  raft: boat\n  mast:\n    stands on: one foot\n    cautions: [knee, wrist]\n" + BODY
    )
    assert {name: {key: text.value for key, text in shape.fields.items()} for name, shape in
            plan.shapes.items()} == {
        "keel": {"like": "boat", "side means": "leg that is raised"},
        "raft": {"like": "boat"},
        "mast": {"stands on": "one foot", "cautions": "knee, wrist"},
    }  # fmt: skip


def test_a_plan_with_no_title_has_its_files_name(whole: Callable[[str], Plan]) -> None:
    assert whole("plan: 1\n" + BODY).title.value == "p"


@pytest.mark.parametrize(
    "path",
    ["/etc/shapes.yaml", "../x.yaml", "a/../../x.yaml", "~/x.yaml", "C:\\x.yaml", "..\\x.yaml",
     "\\\\host\\x.yaml"],
)  # fmt: skip
def test_a_file_outside_the_plans_folder_is_refused(path: str) -> None:
    _, findings = read(f"plan: 1\nshapes from: {path}\n{BODY}", "p.yaml")
    assert [finding.rule for finding in findings] == ["path"]


@pytest.mark.parametrize(
    ("text", "rule", "place"),
    [
        ("", "missing", (1, 1)),
        ("# only a comment\n", "missing", (1, 1)),
        ("just words\n", "form", (1, 1)),
        ("- in: plank\n", "form", (1, 1)),
        ("plan: 1\n", "missing", (1, 1)),
        ("plan: 2\n" + BODY, "version", (1, 7)),
        (BODY, "version", (1, 1)),
        ("plan: 1\nparts: []\n", "missing", (2, 1)),
        ("plan: 1\nparts:\n", "missing", (2, 1)),
        ("plan: 1\nparts: all\n", "form", (2, 1)),
        ("plan: 1\nparts:\n  - part: A\n", "missing", (3, 5)),
        ("plan: 1\nparts:\n  - steps:\n      - in: x\n", "missing", (3, 5)),
        ("plan: 1\nparts:\n  - just words\n", "form", (3, 5)),
        ("plan: 1\nflows: []\n", "form", (2, 1)),
        ("plan: 1\nflows:\n  a:\n", "missing", (3, 3)),
        ("plan: 1\nflows:\n  a:\n    in: x\n    out: y\n", "form", (4, 5)),
        ("plan: 1\nshapes:\n  a: {}\n" + BODY, "missing", (3, 3)),
        ("plan: 1\nshapes:\n  a: {like: [[x]]}\n" + BODY, "form", (3, 14)),
        ("plan: 1\nkind: workshop\n" + BODY, "known-word", (2, 7)),
        ("plan: 1\nfirst side: top\n" + BODY, "known-word", (2, 13)),
        ("plan: 1\nlength: 30\n" + BODY, "amount", (2, 9)),
        ("plan: 1\nlength: 10 breaths\n" + BODY, "amount", (2, 9)),
        ("plan: 1\nlength: 5 h\n" + BODY, "limit", (2, 9)),
        ("plan: 1\nprops: {a: b}\n" + BODY, "form", (2, 8)),
        ("plan: 1\nvoice: low\n" + BODY, "form", (2, 1)),
        ("plan: 1\ncheck: {off: no-rest}\n" + BODY, "form", (2, 9)),
        ("plan: 1\ncheck: {off: {no-rest: }}\n" + BODY, "missing", (2, 15)),
        ("plan: 1\nprats: x\n" + BODY, "unknown-key", (2, 1)),
    ],
)
def test_what_is_wrong_at_the_top(text: str, rule: str, place: tuple[int, int]) -> None:
    plan, findings = read(text, "p.yaml")
    assert plan is None
    assert findings[0].rule == rule
    assert findings[0].span
    assert (findings[0].span.line, findings[0].span.column) == place
    assert findings[0].weight is Weight.ERROR
    assert len(findings) == 1
