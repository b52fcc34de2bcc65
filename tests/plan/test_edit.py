import io
import subprocess
from pathlib import Path

import pytest
import yaml
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from conductor import places
from conductor.plan import edit
from conductor.plan.amounts import amount, written
from conductor.plan.edit import Add, Change, EditError, Set, edited
from conductor.plan.reading import Scalar
from conductor.plan.sheet import Place, Sheet, Spot
from conductor.spans import Span
from tests.support import plan_of, score_of

PLANS = [path.read_text("utf-8") for path in places.shipped_plans()]

WORDS = st.one_of(
    st.sampled_from(
        ["6 breaths", "x: y", "a, b", "#1", "it's", 'say "so"', "- no", "{<side>}", "yes", "5:30"]
    ),
    st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=9),
)
VALUE = st.lists(WORDS, min_size=1, max_size=3).map(" ".join)


def broken(text: str) -> list[str]:
    """Lines with their ends."""
    return text.splitlines(keepends=True) if "\r" not in text else io.StringIO(text, "").readlines()


def with_ends(text: str, end: str, mark: bool, last: bool) -> str:
    text = text if last else text.rstrip("\n")
    return ("\ufeff" if mark else "") + text.replace("\n", end)


def put_in(data: object, place: Place, value: str) -> object:
    if not place:
        return value
    step, rest = place[0], place[1:]
    if isinstance(data, dict):
        return {**data, step: put_in(data.get(step), rest, value)}
    assert isinstance(data, list)
    return [put_in(one, rest, value) if index == step else one for index, one in enumerate(data)]


# -- laws ------------------------------------------------------------------------------------


@st.composite
def documents(draw: st.DrawFn) -> str:
    """YAML in every style, with comments, as several hands would write it."""
    data = draw(
        st.recursive(
            VALUE,
            lambda inner: st.one_of(
                st.lists(inner, min_size=1, max_size=3),
                st.dictionaries(st.from_regex(r"\A[a-z]{1,5}( [a-z]{1,3})?\Z"), inner, min_size=1),
            ),
            max_leaves=12,
        )
    )
    text = yaml.safe_dump(
        {"plan": "1", "more": data},
        default_style=draw(st.sampled_from([None, None, "'", '"', "|", ">"])),
        default_flow_style=draw(st.sampled_from([None, False, True])),
        allow_unicode=True,
        indent=draw(st.sampled_from([2, 4, 7])),
        width=draw(st.sampled_from([20, 80, 1000])),
    )
    comments = draw(st.booleans())
    return f"# above\n{text}# below\n" if comments else text


@given(
    text=st.one_of(documents(), st.sampled_from(PLANS)),
    value=VALUE,
    end=st.sampled_from(["\n", "\r\n", "\r"]),
    mark=st.booleans(),
    last=st.booleans(),
    data=st.data(),
)
@settings(max_examples=40)
@pytest.mark.slow
def test_one_value_changes_and_all_other_lines_stay(
    text: str, value: str, end: str, mark: bool, last: bool, data: st.DataObject
) -> None:
    text = with_ends(text, end, mark, last)
    try:
        sheet = Sheet(text)
    except EditError:
        assume(False)
    scalars = [spot for spot in sheet.spots() if isinstance(sheet.data(), dict) and leaf(spot)]
    spot = data.draw(st.sampled_from(scalars))
    new = edited(text, [Set(spot.place, value)])

    assert Sheet(new).data() == put_in(sheet.data(), spot.place, value)
    first = text.count(end, 0, sheet.offset(spot.node.start))
    start, stop = sheet.offset(spot.node.start), sheet.end(spot.node)
    assert new.startswith(text[:start])
    assert new.endswith(text[stop:])
    assert broken(new)[:first] == broken(text)[:first]
    assert new.replace(end, "").count("\n") == 0  # no line end of another kind


