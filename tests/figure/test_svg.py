"""A figure as SVG, read back by a reader of XML that is not ours."""

import re
import shutil
import subprocess
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from conductor.cli.opening import find, opened
from conductor.figure.ink import PAPER, reach, safe, tag
from conductor.figure.model import Figure, Form, Kind, Lane, Stretch, Timeline
from conductor.figure.svg import row_of, svg
from conductor.figure.timeline import timeline
from conductor.places import shipped_plans
from conductor.view.legible import contrast
from tests.figure.test_lanes import UNEVEN
from tests.support import score_of

SVG = "{http://www.w3.org/2000/svg}"


def tree(picture: str) -> ET.Element:
    return ET.fromstring(picture.encode())  # noqa: S314 -- our own text


def classed(root: ET.Element, name: str, look: str) -> list[ET.Element]:
    return [one for one in root.iter(SVG + name) if look in (one.get("class") or "").split()]


def shown(root: ET.Element) -> list[str]:
    return [one.text or "" for one in root.iter(SVG + "text")]


@pytest.mark.parametrize("path", shipped_plans(), ids=lambda path: path.stem)
def test_every_plan_makes_a_picture_that_needs_nothing_else(path: Path) -> None:
    found = opened(path)
    assert found.score is not None
    picture = svg(Figure("A class", (timeline(found.score, found.cues, found.shapes),)))
    root = tree(picture)
    assert root.get("role") == "img"
    assert root.findtext(SVG + "title") == "A class"
    assert "sides: " in (root.findtext(SVG + "desc") or "")
    assert not list(root.iter(SVG + "script"))
    assert "href" not in picture
    assert re.findall(r"https?://\S+", picture) == ['http://www.w3.org/2000/svg"']
    assert set(re.findall(r"url\(#([\w-]+)\)", picture)) <= {one.get("id") for one in root.iter()}
    whole = " ".join(shown(root))
    assert all(part.name in whole for part in found.score.parts)
    wide = float(root.get("width") or 0)
    for rect in root.iter(SVG + "rect"):
        assert float(rect.get("x") or 0) + float(rect.get("width") or 0) <= wide + 0.01
    assert "on" not in {key[:2] for one in root.iter() for key in one.keys()}  # noqa: SIM118


def test_uneven_sides_are_seen_above_and_below_the_axis() -> None:
    root = tree(svg(Figure("Trees", (timeline(score_of(UNEVEN)),)), 120_000))
    axis = float(re.findall(r"M\S+ (\S+)h", classed(root, "path", "axis")[0].get("d") or "")[0])
    (right,), (left,) = classed(root, "rect", "right"), classed(root, "rect", "left")
    assert float(right.get("y") or 0) + float(right.get("height") or 0) == pytest.approx(axis)
    assert float(left.get("y") or 0) == pytest.approx(axis)
    wide = [float(one.get("width") or 0) for one in (right, left)]
    assert wide[0] / wide[1] == pytest.approx(44 / 28, abs=0.01)
    assert any("16 s more on the right" in line for line in shown(root))


def test_every_ink_can_be_read_on_its_ground_light_dark_and_printed() -> None:
    picture = svg(Figure("T", ()))
    for scheme in ("prefers-color-scheme: dark", "@media print"):
        assert scheme in picture
    for ink in (PAPER.text, PAPER.soft, PAPER.right, PAPER.left, PAPER.alert):
        assert contrast(ink, PAPER.ground) >= 7
    assert contrast(PAPER.text, PAPER.trough) >= 7
    assert contrast(PAPER.text, PAPER.panel) >= 7


def test_text_of_a_plan_is_never_markup() -> None:
    evil = '</text><script>alert("x")</script>\x1b[31m\ufffe & <b>'
    lane = Lane("parts", Form.BANNERS, (Stretch(0, 600_000, evil, note=evil),), evil)
    root = tree(svg(Figure(evil, (Timeline(evil, 600_000, (lane,)),) * 2, (evil,))))
    assert not list(root.iter(SVG + "script"))
    assert any("<script>" in text for text in shown(root))
    assert "\x1b" not in safe(evil)
    assert tag("a", b_='"<&') == "<a b='\"&lt;&amp;'/>"


def test_kinds_are_told_apart_without_colour() -> None:
    kinds = (Kind.PLAIN, Kind.HELD, Kind.SKIPPED, Kind.REST)
    row = tuple(Stretch(n * 60_000, 60_000, kind.value, kind) for n, kind in enumerate(kinds))
    root = tree(svg(Figure("T", (Timeline("led", 240_000, (Lane("shapes", Form.BOXES, row),)),))))
    fills = [one.get("fill") for one in root.iter(SVG + "rect") if one.get("fill")]
    assert fills == ["url(#hatch-held)", "url(#hatch-gone)", "url(#hatch-rest)"]
    assert {kind.value for kind in kinds} <= set(shown(root))


def test_a_name_is_written_only_where_it_fits() -> None:
    long = "a very long name of a shape that never fits"
    row = (Stretch(0, 10_000, long), Stretch(10_000, 590_000, "tree"))
    root = tree(svg(Figure("T", (Timeline("t", 600_000, (Lane("shapes", Form.BOXES, row),)),))))
    assert "tree" in shown(root)
    assert long not in shown(root)
    assert reach("山", 10) > reach("a", 10)


def test_a_class_of_any_length_fits_on_a_page_of_few_rows() -> None:
    assert [row_of(minutes * 60_000) // 60_000 for minutes in (4, 10, 30, 60, 90)] == [
        *(2, 5, 10, 15, 30),
    ]
    assert row_of(10 * 3_600_000) * 4 >= 10 * 3_600_000


def test_one_scale_for_all_that_stand_beneath_each_other() -> None:
    lane = Lane("sides", Form.SIDES, (Stretch(0, 60_000, "right", Kind.RIGHT),))
    one, two = Timeline("A", 60_000, (lane,)), Timeline("B", 120_000, (lane,))
    root = tree(svg(Figure("T", (one, two)), 120_000))
    wide = {one.get("width") for one in classed(root, "rect", "right")}
    assert len(wide) == 1
    assert {"A", "B"} <= set(shown(root))


@pytest.mark.skipif(shutil.which("rsvg-convert") is None, reason="no rsvg-convert on this machine")
@pytest.mark.slow
def test_another_program_draws_it(tmp_path: Path) -> None:
    found = opened(find("short-tide"))
    assert found.score is not None
    file, made = tmp_path / "a.svg", tmp_path / "a.png"
    file.write_text(svg(Figure("T", (timeline(found.score),))), "utf-8")
    subprocess.run(["rsvg-convert", file, "-o", made], check=True, capture_output=True)
    assert made.read_bytes().startswith(b"\x89PNG")
