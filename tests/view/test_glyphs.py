import string

import pytest

from conductor.view.glyphs import ABOVE, BELOW, LARGE, SMALL, Font

WANTED = string.ascii_uppercase + string.digits + "'-.,:/()!?+&\"; ◀▶▲▼"


@pytest.mark.parametrize("font", [LARGE, SMALL], ids=lambda font: font.name)
def test_a_font_has_every_character_in_rows_of_one_width(font: Font) -> None:
    for character in WANTED:
        rows = font.glyphs[character]
        assert len(rows) == font.pixels, character
        assert len({len(row) for row in rows}) == 1, character
        assert set("".join(rows)) <= {"#", " "}, character


@pytest.mark.parametrize("font", [LARGE, SMALL], ids=lambda font: font.name)
def test_no_two_characters_of_a_font_look_alike(font: Font) -> None:
    pictures = {character: font.glyphs[character] for character in font.glyphs}
    assert len(set(pictures.values())) == len(pictures)


def test_large_capitals_are_five_pixels_wide_but_for_the_i() -> None:
    widths = {c: len(LARGE.glyphs[c][0]) for c in string.ascii_uppercase}
    assert {c for c, width in widths.items() if width != 5} == {"I"}


def test_marks_fit_the_room_that_is_kept_for_them() -> None:
    assert {len(rows) for rows in ABOVE.values()} == {2}
    assert {len(rows) for rows in BELOW.values()} == {1}