@given(
    text=st.one_of(documents(), st.sampled_from(PLANS)),
    value=VALUE,
    end=st.sampled_from(["\n", "\r\n"]),
    mark=st.booleans(),
    last=st.booleans(),
    data=st.data(),
)
@settings(max_examples=40)
@pytest.mark.slow
def test_a_key_is_added_and_all_other_lines_stay(
    text: str, value: str, end: str, mark: bool, last: bool, data: st.DataObject
) -> None:
    text = with_ends(text, end, mark, last)
    try:
        sheet = Sheet(text)
    except EditError:
        assume(False)
    tables = [spot for spot in sheet.spots() if isinstance(inside(sheet, spot.place), dict)]
    spot = data.draw(st.sampled_from(tables))
    keys = inside(sheet, spot.place)
    assert isinstance(keys, dict)
    after = data.draw(st.sampled_from(["", *keys]))
    new = edited(text, [Add(spot.place, "new key", value, after)])

    assert Sheet(new).data() == put_in(sheet.data(), (*spot.place, "new key"), value)
    if "{" not in text:
        was, now = broken(text), broken(new)
        assert len(now) == len(was) + 1
        missing = next(k for k, line in enumerate(now) if line.lstrip(" ").startswith("new key: "))
        left = now[:missing] + now[missing + 1 :]
        assert [line.rstrip("\r\n") for line in left] == [line.rstrip("\r\n") for line in was]
        assert new.replace(end, "").count("\n") == 0


def leaf(spot: Spot) -> bool:
    return isinstance(spot.node, Scalar)


def inside(sheet: Sheet, place: Place) -> object:
    data: object = sheet.data()
    for step in place:
        data = data[step]  # type: ignore[index]
    return data


@given(st.integers(1, 1000))
def test_breaths_are_written_as_they_are_read(halves: int) -> None:
    assert amount(written(halves)) == (halves, 0)


@given(st.integers(1, 10_800_000), st.booleans())
def test_times_are_written_as_they_are_read(ms: int, clock: bool) -> None:
    assert amount(written(0, ms, clock=clock)) == (0, ms)


# -- single cases ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("before", "where", "value", "after"),
    [
        ("a: 5 breaths   # so long\n", ("a",), "6 breaths", "a: 6 breaths   # so long\n"),
        ("a: '5 breaths'\n", ("a",), "it's 6", "a: 'it''s 6'\n"),
        ('a: "x"\n', ("a",), 'a "b" \\c', 'a: "a \\"b\\" \\\\c"\n'),
        ("a: x\n", ("a",), "b: c", 'a: "b: c"\n'),
        ("a: {b: 1, c: 2}  # d\n", ("a", "b"), "3, 4", 'a: {b: "3, 4", c: 2}  # d\n'),
        ("a: [b, c]\n", ("a", 1), "d", "a: [b, d]\n"),
        ("a: |  # why\n  one\n  two\n\n# c\nb: 1\n", ("a",), "x", "a: x  # why\n\n# c\nb: 1\n"),
        ("a: one\n  two\nb: 1\n", ("a",), "x", "a: x\nb: 1\n"),
        ("a:\nb: 1\n", ("a",), "x", "a: x\nb: 1\n"),
        ("-\n- b\n", (0,), "x", "- x\n- b\n"),
        ("a: \u00e4\u6f22 # \u6f22\n", ("a",), "b", "a: b # \u6f22\n"),
        ("\ufeffa: x\r\nb: y", ("b",), "z", "\ufeffa: x\r\nb: z"),
    ],
)
def test_a_value_is_set_in_its_own_style(before: str, where: Place, value: str, after: str) -> None:
    assert edited(before, [Set(where, value)]) == after


@pytest.mark.parametrize(
    ("before", "change", "after"),
    [
        ("- a: 1  # c\n  # of b\n  b: 2\n", Add((0,), "c", "3", "a"),
         "- a: 1  # c\n  c: 3\n  # of b\n  b: 2\n"),
        ("a: 1\r\nb:\r\n  - x\r\n", Add((), "c", "3"), "a: 1\r\nb:\r\n  - x\r\nc: 3\r\n"),
        ("a: 1", Add((), "c", "3"), "a: 1\nc: 3"),
        ("a: {b: 1}\n", Add(("a",), "c", "3"), "a: {b: 1, c: 3}\n"),
        ("a: {}\n", Add(("a",), "c", "3"), "a: {c: 3}\n"),
        ("a: {b: 1,\n    d: 2}\n", Add(("a",), "c", "3", "b"), "a: {b: 1, c: 3,\n    d: 2}\n"),
        ("a: [x,\n    y]  # z\n", Add((), "c", "3"), "a: [x,\n    y]  # z\nc: 3\n"),
        ("a:\n", Add((), "c", "3"), "a:\nc: 3\n"),
        ("a: |\n  x\n\n\n", Add((), "c", "3"), "a: |\n  x\nc: 3\n\n\n"),
    ],
)  # fmt: skip
def test_a_key_is_added_in_the_style_around(before: str, change: Change, after: str) -> None:
    assert edited(before, [change]) == after


