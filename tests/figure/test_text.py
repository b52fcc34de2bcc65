"""A figure as text, read as a person reads it."""

import unicodedata
from pathlib import Path

import pytest

from conductor.cli.opening import find, opened
from conductor.cli.tell import coloured
from conductor.figure.cells import drawable, fit, width
from conductor.figure.model import Figure, Form, Kind, Lane, Stretch, Timeline
from conductor.figure.text import Page, text
from conductor.figure.timeline import timeline
from conductor.shapes.catalogue import load
from tests.figure.test_lanes import UNEVEN
from tests.support import score_of

PLANS = (
    "salutation-a",
    "short-tide",
    *(
        pytest.param(name, marks=pytest.mark.slow)
        for name in ("lighthouse-morning", "harbour-hour")
    ),
)
HELD = (
    Stretch(0, 30_000, "tree", Kind.PLAIN),
    Stretch(30_000, 20_000, "held for somebody", Kind.HELD),
    Stretch(50_000, 10_000, "skipped", Kind.SKIPPED),
)


def drawn(*lanes: Lane, page: Page | None = None) -> list[str]:
    figure = Figure("Title", (Timeline("planned", 60_000, lanes),))
    return text(figure, page or Page(69)).splitlines()


SHOWN = (Path(__file__).parent / "two-trees.txt").read_text("utf-8")


def test_a_class_with_uneven_sides_shows_and_says_it() -> None:
    """Above the axis the bar is longer than below it, and the sum says by how much."""
    score = score_of(UNEVEN)
    one = timeline(score, (), load().shapes)
    assert text(Figure("Two trees", (one,)), Page(69)) == SHOWN


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("columns", [60, 80, 120, 200])
@pytest.mark.parametrize("ascii_only", [False, True])
def test_every_plan_stays_within_its_width(plan: str, columns: int, ascii_only: bool) -> None:
    found = opened(find(plan))
    assert found.score is not None
    one = timeline(found.score, found.cues, found.shapes)
    for figure in (Figure("T", (one,)), Figure("T", (one, one))):
        for row_ms in (0, 300_000):
            page = text(figure, Page(columns, row_ms, ascii_only))
            assert max(map(width, page.splitlines())) <= columns
            assert page.isascii() is ascii_only or not ascii_only


def test_narrower_than_sixty_columns_is_drawn_in_sixty() -> None:
    assert max(map(len, drawn(Lane("parts", Form.BANNERS, HELD), page=Page(20)))) <= 60


def test_nothing_is_told_by_colour_alone() -> None:
    lane = Lane("parts", Form.BANNERS, HELD)
    plain = drawn(lane)
    assert "held for somebody=" in plain[2]
    assert "skipped-" in plain[2]
    painted = drawn(lane, page=Page(69, paint=lambda words, kind: f"<{kind}>{words}</>"))
    assert "<held>" in painted[2]
    bare = painted[2]
    for kind in ("plain", "held", "skipped"):
        bare = bare.replace(f"<{kind}>", "")
    assert bare.replace("</>", "") == plain[2]


def test_text_of_a_plan_steers_no_terminal() -> None:
    evil = (Stretch(0, 60_000, "a\x1b[31mred\x07\u202e", Kind.PLAIN),)
    page = "\n".join(drawn(Lane("parts", Form.BANNERS, evil, "b\x1b[2J")))
    assert "\x1b" not in page
    assert not any(unicodedata.category(sign) == "Cf" for sign in page)
    assert coloured("x", "no kind of ours") == "x"


def test_wide_letters_take_two_cells() -> None:
    assert width("山のポーズ") == 10
    assert fit("山のポーズ", 7) == "山のポ…"
    assert fit("山のポーズ", 8) == "山のポ… "
    lane = Lane("parts", Form.BANNERS, (Stretch(0, 60_000, "山のポーズ"),))
    assert width(drawn(lane)[2]) <= 69


def test_plain_letters_where_others_cannot_be_shown() -> None:
    assert drawable("Tāḍāsana – “x”", ascii_only=True) == "Tadasana - ?x?"


def test_a_bell_is_seen_among_words() -> None:
    voice = (
        Stretch(0, 10_000, kind=Kind.SPEECH),
        Stretch(30_000, 0, kind=Kind.BELL),
        Stretch(31_000, 2000, kind=Kind.BELL),
    )
    row = drawn(Lane("voice", Form.MARKS, voice))[2]
    assert row.startswith("voice    ██████████")
    assert "●" in row
