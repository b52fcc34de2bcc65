import pytest

from conductor.plan import limits, nodes
from conductor.plan.reader import read
from conductor.plan.reading import Items, Reading, Scalar, Table
from conductor.spans import Span

PARSERS = pytest.mark.parametrize("pure", [False, True])


def tree(node: object) -> object:
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, Items):
        return [tree(item) for item in node.items]
    assert isinstance(node, Table)
    return {key: tree(value) for key, (_, value) in node.pairs.items()}


def read_tree(text: str, pure: bool) -> tuple[object, Reading]:
    reading = Reading(text, "p.yaml")
    node, broke = nodes.read_nodes(reading, pure)
    assert broke == -1
    return (None if node is None else tree(node)), reading


@PARSERS
def test_every_scalar_is_text(pure: bool) -> None:
    text = "a: 1:30\nb: on\nc: no\nd: 06\ne: 1e3\nf: null\ng: ~\nh: 2020-01-01\ni: 0x1F\n"
    read_, reading = read_tree(text, pure)
    assert read_ == {
        "a": "1:30", "b": "on", "c": "no", "d": "06", "e": "1e3", "f": "null", "g": "~",
        "h": "2020-01-01", "i": "0x1F",
    }  # fmt: skip
    assert reading.findings == []


@PARSERS
def test_words_over_several_lines_become_one(pure: bool) -> None:
    text = "a: |\n  one\n  two\nb: >\n  three\n\n  four\nc: five\n  six\n"
    assert read_tree(text, pure)[0] == {"a": "one two", "b": "three four", "c": "five six"}


@PARSERS
def test_a_key_twice_names_both_places(pure: bool) -> None:
    read_, reading = read_tree("a: 1\nb:\n  c: 2\n  d: 3\n  c: 4\n", pure)
    (finding,) = reading.findings
    assert finding.rule == "key-twice"
    assert finding.span == Span("p.yaml", 5, 3, 4)
    assert finding.also == ((Span("p.yaml", 3, 3, 4), "the first one"),)
    assert read_ == {"a": "1", "b": {"c": "2", "d": "3"}}


@PARSERS
@pytest.mark.parametrize(
    ("text", "span"),
    [
        ("a: &x b\n", Span("p.yaml", 1, 4, 8)),
        ("a: 1\nb: *x\n", Span("p.yaml", 2, 4, 6)),
        ("a: !!int 1\n", Span("p.yaml", 1, 4, 11)),
        ("%YAML 1.1\n---\na: 1\n", Span("p.yaml", 1, 1, 10)),
        ("a: 1\n---\nb: 2\n", Span("p.yaml", 2, 1, 4)),
    ],
)
def test_what_hides_meaning_is_refused_where_it_stands(text: str, span: Span, pure: bool) -> None:
    _, findings = read(text, "p.yaml", pure=pure)
    assert ("plain-yaml", span) in [(finding.rule, finding.span) for finding in findings]


@PARSERS
def test_a_bomb_of_aliases_is_refused_and_never_grows(pure: bool) -> None:
    rows = ["a0: &a0 [x, x]"] + [
        f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 30)
    ]
    plan, findings = read("plan: 1\n" + "\n".join(rows), "p.yaml", pure=pure)
    assert plan is None
    assert len(findings) <= limits.FINDINGS + 1


DEEP = {
    "brackets": "[" * 100_000,
    "braces": "{a: " * 50_000,
    "dashes": "- " * 50_000,
    "questions": "? " * 50_000,
    "indents": "\n".join(" " * n + "a:" for n in range(200)),
}


@PARSERS
@pytest.mark.parametrize("text", DEEP.values(), ids=DEEP)
def test_depth_is_bounded(text: str, pure: bool) -> None:
    plan, findings = read(text, "p.yaml", pure=pure)
    assert plan is None
    assert "size" in {finding.rule for finding in findings}


def test_the_number_of_nodes_is_bounded() -> None:
    plan, findings = read("plan: 1\nx: [" + "a," * (limits.NODES + 1) + "]", "p.yaml")
    assert plan is None
    assert "size" in {finding.rule for finding in findings}


def test_size_is_bounded() -> None:
    plan, findings = read("# " + "x" * limits.FILE_CHARS, "p.yaml")
    assert plan is None
    assert [finding.rule for finding in findings] == ["size"]


def test_a_list_as_a_key_is_refused() -> None:
    _, findings = read("plan: 1\n? [a]\n: b\nparts: []\n", "p.yaml")
    assert ("form", Span("p.yaml", 2, 3, 4)) in [(f.rule, f.span) for f in findings]


def test_the_c_library_is_used_where_there_is_one() -> None:
    assert type(nodes.parser("a: 1")).__name__ == "CParser"
    assert type(nodes.parser("a: 1", pure=True)).__name__ != "CParser"
