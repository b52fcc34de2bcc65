import pytest
from hypothesis import given
from hypothesis import strategies as st

from conductor.view.glyphs import LARGE, NARROW, SMALL, TALL, Font
from conductor.view.letters import cells, draw, wrapped


def test_the_large_font_is_drawn_in_half_blocks() -> None:
    assert "\n".join(draw("Hold 3", 40, 4).rows) == (
        "█   █ ▄▀▀▀▄ █     █▀▀▀▄     ▀▀▀▀▄\n"
        "█▄▄▄█ █   █ █     █   █      ▄▄▄▀\n"
        "█   █ █   █ █     █   █         █\n"
        "▀   ▀  ▀▀▀  ▀▀▀▀▀ ▀▀▀▀      ▀▀▀▀ "
    )


def test_computed_sizes_of_names_the_trade_uses() -> None:
    assert (draw("Inhale", 80, 4).width, draw("Inhale", 80, 4).height) == (33, 4)
    broken = draw("Downward-Facing Dog", 60, 9)
    assert (broken.size, broken.scale, broken.height) == ("large", 1, 8)
    assert draw("Downward-Facing Dog", 80, 3).size == "small"


def test_the_largest_size_that_fits_is_taken_and_of_two_the_broad_one() -> None:
    assert (draw("Plank", 90, 4).size, draw("Plank", 28, 4).size) == ("large", "narrow")
    sizes = [draw("Plank", width, 20) for width in (86, 60, 52, 30, 26, 20, 6)]
    assert [(one.size, one.scale) for one in sizes] == [
        ("narrow", 3),
        ("tall", 2),
        ("narrow", 2),
        ("tall", 1),
        ("narrow", 1),
        ("small", 1),
        ("plain", 1),
    ]


def test_ink_is_the_height_of_a_capital() -> None:
    assert draw("Cat", 80, 4).ink == 3.5
    assert draw("Cat", 80, 3).ink == 2.5
    assert draw("Cat", 80, 5).ink == 4.5
    assert draw("Cat", 80, 7).ink == 7
    assert draw("Cat", 80, 2).ink == 0.6


def test_most_bounds_the_ink() -> None:
    assert draw("Cat", 200, 40, 7).ink == 7
    assert draw("Cat", 200, 40, 3).size == "small"


@pytest.mark.parametrize("font", [LARGE, NARROW, TALL, SMALL], ids=lambda font: font.name)
def test_every_sign_is_told_from_every_other(font: Font) -> None:
    assert len(set(font.glyphs.values())) == len(font.glyphs)
    for rows in font.glyphs.values():
        assert len(rows) == font.pixels
        assert len({len(row) for row in rows}) == 1


@pytest.mark.parametrize("font", [LARGE, NARROW, TALL], ids=lambda font: font.name)
def test_letters_are_at_least_half_as_wide_as_high(font: Font) -> None:
    """ISO 9241-3: width to height 0.5 to 1 (as quoted by a maker of screens)."""
    for letter in "ABCDEFGHJKLMNOPQRSTUVWXYZ":
        assert 0.5 <= len(font.glyphs[letter][0]) / font.pixels <= 1


def test_lines_break_after_hyphens_and_at_spaces() -> None:
    one, two = draw("knees-chest", 80, 9, 3.5), draw("knees-chest", 40, 9, 3.5)
    assert (one.height, two.height) == (4, 8)


def test_marks_stand_above_and_below_their_letters() -> None:
    plain, marked = draw("mudra", 60, 6), draw("mudrā", 60, 6)
    assert marked.height == plain.height + 1
    assert marked.rows[1:] == plain.rows
    assert "▄▄▄" in marked.rows[0]
    assert draw("ṣ", 60, 6).rows[:4] == draw("s", 60, 6).rows[:4]


def test_a_doubled_d_keeps_its_corners_and_is_no_o() -> None:
    d, o = draw("D", 20, 7), draw("O", 20, 7)
    assert d.scale == o.scale == 2
    assert d.rows[0].startswith("█")
    assert o.rows[0].startswith(" ")


def test_characters_the_fonts_lack_stand_as_plain_text() -> None:
    drawn = draw("山 pose", 40, 8)
    assert (drawn.size, drawn.rows) == ("plain", ("山 pose",))


def test_plain_text_is_never_cut_off() -> None:
    assert draw("one two three", 5, 1).rows == ("one", "two", "three")
    assert wrapped("extraordinary", 5) == ("extra", "ordin", "ary")


def test_wide_characters_take_two_columns_and_marks_none() -> None:
    assert (cells("山"), cells("a\u0301"), cells("ab")) == (2, 1, 2)


@given(
    st.text(alphabet="abcdEFGH '-.áṭ山", max_size=40),
    st.integers(2, 120),
    st.integers(1, 40),
)
def test_letters_stay_in_their_room_and_no_word_is_lost(text: str, width: int, height: int) -> None:
    drawn = draw(text, width, height)
    assert drawn.width <= width
    if drawn.size == "plain":
        assert "".join(drawn.rows).replace(" ", "") == "".join(text.split())
    else:
        assert drawn.height <= height