def test_several_changes_at_once() -> None:
    text = "a: 1\nb: {c: 2}\n"
    changes: list[Change] = [
        Set(("b", "c"), "22"),
        Set(("a",), "11"),
        Add((), "d", "4"),
        Add((), "e", "5"),
    ]
    assert edited(text, changes) == "a: 11\nb: {c: 22}\nd: 4\ne: 5\n"


@pytest.mark.parametrize(
    ("text", "changes"),
    [
        ("a: 1\n", [Set(("b",), "2")]),
        ("a: 1\n", [Set(Span("", 9, 1), "2")]),
        ("a: 1\n", [Set(("a",), "2"), Set(("a",), "3")]),
        ("a: [1]\n", [Set(("a",), "2")]),
        ("a: 1\n", [Set(("a",), "two\nlines")]),
        ("a: 1\n", [Set(("a",), "")]),
        ("a: 1\n", [Add((), "a", "2")]),
        ("a: 1\n", [Add((), "b", "2", "x")]),
        ("a: [1]\n", [Add(("a",), "b", "2")]),
        ("a: &x 1\n", [Set(("a",), "2")]),
        ("a: 'open\n", [Set(("a",), "2")]),
        ("", [Set(("a",), "2")]),
    ],
)
def test_what_cannot_be_changed_is_refused(text: str, changes: list[Change]) -> None:
    with pytest.raises(EditError):
        edited(text, changes)


def test_a_stay_is_found_by_the_origin_of_its_moments() -> None:
    text = plan_of(
        """
        - come to: mountain
        - flow: rise
        - stay: 5 breaths    # long enough
          may stretch: 3 to 8 breaths
        - free: 1:30
        """,
        flows="""
        rise:
          - in: arms overhead
          - out: mountain
          - stay: 3 and a half breaths
        """,
    )
    stays = {one.hold: one.origin for one in score_of(text).moments if one.hold}
    first, second, free = stays.values()
    new = edit.stay_edit(text, second, halves=12)
    assert new == text.replace("stay: 5 breaths", "stay: 6 breaths")
    new = edit.stay_edit(text, first, halves=2)
    assert new == text.replace("stay: 3 and a half breaths", "stay: 1 breath")
    assert edit.stay_edit(text, free, ms=75_000) == text.replace("1:30", "1:15")
    assert edit.stay_edit(text, free, ms=75_500) == text.replace("1:30", "1 min 15.5 s")


def test_put_sets_or_adds() -> None:
    sheet = Sheet("plan: 1\ntitle: T\nparts: x\n")
    assert edit.put(sheet, (), "title", "U", "plan") == Set(("title",), "U")
    assert edit.put(sheet, (), "length", "1 h", "title") == Add((), "length", "1 h", "title")
    assert edit.put(sheet, (), "length", "1 h", "kind") == Add((), "length", "1 h")


@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("last", ["", "x"])
@pytest.mark.slow
def test_a_difference_is_one_that_patch_takes(end: str, last: str, tmp_path: Path) -> None:
    old = PLANS[0].replace("\n", end) + last
    new = old.replace("breath: 4 s in", "breath: 5 s in").removesuffix(last) + f"{last}y"
    shown = edit.difference(old, new, "plan.yaml")
    assert "-breath: 4 s in, 4 s out" in shown
    file = tmp_path / "plan.yaml"
    file.write_bytes(old.encode())
    subprocess.run(
        ["patch", "--binary", "-s", "plan.yaml"], cwd=tmp_path, input=shown.encode(), check=True
    )
    assert file.read_bytes().decode() == new


def test_no_difference_is_nothing() -> None:
    assert edit.difference("a: 1\n", "a: 1\n", "p") == ""
